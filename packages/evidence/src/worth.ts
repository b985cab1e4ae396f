import { type CarInput, carColumn, grownTyre, type TyreInput, tyreColumn } from '@tubgap/core';
import type { CaseSetup } from '@tubgap/simulation';
import { numberSource, sampleQuantile } from '@tubgap/statistics';
import { INCH, PSI } from '@tubgap/units';
import type { CarSpace, CarState } from './car-space.ts';
import { pickEstimate } from './pick-estimate.ts';

/** Something that a shop could measure: the numbers it would show, and their errors, one standard deviation. */
export interface Candidate {
  label: string;
  reads: (state: CarState) => number[];
  sd: number[];
}

/** What a measurement is worth before it is made, in the height that the accepted risk asks for. */
export interface Worth {
  label: string;
  /** Expected fall of that height, m. */
  expected: number;
  /** Eight in ten outcomes change it by amounts between these, m; negative: lower. */
  low: number;
  high: number;
}

const OUTCOMES = 40;
/** Changes of the estimate smaller than this are its own noise, m. */
const NOISE = INCH / 64;

/** What could be measured on a tyre and its car. Errors are priors: engineering judgement. @param speed  at the finish, m/s */
export function candidates(setup: CaseSetup, tyre: number, speed: number): Candidate[] {
  const own = setup.tyres[tyre]!;
  const car = (label: string, ...what: (readonly [CarInput, number])[]): Candidate => ({
    label,
    reads: (state) => what.map(([name]) => state.car[tyre]![carColumn(name)]!),
    sd: what.map(([, sd]) => sd),
  });
  const ofTyre = (label: string, ...what: (readonly [TyreInput, number])[]): Candidate => ({
    label: `${label}, ${own.name}`,
    reads: (state) => what.map(([name]) => state.tyre[tyre]![tyreColumn(name)]!),
    sd: what.map(([, sd]) => sd),
  });
  const middle = (name: CarInput): number => own.centralCar[carColumn(name)]!;
  const pressure = 1.3 * own.setup.referencePressure;
  return [
    {
      label: `another run log with a long roll-out, ${own.name}`,
      reads: (state) =>
        [0.65, 1].map((share) => grownTyre(state.tyre[tyre]!, own.setup, pressure, share * speed).growth),
      sd: [0.05 * INCH, 0.07 * INCH],
    },
    ofTyre(
      'rollout at three pressures',
      ['referenceRadius', 0.015 * INCH],
      ['radiusPerPressure', (0.002 * INCH) / PSI],
    ),
    ofTyre('weight of the bare tyre', ['mass', 0.14]),
    ofTyre('axle height at three loads', ['stiffnessFactor', 0.05]),
    ofTyre('witness strips at 25° to 45° over ten runs', ['lobeHeight', 0.1 * INCH]),
    ofTyre('run-out on a stand', ['runOut', 0.01 * INCH]),
    car('free bump travel to the stop, springs out', ['bumpTravel', INCH / 32]),
    car('wheel rate on scales', ['wheelRate', 0.02 * middle('wheelRate')]),
    car('rate of the bump stop', ['stopRate', 0.08 * middle('stopRate')]),
    car('corner weights', ['mass', 1.5], ['rearShare', 0.002]),
    car('height of the centre of gravity', ['cgHeight', 0.4 * INCH]),
    car('rear downforce from ride height in coasting', [
      'downforceArea',
      0.04 * Math.abs(middle('downforceArea')),
    ]),
    car('rear links: instant centre and axle path', ['antiSquat', 0.03], ['axlePathSlope', 0.005]),
    car(
      'gaps at rest on the check sheet, after the build',
      ['topHeightError', INCH / 20],
      ['centreError', INCH / 20],
    ),
    car('roll of the axle at full thrust, on film', ['torqueRoll', 0.04 * INCH]),
  ];
}

/**
 * What each measurement would be worth: for outcomes drawn from the cars as believed now, the cars are weighed by the
 * outcome and the height for the accepted risk is taken again. A measurement that cannot change the height is worth
 * nothing, however much it narrows.
 * @param cars  whole cars as believed now
 * @param heights  of each of them in a middling run, m
 * @param speed  at the finish, m/s
 */
export function measurementWorths(
  setup: CaseSetup,
  whole: CarSpace,
  cars: readonly Float64Array[],
  heights: Float64Array,
  departures: Float64Array,
  accepted: number,
  tyre: number,
  speed: number,
  seed: number,
): Worth[] {
  const estimate = pickEstimate(heights, departures, accepted);
  const now = estimate.of();
  const known = candidates(setup, tyre, speed);
  const readings = known.map(({ sd }) => sd.map(() => new Float64Array(cars.length)));
  cars.forEach((car, n) => {
    const state = whole.at(car);
    known.forEach(({ reads }, c) => {
      reads(state).forEach((value, k) => {
        readings[c]![k]![n] = value;
      });
    });
  });
  const { uniform, normal } = numberSource(seed, 'learn/worth');
  const weights = new Float64Array(cars.length);
  return known
    .flatMap(({ label, sd }, c): Worth[] => {
      const own = readings[c]!;
      if (own.every((values) => values.every((value) => value === values[0]))) return [];
      const changes = Float64Array.from({ length: OUTCOMES }, () => {
        const truth = Math.floor(uniform() * cars.length);
        const seen = own.map((values, k) => values[truth]! + sd[k]! * normal());
        for (let n = 0; n < weights.length; n++) {
          let square = 0;
          own.forEach((values, k) => {
            square += ((seen[k]! - values[n]!) / sd[k]!) ** 2;
          });
          weights[n] = Math.exp(-0.5 * square);
        }
        return estimate.of(weights) - now;
      }).sort();
      const mean = changes.reduce((sum, x) => sum + x, 0) / OUTCOMES;
      return [
        {
          label,
          expected: -mean < NOISE ? 0 : -mean,
          low: sampleQuantile(changes, 0.1),
          high: sampleQuantile(changes, 0.9),
        },
      ];
    })
    .sort((a, b) => b.expected - a.expected || b.high - b.low - (a.high - a.low));
}
