import type { RunLog } from '@tubgap/casefile';
import {
  DEMO_CAR,
  type InventedCar,
  inventedRun,
  type RunCourse,
} from '../../../datasets/demo-measurements/generator/invented-car.ts';
import {
  DEMO_FAULTS,
  type LoggerFaults,
  loggedRun,
} from '../../../datasets/demo-measurements/generator/logger.ts';
import { noReadings, type Readings, type Rejected, readLog } from '../src/index.ts';

/** How the invented logger's files are read. */
export const LOGGER: RunLog = {
  axleRatio: DEMO_CAR.axleRatio,
  travelRatio: 1,
  tyre: 'tall-slick',
  columns: {
    time: { head: 'Time [s]' },
    speed: { head: 'GPS speed [mph]' },
    driveshaft: { head: 'Driveshaft [rpm]' },
    throttle: { head: 'Throttle [%]' },
  },
};

const COURSE: RunCourse = { brakesBelow: 40, powerFactor: 1 };

/** Some invented runs of an invented car as a logger would have written them, read back. */
export function loggedReadings(
  car: InventedCar,
  faults: Partial<LoggerFaults>,
  seed: number,
  courses: readonly RunCourse[] = [COURSE, { ...COURSE, powerFactor: 0.97 }],
  change: (text: string) => string = (text) => text,
): { readings: Readings; rejected: Rejected[] } {
  const readings = noReadings();
  const rejected = courses.flatMap((course, k) => {
    const text = loggedRun(car, inventedRun(car, course), { ...DEMO_FAULTS, ...faults }, 100 * seed + k);
    return readLog(`run-log-${k + 1}.csv`, change(text), LOGGER, 0.442, readings);
  });
  return { readings, rejected };
}

/** One such run as a logger's file. */
export const loggedText = (seed: number): string =>
  loggedRun(DEMO_CAR, inventedRun(DEMO_CAR, COURSE), DEMO_FAULTS, seed);

export { DEMO_CAR };
