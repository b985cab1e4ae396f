import {
  CAR_INPUTS,
  type CarInput,
  createMomentTable,
  createRunTable,
  evaluateRuns,
  fillMomentTable,
  type RunTable,
  radialStiffnessFromDrop,
  type Tub,
  TYRE_INPUTS,
  type TyreInput,
  type TyreSetup,
} from '@tubgap/core';
import { BLOCK, fillFromNormals, fillStandardNormals, type Law } from '@tubgap/statistics';

/**
 * Draws of a car at the finish from priors (engineering judgement, no source), for the checks against common practice.
 * Only the finish counts: the other moments are made harmless.
 */
export const INCH = 0.0254;
export const POUND = 0.45359237;
export const POUND_FORCE = 4.4482216152605;
export const PSI = 6894.757293168361;
export const MPH = 0.44704;
const G = 9.80665;

const constant = (value: number): Law => ({ kind: 'constant', value });
const normal = (mean: number, sd: number): Law => ({ kind: 'normal', mean, sd });
const logNormal = (median: number, cov: number): Law => ({ kind: 'log-normal', median, cov });
const positive = (mean: number, sd: number): Law => ({
  kind: 'truncated-normal',
  mean,
  sd,
  low: 0,
  high: Number.POSITIVE_INFINITY,
});

/** Prior car: 2,650 lb, half on the rear, a rear wing of 2,030 lbf at 250 mph in air of 1.15 kg/m³. */
export const carLaws = (speed: number): Record<CarInput, Law> => ({
  mass: constant(2650 * POUND),
  rearShare: constant(0.5),
  wheelbase: constant(110 * INCH),
  cgHeight: constant(20 * INCH),
  dragArea: constant(0.55),
  dragHeight: constant(22 * INCH),
  downforceArea: logNormal((2030 * POUND_FORCE) / (0.5 * 1.15 * (250 * MPH) ** 2), 0.08),
  rollingCoefficient: constant(0),
  wheelRate: logNormal((190 * POUND_FORCE) / INCH, 0.08),
  bumpTravel: normal(2.2 * INCH, 0.2 * INCH),
  stopRate: constant((2500 * POUND_FORCE) / INCH),
  droopTravel: constant(3 * INCH),
  antiSquat: constant(0.85),
  axlePathSlope: constant(0.08),
  bushingGive: constant(0),
  torqueRoll: constant(0),
  addedMass: constant(0),
  topHeightError: normal(0, 0.1 * INCH),
  centreError: constant(0),
  trapSpeed: normal(speed * MPH, 3 * MPH),
  launchAcceleration: constant(30),
  finishAcceleration: normal(0.9 * G, 0.1 * G),
  slipAtLaunch: constant(0),
  slipUnderway: constant(0),
  slipGripLost: constant(0),
  gripLostToss: constant(1),
  // Median 0.05, sd of the logarithm 0.4.
  slipAtFinish: logNormal(0.05, Math.sqrt(Math.expm1(0.16))),
  burnoutSpeed: constant(1),
  burnoutThrust: constant(0.01),
  gearOvershoot: constant(1),
  liftOvershoot: constant(1),
  chuteDeceleration: constant(0.01),
  chuteHeight: constant(0.5),
  bump: positive(0, 0.25 * INCH),
  airTemperature: constant(288.15),
  // Dry air of 1.15 kg/m³ at 15 °C.
  stationPressure: constant(95120),
  humidity: constant(0),
});

/** A tyre in the trade's units: free diameter, section and tread in in, lb, psi, axle drop in under a load in lbf. */
export interface PriorTyre {
  name: string;
  construction: TyreSetup['construction'];
  diameter: number;
  section: number;
  tread: number;
  mass: number;
  pressure: number;
  drop: number;
  load: number;
}

