import { CAR_INPUTS, largestDrop, TYRE_INPUTS } from '@tubgap/core';
import type { CaseSetup } from '@tubgap/simulation';
import { normalCumulative, normalDensity } from '@tubgap/statistics';
import { formatQuantity } from '@tubgap/units';
import { type CarState, MOST_RUNS } from '../car-space.ts';
import type { TellTaleReading } from '../readings.ts';
import { byLot } from './by-lot.ts';
import type { Part } from './part.ts';
import { allStreams } from './streams.ts';

const carDraw = new Float64Array(CAR_INPUTS.length);
const tyreDraw = new Float64Array(TYRE_INPUTS.length);

/** Furthest bump travel of each common run, m. */
function drops(setup: CaseSetup, tyre: number, state: CarState, out: Float64Array): void {
  const columns = state.runs()[tyre]!;
  for (let run = 0; run < state.runCount; run++) {
    for (let c = 0; c < carDraw.length; c++) carDraw[c] = columns.car[c]![run]!;
    for (let c = 0; c < tyreDraw.length; c++) tyreDraw[c] = columns.tyre[c]![run]!;
    out[run] = largestDrop(carDraw, tyreDraw, setup.tyres[tyre]!.run);
  }
}

/** Tell-tales of one tyre's runs: the furthest of some runs, each of which may go in any of the common ways. */
export function tellTalePart(setup: CaseSetup, tyre: string, readings: readonly TellTaleReading[]): Part {
  const i = setup.tyres.findIndex((other) => other.name === tyre);
  const found = new Float64Array(MOST_RUNS);
  const below = ({ travel, sd }: TellTaleReading, runCount: number): { chance: number; density: number } => {
    let chance = 0;
    let density = 0;
    for (let run = 0; run < runCount; run++) {
      const z = (travel - found[run]!) / sd;
      chance += normalCumulative(z) / runCount;
      density += normalDensity(z) / runCount;
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
        const { chance, density } = below(reading, car.runCount);
        const { runs } = reading;
        sum += Math.log(runs * density + 1e-12) + (runs - 1) * Math.log(Math.min(1, chance) + 1e-300);
      }
      return sum;
    },
    lower: (car) => {
      drops(setup, i, car, found);
      return readings.map((reading) => below(reading, car.runCount).chance ** reading.runs);
    },
    simulated: (car, numbers) => {
      drops(setup, i, car, found);
      const seen = readings.map((reading): TellTaleReading => {
        const each = byLot(reading.runs, car.runCount, numbers).map(
          (run) => found[run]! + reading.sd * numbers.normal(),
        );
        return { ...reading, travel: Math.max(...each) };
      });
      return tellTalePart(setup, tyre, seen);
    },
  };
}
