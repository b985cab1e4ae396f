import fc from 'fast-check';
import type { CarInput, HardPoint, RunSetup, Tub, TyreInput, TyreSetup } from '../src/index.ts';
import { CAR_INPUTS, CONSTRUCTIONS, TYRE_INPUTS } from '../src/index.ts';

/**
 * Random cars, tyres and tubs for the property tests, in SI. The ranges are wide on purpose: what a drag-race car may
 * have and somewhat more, so that all three kinds of band roots, full droop, the bump stop and short arcs come up.
 * Engineering judgement, no source.
 */
type Range = readonly [low: number, high: number];

export const CAR_RANGES: Readonly<Record<CarInput, Range>> = {
  mass: [800, 1700],
  rearShare: [0.42, 0.62],
  wheelbase: [2.4, 3.2],
  cgHeight: [0.38, 0.65],
  dragArea: [0.3, 0.9],
  dragHeight: [0.35, 0.8],
  downforceArea: [0, 2],
  rollingCoefficient: [0, 0.02],
  wheelRate: [2e4, 6e4],
  bumpTravel: [0.03, 0.09],
  stopRate: [1e5, 1e6],
  droopTravel: [0.03, 0.1],
  antiSquat: [0.2, 1.7],
  axlePathSlope: [-0.1, 0.3],
  bushingGive: [0, 0.006],
  torqueRoll: [0, 0.02],
  addedMass: [0, 90],
  topHeightError: [-0.008, 0.008],
  centreError: [-0.008, 0.008],
  trapSpeed: [50, 122],
  launchAcceleration: [10, 36],
  finishAcceleration: [0, 13],
  slipAtLaunch: [0, 0.3],
  slipUnderway: [0, 0.2],
  slipGripLost: [0.1, 0.5],
  gripLostToss: [0, 1],
  slipAtFinish: [0, 0.2],
  burnoutSpeed: [20, 65],
  burnoutThrust: [0.05, 0.4],
  gearOvershoot: [1, 1.7],
  liftOvershoot: [1, 1.7],
  chuteDeceleration: [5, 30],
  chuteHeight: [0.2, 1.1],
  bump: [0, 0.015],
  airTemperature: [275, 316],
  stationPressure: [80e3, 104e3],
  humidity: [0, 1],
};

const BOTH = {
  growthSpeedFactor: [0.8, 1.2],
  stiffnessFactor: [0.6, 1.5],
  tangentialRatio: [0.3, 1.7],
  mass: [12, 26],
  lobeAngle: [0.2, 1.2],
  runOut: [0, 0.002],
  airHeating: [0, 35],
  volumeRatio: [0.98, 1.02],
  rideHeightChange: [-0.02, 0.02],
} as const;

export const TYRE_RANGES: Readonly<Record<TyreSetup['construction'], Readonly<Record<TyreInput, Range>>>> = {
  bias: {
    ...BOTH,
    referenceRadius: [0.38, 0.46],
    radiusPerPressure: [2e-8, 8e-8],
    growthScale: [0.02, 0.05],
    growthCarcassPressure: [4e3, 3e4],
    patchCarcassPressure: [4e3, 3e4],
    sectionWidth: [0.27, 0.46],
    treadWidth: [0.22, 0.4],
    lobeHeight: [0, 0.02],
    coldPressure: [3e4, 8e4],
  },
  radial: {
    ...BOTH,
    referenceRadius: [0.31, 0.38],
    radiusPerPressure: [5e-9, 2e-8],
    growthScale: [0.003, 0.012],
    growthCarcassPressure: [2e5, 4e5],
    patchCarcassPressure: [2e4, 6e4],
    sectionWidth: [0.24, 0.36],
    treadWidth: [0.2, 0.3],
    lobeHeight: [0, 0.004],
    coldPressure: [8e4, 2.2e5],
  },
};

/** Even over the range in 10,000 steps; a plain double would crowd at 0. */
export const between = (low: number, high: number): fc.Arbitrary<number> =>
  fc.integer({ min: 0, max: 10_000 }).map((k) => low + ((high - low) * k) / 10_000);

const span = ([low, high]: Range): fc.Arbitrary<number> => between(low, high);

/** One value a name, each within its range. */
export const draw = <Name extends string>(
  names: readonly Name[],
  ranges: Readonly<Record<Name, Range>>,
): fc.Arbitrary<Float64Array> =>
  fc.tuple(...names.map((name) => span(ranges[name]))).map((values) => Float64Array.from(values));

/** One draw of CAR_INPUTS. */
export const carDraw = draw(CAR_INPUTS, CAR_RANGES);

/** A tyre with its draw of TYRE_INPUTS. */
export interface TyreDraw {
  setup: TyreSetup;
  values: Float64Array;
}

/** Radial stiffness spread evenly in its logarithm, so that soft sidewalls come up as often as firm ones. */
export const tyreDraw: fc.Arbitrary<TyreDraw> = fc.constantFrom(...CONSTRUCTIONS).chain((construction) =>
  fc.record({
    setup: fc.record({
      construction: fc.constant(construction),
      referencePressure: span(TYRE_RANGES[construction].coldPressure),
      radialStiffness: span([Math.log(6e4), Math.log(1.2e6)]).map(Math.exp),
    }),
    values: draw(TYRE_INPUTS, TYRE_RANGES[construction]),
  }),
);

/** A tub somewhat larger than any of the tyres at rest; half of them full half circles, some with legs. */
export const tubDraw: fc.Arbitrary<Tub> = fc.record({
  radius: span([0.5, 0.66]),
  halfExtent: fc.oneof(fc.constant(Math.PI / 2), span([1.15, Math.PI / 2])),
  legLength: fc.oneof(fc.constant(0), span([0, 0.2])),
  centreForward: span([-0.06, 0.06]),
});

export const reserveDraw = fc.oneof(fc.constant(0), span([0, 0.02]));

export const runDraw: fc.Arbitrary<RunSetup> = fc.record({
  distance: fc.constantFrom(201.168, 304.8, 402.336),
  finishAccelerationIs: fc.constant('absolute' as const),
  gripLostChance: fc.constantFrom(0, 0.5, 1),
});

/** A circle or a convex polygon about where a tyre's outline runs, some of them under the tyre. */
export const hardDraw: fc.Arbitrary<HardPoint> = fc
  .record({
    angle: between(-2.4, 2.4),
    away: between(0.42, 0.62),
    size: between(0.005, 0.1),
    turn: between(0, 6),
  })
  .chain(({ angle, away, size, turn }) => {
    const ahead = away * Math.sin(angle);
    const above = away * Math.cos(angle);
    const circle: HardPoint = { shape: 'circle', ahead, above, radius: 0.5 * size };
    const polygon = (count: number): HardPoint => ({
      shape: 'polygon',
      xy: Float64Array.from({ length: 2 * count }, (_, i) => {
        const corner = turn + (2 * Math.PI * Math.floor(i / 2)) / count;
        return i % 2 === 0 ? ahead + size * Math.sin(corner) : above + size * Math.cos(corner);
      }),
    });
    return fc.oneof(fc.constant(circle), fc.constantFrom(3, 4, 6).map(polygon));
  });

/** Seed of the property tests: FAST_CHECK_SEED, or 1. A failure prints the seed and the shrunk example. */
const given = process.env.FAST_CHECK_SEED;
fc.configureGlobal({ seed: given === undefined ? 1 : Number(given) });
