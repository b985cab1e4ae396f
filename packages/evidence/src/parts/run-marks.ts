import type { Case } from '@tubgap/casefile';
import { carColumn, createMomentTable, createRunTable, evaluateRuns, fillMomentTable } from '@tubgap/core';
import { axleHeightsOf, type CaseSetup, carStream, clearanceOf, type DrawColumns } from '@tubgap/simulation';
import { normalCumulative } from '@tubgap/statistics';
import { formatQuantity } from '@tubgap/units';
import { type CarState, MOST_RUNS } from '../car-space.ts';
import { type AsBuilt, type RunsReading, sameBuilt } from '../readings.ts';
import { byLot } from './by-lot.ts';
import { builtTub } from './gaps.ts';
import { MARK_BLUR, markChance } from './marks.ts';
import type { Part } from './part.ts';
import { allStreams } from './streams.ts';

/**
 * Chance that a touch anywhere on the bare tub leaves a mark and that somebody finds it. Prior: engineering judgement. It is
 * uniform between hard ends: so more runs without a mark lower what is believed of the touches whatever the cars are, which
 * a law with a tail towards 0 does not promise.
 */
const FOUND = { least: 0.6, most: 0.97 } as const;
export const FOUND_NAME = 'chance that a touch is found';

const foundChance = (z: number): number =>
  FOUND.least + (FOUND.most - FOUND.least) * Math.min(1, Math.max(0, normalCumulative(z)));

const TRAP_SPEED = carColumn('trapSpeed');
/** Touches further than this above the blur's middle have no chance worth a number. */
const BLURS = 7;

/** Readings that one pass of the kernel answers: of one range of speeds. */
interface Pass {
  speeds: RunsReading['speeds'];
  /** Each with the place of its tub in the pass's setup. */
  readings: { index: number; tub: number; top: number }[];
  built: AsBuilt[];
}

function passesOf(readings: readonly RunsReading[]): Pass[] {
  const passes: Pass[] = [];
  readings.forEach(({ speeds, built }, index) => {
    let pass = passes.find((one) => one.speeds?.low === speeds?.low && one.speeds?.high === speeds?.high);
    if (pass === undefined) {
      pass = { speeds, readings: [], built: [] };
      passes.push(pass);
    }
    let tub = pass.built.findIndex((one) => sameBuilt({ ...one, topHeight: built.topHeight }, built));
    if (tub < 0) tub = pass.built.push(built) - 1;
    pass.readings.push({ index, tub, top: built.topHeight });
  });
  return passes;
}

