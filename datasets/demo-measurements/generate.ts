import { writeFileSync } from 'node:fs';
import { DEMO_CAR, inventedRun } from './generator/invented-car.ts';
import { DEMO_FAULTS, loggedRun } from './generator/logger.ts';

/** Writes the run logs of the demo's measurements. The tables beside them are typed, as a shop's would be. */
const COURSES = [
  { brakesBelow: 42, powerFactor: 1 },
  { brakesBelow: 38, powerFactor: 0.97, wheelspinAt: 150 },
  { brakesBelow: 45, powerFactor: 1.01 },
];

COURSES.forEach((course, k) => {
  const text = loggedRun(DEMO_CAR, inventedRun(DEMO_CAR, course), DEMO_FAULTS, k + 1);
  writeFileSync(new URL(`run-log-${k + 1}.csv`, import.meta.url), text);
});
