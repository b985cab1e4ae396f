import type { Case } from '@tubgap/casefile';
import type { CaseSetup } from '@tubgap/simulation';
import { normalCumulative } from '@tubgap/statistics';
import { formatQuantity, INCH, wholeDegrees } from '@tubgap/units';
import type { CarState } from '../car-space.ts';
import type { AsBuilt, MarkReading } from '../readings.ts';
import { byLot } from './by-lot.ts';
import { openMarkGaps } from './mark-gaps.ts';
import type { Part } from './part.ts';
import { allStreams } from './streams.ts';

/** Blur of a mark: where on the tub it is, how thick a witness was, run-out. Prior: engineering judgement. */
export const MARK_BLUR = 0.08 * INCH;
/**
 * No chance is taken to be less than this. It keeps logarithms finite and no more: a mark that is there must move the
 * cars that are believed, or be refused, and never be put down to some other cause.
 */
const LEAST_CHANCE = 1e-12;

/** Chance that some runs leave a mark, or none. @param chance  of a mark in one run, 0 to 1 */
export function markChance(touched: boolean, runs: number, chance: number): number {
  const clean = runs * Math.log1p(-Math.min(chance, 1 - 1e-12));
  return Math.max(LEAST_CHANCE, touched ? -Math.expm1(clean) : Math.exp(clean));
}

/** Marks of one tyre in the tub that is in the car: touched or not, over some runs. */
export function markPart(
  source: Case,
  setup: CaseSetup,
  tyre: string,
  readings: readonly MarkReading[],
  built: AsBuilt,
): Part {
  const i = setup.tyres.findIndex((other) => other.name === tyre);
  const gaps = openMarkGaps(source, setup, tyre, readings, built);
  /** Chance of a touch in one run, a reading. */
  const chances = (state: CarState): number[] => {
    gaps.fill(state);
    return readings.map((reading) => {
      const nearest = gaps.of(reading);
      let sum = 0;
      for (let run = 0; run < state.runCount; run++) {
        sum += normalCumulative((reading.thickness - nearest[run]!) / MARK_BLUR);
      }
      return sum / state.runCount;
    });
  };
  const seen = ({ touched, runs }: MarkReading, chance: number): number => markChance(touched, runs, chance);
  return {
    kind: 'marks',
    file: readings[0]!.file,
    names: readings.map(
      ({ file, line, touched, angle, thickness, runs }) =>
        `${file}:${line}, ${touched ? 'touched' : 'not touched'} at ${wholeDegrees(angle)}°${
          thickness > 0 ? `, witness ${formatQuantity(thickness, 'length')}` : ''
        } in ${runs} ${runs === 1 ? 'run' : 'runs'}`,
    ),
    marks: readings,
    streams: allStreams(setup, i),
    nuisances: [],
    costly: true,
    most: 0,
    logLikelihood: (car) => {
      const found = chances(car);
      return readings.reduce((sum, reading, k) => sum + Math.log(seen(reading, found[k]!)), 0);
    },
    // A mark is there or it is not: its own chance stands for that of one at least as odd.
    lower: (car) => {
      const found = chances(car);
      return readings.map((reading, k) => 0.5 * seen(reading, found[k]!));
    },
    simulated: (car, numbers) => {
      gaps.fill(car);
      const marks = readings.map((reading): MarkReading => {
        const nearest = gaps.of(reading);
        const touched = byLot(reading.runs, car.runCount, numbers).some(
          (run) => nearest[run]! + MARK_BLUR * numbers.normal() < reading.thickness,
        );
        return { ...reading, touched };
      });
      return markPart(source, setup, tyre, marks, built);
    },
  };
}
