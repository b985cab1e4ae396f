import type { Case } from '@tubgap/casefile';
import { carColumn, createMomentTable, createRunTable, evaluateRuns, fillMomentTable } from '@tubgap/core';
import { axleHeightsOf, type CaseSetup, carStream, clearanceOf } from '@tubgap/simulation';
import { normalCumulative } from '@tubgap/statistics';
import { formatQuantity } from '@tubgap/units';
import { type CarState, MOST_RUNS } from '../car-space.ts';
import { type AsBuilt, type RunsReading, sameBuilt } from '../readings.ts';
import { builtTub } from './gaps.ts';
import { MARK_BLUR, markChance } from './marks.ts';
import type { Part } from './part.ts';
import { type Range, spreadOver } from './spread-speeds.ts';
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
/** Stands for all the ways of the case. */
const ANY: Range = { low: 0, high: 1 };
/** Touches further than this above the blur's middle have no chance worth a number. */
const BLURS = 7;

/** Readings that one pass of the kernel answers: all whose speeds are told, or all where the case has them. */
interface Pass {
  /** Of each reading the range of its speeds. */
  ranges: Range[];
  /** Each with the place of its tub in the pass's setup. */
  readings: { index: number; tub: number; top: number }[];
  built: AsBuilt[];
}

function passesOf(readings: readonly RunsReading[]): Pass[] {
  const passes: Record<'told' | 'asCase', Pass> = {
    told: { ranges: [], readings: [], built: [] },
    asCase: { ranges: [], readings: [], built: [] },
  };
  readings.forEach(({ speeds, built }, index) => {
    const pass = speeds === undefined ? passes.asCase : passes.told;
    let tub = pass.built.findIndex((one) => sameBuilt({ ...one, topHeight: built.topHeight }, built));
    if (tub < 0) tub = pass.built.push(built) - 1;
    pass.readings.push({ index, tub, top: built.topHeight });
    // As the case has them, a range stands for the even shares of the runs and not for their speeds.
    pass.ranges.push(speeds ?? ANY);
  });
  return Object.values(passes).filter(({ readings: own }) => own.length > 0);
}

/** Chances of a touch of the whole tub in one run of a car, a reading; over those of the car before. */
function openTouches(
  source: Case,
  setup: CaseSetup,
  i: number,
  readings: readonly RunsReading[],
): (state: CarState) => {
  chances: Float64Array;
  /** Whether a run touched. @param share  which of the reading's runs, evenly from 0 to 1 */
  touchedIn: (reading: number, share: number, blur: number) => boolean;
} {
  const axleHeights = new Float64Array(MOST_RUNS);
  const moments = createMomentTable(MOST_RUNS);
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
    return {
      ...pass,
      clearance,
      floors,
      table: createRunTable(clearance, MOST_RUNS),
      spread: spreadOver(pass.ranges),
    };
  });
  return (state) => {
    const all = state.runs();
    const { runCount } = state;
    axleHeightsOf(setup, all, runCount, axleHeights);
    for (const { ranges, readings: own, clearance, floors, table, spread } of passes) {
      const { values, shares } = spread(runCount);
      // Beside the Sobol' points the speeds, in their order, make a set of Hammersley's.
      const car = all[i]!.car.map((column, c) => (c === TRAP_SPEED && ranges[0] !== ANY ? values : column));
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
      own.forEach(({ index, tub, top }, k) => {
        const share = shares[k]!;
        let sum = 0;
        for (let run = 0; run < runCount; run++) {
          if (share[run] === 0) continue;
          sum +=
            share[run]! * normalCumulative((table.contactHeight[tub * MOST_RUNS + run]! - top) / MARK_BLUR);
        }
        chances[index] = sum;
      });
    }
    return {
      chances,
      touchedIn: (reading, share, blur) => {
        const {
          readings: own,
          table,
          spread,
        } = passes.find((pass) => pass.readings.some(({ index }) => index === reading))!;
        const k = own.findIndex(({ index }) => index === reading);
        const { tub, top } = own[k]!;
        const run = spread(runCount).runAt(k, share);
        return table.contactHeight[tub * MOST_RUNS + run]! - top + MARK_BLUR * blur > 0;
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
        const lots = Array.from({ length: reading.runs }, () => numbers.uniform());
        const hits = lots.map((share) => touchedIn(k, share, numbers.normal()) && numbers.uniform() < found);
        return { ...reading, marked: hits.includes(true) };
      });
      return runMarkPart(source, setup, tyre, made);
    },
  };
}
