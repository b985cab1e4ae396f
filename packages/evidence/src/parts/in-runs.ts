import { type Case, formatQuantity } from '@tubgap/casefile';
import { type AngleTable, CAR_INPUTS, fillAngles, largestDrop, TYRE_INPUTS } from '@tubgap/core';
import { axleHeightsOf, type CaseSetup } from '@tubgap/simulation';
import { normalCumulative, normalDensity } from '@tubgap/uncertainty';
import { type CarState, COMMON_RUNS } from '../car-space.ts';
import type { AsBuilt, MarkReading, TellTaleReading } from '../readings.ts';
import { builtTub } from './gaps.ts';
import type { Part } from './part.ts';
import { allStreams } from './streams.ts';

const INCH = 0.0254;
/** Blur of a mark: where on the tub it is, how thick a witness was, run-out. Prior: engineering judgement. */
const MARK_BLUR = 0.08 * INCH;
/**
 * No chance is taken to be less than this. It keeps logarithms finite and no more: a mark that is there must move the
 * cars that are believed, or be refused, and never be put down to some other cause.
 */
const LEAST_CHANCE = 1e-12;

const carDraw = new Float64Array(CAR_INPUTS.length);
const tyreDraw = new Float64Array(TYRE_INPUTS.length);

/** Furthest bump travel of each common run, m. */
function drops(setup: CaseSetup, tyre: number, state: CarState, out: Float64Array): void {
  const columns = state.runs()[tyre]!;
  for (let run = 0; run < COMMON_RUNS; run++) {
    for (let c = 0; c < carDraw.length; c++) carDraw[c] = columns.car[c]![run]!;
    for (let c = 0; c < tyreDraw.length; c++) tyreDraw[c] = columns.tyre[c]![run]!;
    out[run] = largestDrop(carDraw, tyreDraw, setup.clearance);
  }
}

/** Tell-tales of one tyre's runs: the furthest of some runs, each of which may go in any of the common ways. */
export function tellTalePart(setup: CaseSetup, tyre: string, readings: readonly TellTaleReading[]): Part {
  const i = setup.tyres.findIndex((other) => other.name === tyre);
  const found = new Float64Array(COMMON_RUNS);
  const below = ({ travel, sd }: TellTaleReading): { chance: number; density: number } => {
    let chance = 0;
    let density = 0;
    for (const drop of found) {
      chance += normalCumulative((travel - drop) / sd) / COMMON_RUNS;
      density += normalDensity((travel - drop) / sd) / COMMON_RUNS;
    }
    return { chance, density };
  };
  return {
    kind: 'travel',
    file: [...new Set(readings.map(({ file }) => file))].join(', '),
    names: readings.map(
      ({ file, line, travel, runs }) =>
        `${file}${line > 0 ? `:${line}` : ''}, ${formatQuantity(travel, 'length')} over ${runs} ${runs === 1 ? 'run' : 'runs'}`,
    ),
    streams: allStreams(setup, i),
    nuisances: [],
    costly: true,
    most: readings.reduce((sum, { runs }) => sum + Math.log(runs), 0),
    logLikelihood: (car) => {
      drops(setup, i, car, found);
      let sum = 0;
      for (const reading of readings) {
        const { chance, density } = below(reading);
        const { runs } = reading;
        sum += Math.log(runs * density + 1e-12) + (runs - 1) * Math.log(Math.min(1, chance) + 1e-300);
      }
      return sum;
    },
    lower: (car) => {
      drops(setup, i, car, found);
      return readings.map((reading) => below(reading).chance ** reading.runs);
    },
  };
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
  const tub = builtTub(source, setup, built);
  const angles = Float64Array.from(new Set(readings.map(({ angle }) => angle))).sort();
  const table = (): AngleTable => ({
    capacity: COMMON_RUNS,
    angles,
    values: new Float64Array(angles.length * COMMON_RUNS),
  });
  const radii = table();
  const gaps = { tub, topHeight: built.topHeight, atRest: table(), inRun: table() };
  const axleHeights = new Float64Array(COMMON_RUNS);
  /** Chance of a touch in one run, a reading. */
  const chances = (state: CarState): number[] => {
    const columns = state.runs();
    axleHeightsOf(setup, columns, COMMON_RUNS, axleHeights);
    fillAngles(setup.clearance, setup.tyres[i]!.setup, columns[i]!, axleHeights, COMMON_RUNS, radii, gaps);
    return readings.map(({ angle, thickness }) => {
      const first = angles.indexOf(angle) * COMMON_RUNS;
      let sum = 0;
      for (let run = 0; run < COMMON_RUNS; run++) {
        sum += normalCumulative((thickness - gaps.inRun.values[first + run]!) / MARK_BLUR);
      }
      return sum / COMMON_RUNS;
    });
  };
  const seen = ({ touched, runs }: MarkReading, chance: number): number => {
    const clean = Math.exp(runs * Math.log1p(-Math.min(chance, 1 - 1e-12)));
    return Math.max(
      LEAST_CHANCE,
      touched ? -Math.expm1(runs * Math.log1p(-Math.min(chance, 1 - 1e-12))) : clean,
    );
  };
  return {
    kind: 'marks',
    file: readings[0]!.file,
    names: readings.map(
      ({ file, line, touched, angle, thickness, runs }) =>
        `${file}:${line}, ${touched ? 'touched' : 'not touched'} at ${Math.round((angle * 180) / Math.PI)}°${
          thickness > 0 ? `, witness ${formatQuantity(thickness, 'length')}` : ''
        } in ${runs} ${runs === 1 ? 'run' : 'runs'}`,
    ),
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
  };
}
