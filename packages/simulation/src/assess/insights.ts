import type { Case } from '@tubgap/casefile';
import { stepAt } from '../heights.ts';
import type { Centres } from '../importance/mixture.ts';
import type { CarSpread } from '../insight/car-spread.ts';
import { type Change, findChanges } from '../insight/changes.ts';
import type { Drivers } from '../insight/drivers.ts';
import { type NotchCost, notchCosts } from '../insight/notches.ts';
import type { Risk } from '../risk.ts';
import { weightedBlocks } from '../runner.ts';
import type { CaseSetup } from '../setup.ts';
import type { Perform } from '../simulate.ts';
import type { PerformTubs } from '../study/places.ts';
import type { PerformStudy, StudySample } from '../study/study-tasks.ts';
import {
  type Findings,
  findingRisks,
  type PickPlace,
  type Task,
  type TaskResult,
  type Variants,
} from '../tasks.ts';
import { only } from './close-looks.ts';
import type { Counted } from './decision.ts';

/** Of the pick, or of the nearest tub at its height; left out when there is neither. */
export interface Insights {
  drivers?: Drivers;
  changes?: Change[];
  /** Null where too few draws tell. */
  carSpread?: CarSpread | null;
  notches?: NotchCost[];
}

/** Makes the tasks of variants of the case. @param tell  told the share of them that is done */
const performVariants =
  (perform: Perform, variants: Variants, tell: (done: number) => void): PerformStudy =>
  async (parts) => {
    const results = await perform(
      parts.map((part): Task => ({ kind: 'variants', variants, part })),
      tell,
    );
    return results.flatMap((result) => (result.kind === 'variants' ? [result.part] : []));
  };

/** Makes the tasks of the case in other tubs. */
export const performTubs =
  (perform: Perform): PerformTubs =>
  (tubs) =>
    performVariants(perform, { of: 'tubs', tubs }, () => {});

/** The draws of a pick. */
export const drawsOfPick = (source: Case, { runs, centres }: Findings): StudySample => ({
  draws: runs.all.events,
  weightedBlocks: weightedBlocks(source),
  centres,
});

/** What would change the pick, and what its notches cost: variants of the case on the pick's own draws. */
export async function variantsAt(
  source: Case,
  found: Findings,
  place: PickPlace,
  perform: Perform,
  tell: (done: number) => void,
): Promise<Insights> {
  const { tyre, tub, topHeight } = place;
  const { tyres } = findingRisks(found);
  const { lowest } = found.runs.all.tubs[tub]!;
  const sample = drawsOfPick(source, found);
  const riskOf = (row: number, height: number): Risk => tyres[row]![tub]!.touch(stepAt(lowest, height));
  const changes = await findChanges(
    source,
    place,
    sample,
    (height) => riskOf(tyre, height),
    performVariants(perform, { of: 'changes', tyre, tub }, tell),
  );
  const notches = await notchCosts(
    source,
    { tub, topHeight, risks: tyres.map((_, row) => riskOf(row, topHeight)) },
    sample,
    (tubs) => performVariants(perform, { of: 'tubs', tubs }, tell),
  );
  return { changes, ...(notches.length === 0 ? {} : { notches }) };
}

export function insights(results: readonly TaskResult[]): Insights {
  const drivers = only(results, 'drivers')?.drivers;
  const carSpread = only(results, 'car spread')?.spread;
  return {
    ...(drivers === undefined ? {} : { drivers }),
    ...(carSpread === undefined ? {} : { carSpread }),
  };
}

/** The pick that insights are about: the tub to build, or else the nearest to it, with the tyre that decides it. */
export function pickPlace(setup: CaseSetup, found: Counted, centres: Centres): PickPlace | undefined {
  const tub = found.chosen ?? found.nearest;
  const height = tub === undefined ? undefined : found.picks[tub]?.height;
  if (tub === undefined || height === undefined) return undefined;
  const tyre = setup.tyres.findIndex((one) => one.name === height.limitingTyre);
  return { centres, tyre, tub, topHeight: height.topHeight };
}
