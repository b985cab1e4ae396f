import { type Case, numbersIn } from '@tubgap/casefile';
import { BLOCK } from '@tubgap/statistics';
import type { CaseRisks } from '../case-risks.ts';
import type { Centres } from '../importance/mixture.ts';
import type { NormalSpace } from '../importance/normal-space.ts';
import { lowestAccepted } from '../pick.ts';
import type { BlockRoom } from '../run-risk.ts';
import { type BlockRange, visitBlocks } from '../runner.ts';
import type { CaseSetup } from '../setup.ts';

/** A run by what it drew, to nine digits; null: the middle value. SI. */
export interface KeptRun {
  car: (number | null)[];
  tyre: (number | null)[];
  axleHeight: number;
}

/** Runs that stand for many, with one tyre in one tub; null where none was found. */
export interface NamedRuns {
  middling: KeptRun | null;
  /** Of the accepted risk; where no height keeps that, the tightest of those looked at. */
  rare: KeptRun | null;
  /** How many were looked at for the tightest; null: `rare` is of the accepted risk. */
  tightestOf: number | null;
}

/** Steps of a tally that the runs must clear at and not one lower; undefined: no height keeps the risk. */
export interface NamedSteps {
  middling: number | undefined;
  rare: number | undefined;
}

/** Where among the runs of each tyre in each tub the middling one and that of the accepted risk stand: [tyre][tub]. */
export const namedSteps = (source: Case, { tyres }: CaseRisks): NamedSteps[][] =>
  tyres.map((tubs, i) =>
    tubs.map(({ touch }) => ({
      middling: lowestAccepted(touch, 0.5),
      rare: lowestAccepted(touch, numbersIn(source, source.tyres[i]!).runRisk),
    })),
  );

/** Blocks looked at: a plain one holds 500 middling runs, the weighted ones hundreds of any accepted risk. */
const LOOKED_AT: readonly BlockRange[] = [
  { drawnBy: 'plain', firstBlock: 0, endBlock: 2 },
  { drawnBy: 'weighted', firstBlock: 0, endBlock: 6 },
];

/** The best run so far for a place in the ranking. */
interface Found {
  step: number;
  requiredHeight: number;
  run: KeptRun;
}

/** Of two runs that are tight enough the one nearer to the step; on one step the tighter. */
const isBetter = (step: number, requiredHeight: number, before: Found | undefined): boolean =>
  before === undefined ||
  step < before.step ||
  (step === before.step && requiredHeight > before.requiredHeight);

/**
 * Runs of a case's own draws that stand for many: each clears at its step and not one lower, or is the next that is
 * tighter. So the one of the accepted risk keeps the gap to be kept just where the pick's verdict does.
 * @param wanted  [tyre][tub]
 * @throws ModelRangeError when a draw leaves what the model knows
 */
export function findNamedRuns(
  source: Case,
  setup: CaseSetup,
  space: NormalSpace,
  centres: Centres,
  wanted: readonly (readonly NamedSteps[])[],
  room: BlockRoom,
): NamedRuns[][] {
  const { seed, draws } = source.simulation;
  const found = wanted.map((tubs) => tubs.map((): Partial<Record<'middling' | 'rare', Found>> => ({})));
  let plain = 0;
  for (const range of LOOKED_AT) {
    const endBlock = Math.min(
      range.endBlock,
      range.drawnBy === 'plain' ? Math.ceil(draws / BLOCK) : Infinity,
    );
    visitBlocks(setup, space, { seed, draws, centres }, { ...range, endBlock }, room, ({ count, steps }) => {
      if (range.drawnBy === 'plain') plain += count;
      wanted.forEach((tubs, i) => {
        const { requiredHeight, capacity } = room.tables[i]!;
        tubs.forEach((asked, t) => {
          for (const name of ['middling', 'rare'] as const) {
            const least = asked[name];
            const best = found[i]![t]!;
            for (let run = 0; run < count; run++) {
              const height = requiredHeight[t * capacity + run]!;
              const step = steps[i]![t]![run]!;
              if (least === undefined) {
                if (range.drawnBy === 'weighted' || (best[name]?.requiredHeight ?? -1) >= height) continue;
              } else if (step < least || !isBetter(step, height, best[name])) continue;
              best[name] = { step, requiredHeight: height, run: keptRun(setup, room, i, run) };
            }
          }
        });
      });
    });
  }
  return found.map((tubs, i) =>
    tubs.map(({ middling, rare }, t) => ({
      middling: middling?.run ?? null,
      rare: rare?.run ?? null,
      tightestOf: wanted[i]![t]!.rare === undefined ? plain : null,
    })),
  );
}

const nineDigits = (value: number): number => Number(value.toPrecision(9));

/** One run of the room, values that are the middle ones left out. */
function keptRun(setup: CaseSetup, room: BlockRoom, tyre: number, run: number): KeptRun {
  const { centralCar, centralTyre } = setup.tyres[tyre]!;
  const columns = room.columns[tyre]!;
  const drawn = (from: readonly Float64Array[], central: Float64Array) =>
    from.map((column, c) => (column[run] === central[c] ? null : nineDigits(column[run]!)));
  return {
    car: drawn(columns.car, centralCar),
    tyre: drawn(columns.tyre, centralTyre),
    axleHeight: nineDigits(room.axleHeights[run]!),
  };
}

/** All values of a kept run. */
export function openRun(
  setup: CaseSetup,
  tyre: number,
  { car, tyre: own, axleHeight }: KeptRun,
): { car: Float64Array; tyre: Float64Array; axleHeight: number } {
  const { centralCar, centralTyre } = setup.tyres[tyre]!;
  return {
    car: Float64Array.from(car, (value, c) => value ?? centralCar[c]!),
    tyre: Float64Array.from(own, (value, c) => value ?? centralTyre[c]!),
    axleHeight,
  };
}
