import type { Case } from '@tubgap/casefile';
import type { CaseSetup } from '@tubgap/simulation';
import type { Readings } from '../readings.ts';
import { gapPart } from './gaps.ts';
import { markPart } from './marks.ts';
import type { Part } from './part.ts';
import { rollingPart } from './rolling.ts';
import { loadedPart, massPart, rolloutPart } from './standing.ts';
import { tellTalePart } from './tell-tales.ts';

/** Readings of one tyre and one file stand together: their errors have something in common. */
function grouped<R extends { tyre: string; file: string }>(
  readings: readonly R[],
  make: (tyre: string, own: readonly R[]) => Part,
): Part[] {
  const groups = new Map<string, R[]>();
  for (const reading of readings) {
    const key = `${reading.tyre}\n${reading.file}`;
    groups.set(key, [...(groups.get(key) ?? []), reading]);
  }
  return [...groups.values()].map((own) => make(own[0]!.tyre, own));
}

/**
 * Every kind of evidence that there is, as parts of one likelihood.
 * @param ofTheShop  whether errors of a shop's tools are nuisances, which its cars may share
 */
export function evidenceParts(source: Case, setup: CaseSetup, readings: Readings, ofTheShop = false): Part[] {
  const { rollouts, masses, loaded, tellTales, gaps, marks, logs } = readings;
  const built = gaps[0]?.built ?? marks[0]?.built;
  const tyres = [...new Set(logs.map(({ tyre }) => tyre))];
  return [
    ...grouped(rollouts, (tyre, own) => rolloutPart(setup, tyre, own, ofTheShop)),
    ...grouped(masses, (tyre, own) => massPart(setup, tyre, own)),
    ...grouped(loaded, (tyre, own) => loadedPart(setup, tyre, own)),
    ...(gaps.length > 0 && built ? [gapPart(source, setup, gaps, built)] : []),
    ...tyres.map((tyre) =>
      rollingPart(
        setup,
        tyre,
        logs.filter((log) => log.tyre === tyre),
      ),
    ),
    ...grouped(tellTales, (tyre, own) => tellTalePart(setup, tyre, own)),
    ...(built ? grouped(marks, (tyre, own) => markPart(source, setup, tyre, own, built)) : []),
  ];
}
