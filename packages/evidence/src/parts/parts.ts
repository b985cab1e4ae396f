import type { Case } from '@tubgap/casefile';
import type { CaseSetup } from '@tubgap/simulation';
import type { AsBuilt, Readings } from '../readings.ts';
import { gapPart } from './gaps.ts';
import { markPart } from './marks.ts';
import type { Part } from './part.ts';
import { rollingPart } from './rolling.ts';
import { runMarkPart } from './run-marks.ts';
import { loadedPart, massPart, rolloutPart } from './standing.ts';
import { tellTalePart } from './tell-tales.ts';

/** Readings of one tyre and one file stand together: their errors have something in common. */
function grouped<R extends { tyre: string; file: string }>(
  readings: readonly R[],
  make: (tyre: string, own: readonly R[]) => Part,
): Part[] {
  return groupedBy(readings, ({ tyre, file }) => `${tyre}\n${file}`).map((own) => make(own[0]!.tyre, own));
}

function groupedBy<R>(readings: readonly R[], keyOf: (reading: R) => string): R[][] {
  const groups = new Map<string, R[]>();
  for (const reading of readings) {
    const key = keyOf(reading);
    groups.set(key, [...(groups.get(key) ?? []), reading]);
  }
  return [...groups.values()];
}

/** Readings of a tub that stood elsewhere are another part: what is seen of it hangs on where it stood. */
const byPlace = <R extends { built: AsBuilt }>(readings: readonly R[]): R[][] =>
  groupedBy(readings, ({ built }) => JSON.stringify(built));

/**
 * Every kind of evidence that there is, as parts of one likelihood.
 * @param ofTheShop  whether errors of a shop's tools are nuisances, which its cars may share
 */
export function evidenceParts(source: Case, setup: CaseSetup, readings: Readings, ofTheShop = false): Part[] {
  const { rollouts, masses, loaded, tellTales, gaps, marks, runs, logs } = readings;
  const tyres = [...new Set(logs.map(({ tyre }) => tyre))];
  return [
    ...grouped(rollouts, (tyre, own) => rolloutPart(setup, tyre, own, ofTheShop)),
    ...grouped(masses, (tyre, own) => massPart(setup, tyre, own)),
    ...grouped(loaded, (tyre, own) => loadedPart(setup, tyre, own)),
    ...byPlace(gaps).map((own) => gapPart(source, setup, own, own[0]!.built)),
    ...tyres.map((tyre) =>
      rollingPart(
        setup,
        tyre,
        logs.filter((log) => log.tyre === tyre),
      ),
    ),
    ...grouped(tellTales, (tyre, own) => tellTalePart(setup, tyre, own)),
    ...byPlace(marks).flatMap((at) =>
      grouped(at, (tyre, own) => markPart(source, setup, tyre, own, own[0]!.built)),
    ),
    ...groupedBy(runs, ({ tyre }) => tyre).map((own) => runMarkPart(source, setup, own[0]!.tyre, own)),
  ];
}