/** Chances of a touch of the whole tub in one run of a car, a reading; over those of the car before. */
function openTouches(
  source: Case,
  setup: CaseSetup,
  i: number,
  readings: readonly RunsReading[],
): (state: CarState) => {
  chances: Float64Array;
  touchedIn: (reading: number, run: number, blur: number) => boolean;
} {
  const axleHeights = new Float64Array(MOST_RUNS);
  const moments = createMomentTable(MOST_RUNS);
  const spread = new Float64Array(MOST_RUNS);
  const chances = new Float64Array(readings.length);
  const passes = passesOf(readings).map((pass) => {
    const clearance = {
      ...clearanceOf(setup, i),
      tubs: pass.built.map((built) => builtTub(source, setup, built)),
      hardPoints: [],
      reserve: 0,
    };
    const floors = Float64Array.from(
      pass.built,
      (_, t) =>
        Math.min(...pass.readings.filter(({ tub }) => tub === t).map(({ top }) => top)) - BLURS * MARK_BLUR,
    );
    return { ...pass, clearance, floors, table: createRunTable(clearance, MOST_RUNS) };
  });
  const placeOf = new Map(
    passes.flatMap(({ readings: own, table }) =>
      own.map(({ index, tub, top }) => [index, { table, first: tub * MOST_RUNS, top }] as const),
    ),
  );
  /** The car's columns with the runs' own speeds, evenly over their range: beside the Sobol' points a set of Hammersley's. */
  const atSpeeds = (columns: DrawColumns, speeds: RunsReading['speeds'], count: number) => {
    if (speeds === undefined) return columns.car;
    for (let run = 0; run < count; run++) {
      spread[run] = speeds.low + ((speeds.high - speeds.low) * (run + 0.5)) / count;
    }
    return columns.car.map((column, c) => (c === TRAP_SPEED ? spread : column));
  };
  return (state) => {
    const all = state.runs();
    const { runCount } = state;
    axleHeightsOf(setup, all, runCount, axleHeights);
    for (const { speeds, readings: own, clearance, floors, table } of passes) {
      const car = atSpeeds(all[i]!, speeds, runCount);
      fillMomentTable(clearance, car, runCount, moments);
      evaluateRuns(
        clearance,
        setup.tyres[i]!.setup,
        car,
        all[i]!.tyre,
        moments,
        axleHeights,
        runCount,
        table,
        floors,
      );
      for (const { index, tub, top } of own) {
        let sum = 0;
        for (let run = 0; run < runCount; run++) {
          sum += normalCumulative((table.contactHeight[tub * MOST_RUNS + run]! - top) / MARK_BLUR);
        }
        chances[index] = sum / runCount;
      }
    }
    return {
      chances,
      touchedIn: (reading, run, blur) => {
        const { table, first, top } = placeOf.get(reading)!;
        return table.contactHeight[first + run]! - top + MARK_BLUR * blur > 0;
      },
    };
  };
}

/**
 * Runs of one tyre after which the whole tub, arc, legs, their ends and notches, was looked at: no mark found, or one. Hard
 * points are not looked at. A run touches where it needs more height than the tub has, blurred as marks are; a touch is found
 * with a chance that is itself not known, the same for whoever looks.
 */
export function runMarkPart(
  source: Case,
  setup: CaseSetup,
  tyre: string,
  readings: readonly RunsReading[],
): Part {
  const i = setup.tyres.findIndex((other) => other.name === tyre);
  const touches = openTouches(source, setup, i, readings);
  const seen = (car: CarState): number[] => {
    const { chances } = touches(car);
    const found = foundChance(car.nuisance(FOUND_NAME));
    return readings.map(({ marked, runs }, k) => markChance(marked, runs, found * chances[k]!));
  };
  const streams = allStreams(setup, i);
  if (readings.every(({ speeds }) => speeds !== undefined)) streams.delete(carStream('trapSpeed'));
  return {
    kind: 'runs',
    file: [...new Set(readings.map(({ file }) => file))].join(', '),
    names: readings.map(
      ({ file, line, marked, runs, built }) =>
        `${file}:${line}, ${marked ? 'marked' : 'no mark'} in ${runs} ${runs === 1 ? 'run' : 'runs'}, top at ${formatQuantity(built.topHeight, 'length')}`,
    ),
    streams,
    nuisances: [FOUND_NAME],
    costly: true,
    most: 0,
    logLikelihood: (car) => seen(car).reduce((sum, chance) => sum + Math.log(chance), 0),
    // A mark is there or it is not: its own chance stands for that of one at least as odd.
    lower: (car) => seen(car).map((chance) => 0.5 * chance),
    events: {
      happened: readings.map(({ marked }) => marked),
      chances: (car) => {
        const { chances } = touches(car);
        const found = foundChance(car.nuisance(FOUND_NAME));
        return readings.map(({ runs }, k) => markChance(true, runs, found * chances[k]!));
      },
    },
    simulated: (car, numbers) => {
      const { touchedIn } = touches(car);
      const found = foundChance(car.nuisance(FOUND_NAME));
      const made = readings.map((reading, k): RunsReading => {
        const lots = byLot(reading.runs, car.runCount, numbers);
        const hits = lots.map((run) => touchedIn(k, run, numbers.normal()) && numbers.uniform() < found);
        return { ...reading, marked: hits.includes(true) };
      });
      return runMarkPart(source, setup, tyre, made);
    },
  };
}