export const tyreLaws = (tyre: PriorTyre): Record<TyreInput, Law> => {
  const bias = tyre.construction === 'bias';
  return {
    referenceRadius: normal(0.5 * tyre.diameter * INCH, 0.06 * INCH),
    radiusPerPressure: constant(((bias ? 0.014 : 0.003) * INCH) / PSI),
    growthScale: bias ? logNormal(0.036, 0.25) : logNormal(0.007, 0.4),
    growthSpeedFactor: logNormal(1, 0.07),
    growthCarcassPressure: constant((bias ? 2 : 43.5) * PSI),
    patchCarcassPressure: constant((bias ? 2 : 6) * PSI),
    mass: constant(tyre.mass * POUND),
    sectionWidth: constant(tyre.section * INCH),
    treadWidth: constant(tyre.tread * INCH),
    stiffnessFactor: logNormal(1, 0.15),
    tangentialRatio: logNormal(bias ? 0.7 : 1, 0.2),
    lobeHeight: bias ? positive(0.25 * INCH, 0.15 * INCH) : positive(0.05 * INCH, 0.03 * INCH),
    lobeAngle: normal((40 * Math.PI) / 180, (10 * Math.PI) / 180),
    runOut: constant(0),
    coldPressure: normal(tyre.pressure * PSI, 0.4 * PSI),
    airHeating: constant(0),
    volumeRatio: constant(1),
    rideHeightChange: constant(0),
  };
};

export const tyreSetup = (tyre: PriorTyre): TyreSetup => ({
  construction: tyre.construction,
  referencePressure: tyre.pressure * PSI,
  radialStiffness: radialStiffnessFromDrop({
    pressure: tyre.pressure * PSI,
    load: tyre.load * POUND_FORCE,
    drop: tyre.drop * INCH,
    freeRadius: 0.5 * tyre.diameter * INCH,
    sectionWidth: tyre.section * INCH,
    treadWidth: tyre.tread * INCH,
    carcassPressure: (tyre.construction === 'bias' ? 2 : 6) * PSI,
    tangentialRatio: tyre.construction === 'bias' ? 0.7 : 1,
  }),
});

function columns<Name extends string>(
  names: readonly Name[],
  laws: Record<Name, Law>,
  seed: string,
  count: number,
): Float64Array[] {
  const normals = new Float64Array(BLOCK);
  return names.map((name) => {
    const column = new Float64Array(count);
    for (let block = 0; block * BLOCK < count; block++) {
      const here = Math.min(BLOCK, count - block * BLOCK);
      fillStandardNormals(seed, name, block, normals, here);
      fillFromNormals(laws[name], normals, column.subarray(block * BLOCK), here);
    }
    return column;
  });
}

/** What may be changed of a study: laws of the car, growth, and tubs with the axle height they belong to. */
export interface Study {
  tyre: PriorTyre;
  /** mph */
  speed: number;
  count: number;
  tubs: readonly Tub[];
  /** m */
  axleHeight: number;
  growthFactor?: number;
  car?: Partial<Record<CarInput, Law>>;
}

/** Every run of a study, the same random numbers whatever the tyre and the speed. */
export function study({ tyre, speed, count, tubs, axleHeight, growthFactor = 1, car = {} }: Study): RunTable {
  const setup = {
    tubs,
    hardPoints: [],
    reserve: 0,
    growthFactor,
    distance: 402.336,
    finishAccelerationIs: 'absolute',
    gripLostChance: 0,
  } as const;
  const cars = columns(CAR_INPUTS, { ...carLaws(speed), ...car }, 'car', count);
  const tyres = columns(TYRE_INPUTS, tyreLaws(tyre), 'tyre', count);
  const moments = createMomentTable(count);
  fillMomentTable(setup, cars, count, moments);
  const table = createRunTable(setup, count);
  const axles = new Float64Array(count).fill(axleHeight);
  evaluateRuns(setup, tyreSetup(tyre), cars, tyres, moments, axles, count, table);
  return table;
}

/** A half circle in inches about a place ahead of the axle, with nothing beside the tyre. */
export const halfCircle = (diameter: number, ahead = 0): Tub => ({
  radius: 0.5 * diameter * INCH,
  halfExtent: Math.PI / 2,
  legLength: 0,
  centreForward: ahead * INCH,
});

/** Share of runs that touch tub t with its top at a height, m. */
export function touchShare(table: RunTable, t: number, height: number): number {
  let touches = 0;
  for (let run = 0; run < table.capacity; run++) {
    if (!(table.requiredHeight[t * table.capacity + run]! <= height)) touches++;
  }
  return touches / table.capacity;
}

/** Sample quantile by sorting. */
export function quantileOf(values: Float64Array, share: number): number {
  const sorted = values.slice().sort();
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))]!;
}
