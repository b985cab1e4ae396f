import type { Readings } from '../src/index.ts';
import { noReadings } from '../src/index.ts';

const INCH = 0.0254;
const PSI = 6894.757293168361;
const DEGREE = Math.PI / 180;
const TYRE = { date: '', tyre: 'tall-slick' };

/** Places of six tell-tale readings of the demo's slick: a run or a few each. What they read is made anew for each car. */
export const sixTellTales = (): Readings => ({
  ...noReadings(),
  tellTales: [1, 1, 1, 3, 3, 5].map((runs, k) => ({
    ...TYRE,
    file: 'travel.csv',
    line: k + 2,
    travel: 2 * INCH,
    runs,
    sd: 0.1 * INCH,
  })),
});

/** The same with rollouts and with marks on witnesses of several thicknesses. */
export const withRolloutsAndMarks = (): Readings => ({
  ...sixTellTales(),
  rollouts: [4.5, 6, 7.5].map((psi, k) => ({
    ...TYRE,
    file: 'rollout.csv',
    line: k + 2,
    pressure: psi * PSI,
    rollout: 2.69,
    sd: 0.1 * INCH,
  })),
  marks: (
    [
      [0, 2, 3],
      [15, 2, 3],
      [15, 3, 1],
      [35, 2.5, 3],
      [35, 3.5, 1],
    ] as const
  ).map(([angle, thickness, runs], k) => ({
    ...TYRE,
    file: 'marks.csv',
    line: k + 2,
    angle: angle * DEGREE,
    touched: false,
    thickness: thickness * INCH,
    runs,
    built: { tub: 'street-42', topHeight: 39.3125 * INCH, centreForward: undefined },
  })),
});
