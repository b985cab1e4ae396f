import type { RunLog } from '@tubgap/casefile';
import { INCH, MPH } from '@tubgap/units';
import type { Readings, Rejected } from '../readings.ts';
import { PRESSURE, TRAVEL } from '../tables/columns.ts';
import { rangeDoubt, shown } from '../tables/measured-table.ts';
import { REACH, runBins } from './log-bins.ts';
import { readLogColumns } from './log-columns.ts';

/** Of travel from a sensor, one standard deviation. Prior: engineering judgement. */
const TRAVEL_SD = 0.12 * INCH;
/** Fewest bins of free rolling from which anything is said about growth. */
const FEWEST_BINS = 4;
/** Furthest that a rolling radius may be from what the tyre's size leads one to expect. */
const FAR = 0.12;

/** Samples that may lie within the time that speeds are smoothed over. */
const MOST_NEAR = 2000;
/** Beyond what the case's own speeds may be, m/s. */
const FASTEST = 160;

/** Whether samples lie so close in time that their times cannot be what they claim. */
function tooClose(time: Float64Array): boolean {
  for (let i = MOST_NEAR; i < time.length; i++) {
    if (time[i]! - time[i - MOST_NEAR]! < 2 * REACH) return true;
  }
  return false;
}

/** Slips of units that would explain a radius that far off. */
const SLIPS: readonly (readonly [number, string])[] = [
  [1.609344, 'the speed looks like km/h read as mph'],
  [1 / 1.609344, 'the speed looks like mph read as km/h'],
  [2.2369363, 'the speed looks like mph read as m/s'],
  [MPH, 'the speed looks like m/s read as mph'],
  [3.6, 'the speed looks like km/h read as m/s'],
  [1 / 3.6, 'the speed looks like m/s read as km/h'],
];

function slipWords(found: number, expected: number, axleRatio: number): string {
  const ratio = found / expected;
  const slip = SLIPS.find(([factor]) => Math.abs(ratio / factor - 1) < FAR);
  if (slip) return slip[1];
  if (Math.abs(ratio / axleRatio - 1) < FAR)
    return 'the rpm look like those of the wheel, not of the driveshaft';
  if (Math.abs(ratio * axleRatio - 1) < FAR)
    return 'the rpm look like those of the engine or of a shaft before the axle';
  return 'check axle ratio, units and columns';
}

/**
 * Reads one run's log.
 * @param expected  rolling radius that the case's tyre is thought to have, m
 */
export function readLog(
  file: string,
  text: string,
  log: RunLog,
  expected: number,
  into: Readings,
): Rejected[] {
  const { samples, rejected } = readLogColumns(file, text, log);
  if (samples === undefined) return rejected;
  const refuse = (reason: string): Rejected[] => [...rejected, { file, line: 0, reason }];
  if (samples.time.length < 100) {
    return refuse(`the log has ${samples.time.length} usable lines; a run takes at least 100`);
  }
  if (tooClose(samples.time)) {
    return refuse(
      `more than ${MOST_NEAR} lines lie within ${2 * REACH} s; check the unit of the time (s, ms or min), or export fewer a second`,
    );
  }
  const { bins, topSpeed, passedOver, travel, pressure } = runBins(samples, log.axleRatio);
  const rolling = bins.filter(({ phase }) => phase === 'rolling');
  if (rolling.length < FEWEST_BINS) {
    return refuse(
      `only ${rolling.length} speeds of free rolling between lift and brakes; at least ${FEWEST_BINS} are needed. Let it roll longer before braking`,
    );
  }
  const middle = rolling.map(({ radius }) => radius).sort((a, b) => a - b)[rolling.length >> 1]!;
  if (Math.abs(Math.log(middle / expected)) > FAR) {
    return refuse(
      `speed over wheel speed gives a rolling radius of ${(middle / INCH).toFixed(1)} in, the tyre has about ${(expected / INCH).toFixed(1)} in: ${slipWords(middle, expected, log.axleRatio)}`,
    );
  }
  if (topSpeed > FASTEST) {
    return refuse(
      `the car goes ${topSpeed.toPrecision(4)} m/s; at most ${FASTEST} m/s (358 mph) are believed. Check the unit of the speed`,
    );
  }
  const pressureDoubt = pressure === undefined ? undefined : rangeDoubt(PRESSURE, pressure);
  if (pressureDoubt !== undefined) {
    return refuse(
      `the tyre's pressure in the log, ${shown(pressure!, PRESSURE)}, is ${pressureDoubt}. Check its unit, or leave it out of runLog.columns`,
    );
  }
  const moved = travel === undefined ? undefined : travel * log.travelRatio;
  const travelDoubt = moved === undefined ? undefined : rangeDoubt(TRAVEL, moved);
  if (travelDoubt !== undefined) {
    return refuse(
      `the wheel's travel in the log, ${shown(moved!, TRAVEL)}, is ${travelDoubt}. Check its unit, or leave it out of runLog.columns`,
    );
  }
  const origin = { file, line: 0, date: '', tyre: log.tyre };
  into.logs.push({ ...origin, bins, pressure, topSpeed, samples: samples.time.length, passedOver });
  if (moved !== undefined && moved > 0)
    into.tellTales.push({ ...origin, travel: moved, runs: 1, sd: TRAVEL_SD });
  return rejected;
}
