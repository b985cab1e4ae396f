import type { Case, UncertainInput } from '@tubgap/casefile';
import {
  type AngleTable,
  createMomentTable,
  createRunTable,
  evaluateRuns,
  fillAngles,
  fillMomentTable,
  MOMENTS,
  speedAlong,
} from '@tubgap/core';
import { axleHeightsOf, type CaseSetup, caseSetup, createColumns, fillColumns } from '@tubgap/simulation';
import {
  BLOCK,
  clopperPearson,
  type Law,
  type PlainLaw,
  sampleQuantile,
  scaleLaw,
} from '@tubgap/uncertainty';

const FOOT = 0.3048;
const QUARTER_INCH = 0.0254 / 4;
const DEGREE = Math.PI / 180;
/** Places at which a driver may shut off, m; those before the end of the track are taken. */
const SHUT_OFF = [60, 330, 660, 1000].map((feet) => feet * FOOT);
/** Hub angles at which witnesses are stuck on and looked at. */
const ANGLES = Float64Array.from({ length: 15 }, (_, k) => (-45 + 10 * k) * DEGREE);
const BLOCKS = 8;
/** Chance of going under the reserve in the next step that lets a driver go on. */
export const STEP_LIMIT = 1 / 500;
const THICKEST_WITNESS = 16;
/** Thickest witness that is asked for only to see whether the car is as believed, m: a block of foam. */
const THICKEST_CHECK = 8 * QUARTER_INCH;

/** One step of a first test: a run shut off at a place. */
export interface TestStep {
  /** From the start to where the throttle is shut, m, and the speed there with all at its middle, m/s. */
  shutOff: number;
  speed: number;
  /** Runs in which the steps before left the reserve, and of these the ones that do not leave it here. */
  runs: number;
  under: number;
  touching: number;
  /** Upper ends of the 95 % intervals. */
  underAtMost: number;
  touchingAtMost: number;
  /** The same chance of going under the reserve with `morePressure` in the tyre, at most. */
  underAtMostHarder: number;
  /** Where runs are tightest in the middle, rad, and at which moment. */
  angle: number;
  moment: string;
  /** Smallest gap of a run, m: middle, and one run in a hundred. */
  gapMiddle: number;
  gapLow: number;
  /**
   * Witness, m thick, that must stay untouched before the next step: thick enough that the next step's risk is then
   * small, and that a car which is not as believed marks it. Undefined when none is thick enough.
   */
  witness: number | undefined;
  /** Chance that it stays untouched, 1. */
  passes: number;
}

export interface FirstTest {
  tyre: string;
  tub: string;
  topHeight: number;
  morePressure: number;
  steps: TestStep[];
}

/** Gauge pressure by which the careful first steps are run harder, Pa: 2 psi. */
const MORE_PRESSURE = 2 * 6894.757293168361;

function movedLaw(law: Law, factor: number, offset: number): Law {
  if (law.kind === 'updated') return { ...law, from: movedLaw(law.from, factor, offset) as PlainLaw };
  // A log-normal has no shift; its middle is moved instead.
  if (law.kind === 'log-normal' && offset !== 0) return { ...law, median: factor * law.median + offset };
  return scaleLaw(law, factor, offset);
}

const withLaw = (input: UncertainInput, factor: number, offset: number): UncertainInput => ({
  ...input,
  law: movedLaw(input.law, factor, offset),
});

/** The case of a run that is shut off early: slower at the end of a shorter track, still pulling. */
function shutOffCase(source: Case, setup: CaseSetup, tyre: number, shutOff: number, harder: number): Case {
  const own = source.tyres[tyre]!;
  const { centralCar } = setup.tyres[tyre]!;
  const name = 'trapSpeed';
  const trap = own.car?.[name] ?? source.car[name];
  const speed = speedAlong(centralCar, source.distance, shutOff);
  const full = speedAlong(centralCar, source.distance, source.distance);
  const isWhole = shutOff >= source.distance;
  const acceleration = own.car?.finishAcceleration ?? source.car.finishAcceleration;
  const as: UncertainInput = { ...acceleration, law: { kind: 'constant', value: 1 } };
  const changed = isWhole ? {} : { trapSpeed: withLaw(trap, speed / full, 0), finishAcceleration: as };
  return {
    ...source,
    distance: shutOff,
    finishAccelerationIs: isWhole ? source.finishAccelerationIs : 'relative',
    tyres: source.tyres.map((other, i) => ({
      ...other,
      ...(i === tyre ? { car: { ...other.car, ...changed } } : {}),
      inputs:
        i === tyre && harder > 0
          ? { ...other.inputs, coldPressure: withLaw(other.inputs.coldPressure, 1, harder) }
          : other.inputs,
    })),
  };
}

/** What each of the same cars does in one run of a step. */
interface StepRuns {
  required: Float64Array;
  contact: Float64Array;
  gap: Float64Array;
  angle: Float64Array;
  moment: Uint8Array;
}

function stepRuns(source: Case, tyre: number, tub: number, topHeight: number, stream: string): StepRuns {
  const setup = caseSetup(source);
  const clearance = { ...setup.clearance, tubs: [setup.clearance.tubs[tub]!], hardPoints: [] };
  const count = BLOCKS * BLOCK;
  const out: StepRuns = {
    required: new Float64Array(count),
    contact: new Float64Array(count),
    gap: new Float64Array(count),
    angle: new Float64Array(count),
    moment: new Uint8Array(count),
  };
  const table = createRunTable(clearance, BLOCK);
  const moments = createMomentTable(BLOCK);
  const axles = new Float64Array(BLOCK);
  const columns = createColumns(setup.tyres);
  const counts = setup.tyres.map(() => BLOCK);
  const blank = (): AngleTable => ({
    capacity: BLOCK,
    angles: ANGLES,
    values: new Float64Array(ANGLES.length * BLOCK),
  });
  const radii = blank();
  const gaps = { tub: clearance.tubs[0]!, topHeight, atRest: blank(), inRun: blank() };
  for (let block = 0; block < BLOCKS; block++) {
    const { seed } = source.simulation;
    fillColumns(setup.tyres, seed, 'plan/', block, counts, 'car', columns);
    fillColumns(setup.tyres, seed, stream, block, counts, 'run', columns);
    axleHeightsOf(setup, columns, BLOCK, axles);
    const own = columns[tyre]!;
    fillMomentTable(clearance, own.car, BLOCK, moments);
    evaluateRuns(clearance, setup.tyres[tyre]!.setup, own.car, own.tyre, moments, axles, BLOCK, table);
    fillAngles(clearance, setup.tyres[tyre]!.setup, own, axles, BLOCK, radii, gaps);
    const from = block * BLOCK;
    out.required.set(table.requiredHeight.subarray(0, BLOCK), from);
    out.contact.set(table.contactHeight.subarray(0, BLOCK), from);
    out.angle.set(table.tightAngle.subarray(0, BLOCK), from);
    out.moment.set(table.tightMoment.subarray(0, BLOCK), from);
    for (let run = 0; run < BLOCK; run++) {
      let gap = Number.POSITIVE_INFINITY;
      for (let k = 0; k < ANGLES.length; k++) gap = Math.min(gap, gaps.inRun.values[k * BLOCK + run]!);
      out.gap[from + run] = gap;
    }
  }
  return out;
}

const upperEnd = (hits: number, runs: number): number =>
  runs === 0 ? 1 : clopperPearson(hits, runs, 0.95).high;

const medianOf = (values: Float64Array): number => sampleQuantile(values.slice().sort(), 0.5);

/**
 * A stepped first test of the car as it is believed now: shut off early, look, go on. Every step counts only cars that
 * left the reserve in the steps before, as a car that did not would have been stopped; each step's runs are new ones.
 * Counted from plain runs, so that a chance can be told down to about one in two thousand.
 * @param topHeight  at which the tub stands, m
 */
export function planFirstTest(source: Case, tyre: number, tub: number, topHeight: number): FirstTest {
  const setup = caseSetup(source);
  const places = [...SHUT_OFF.filter((place) => place < 0.95 * source.distance), source.distance];
  const run = (place: number, harder: number, stream: string): StepRuns =>
    stepRuns(shutOffCase(source, setup, tyre, place, harder), tyre, tub, topHeight, stream);
  const found = places.map((place, k) => run(place, 0, `plan/${k}/`));
  const harder = places.map((place, k) => run(place, MORE_PRESSURE, `plan/${k}/`));
  let left = Array.from(found[0]!.required.keys());
  const steps = places.map((place, k): TestStep => {
    const here = found[k]!;
    const next = found[k + 1];
    const gaps = Float64Array.from(left, (n) => here.gap[n]!).sort();
    const under = left.filter((n) => here.required[n]! > topHeight);
    const touching = left.filter((n) => here.contact[n]! > topHeight);
    const tight = left.filter((n) => here.gap[n]! <= sampleQuantile(gaps, 0.2));
    const kept = left.filter((n) => here.required[n]! <= topHeight);
    const moments = tight.map((n) => MOMENTS[here.moment[n]!]!);
    const most = MOMENTS.reduce((best, moment) => {
      const times = (name: string): number => moments.filter((one) => one === name).length;
      return times(moment) > times(best) ? moment : best;
    });
    let witness: number | undefined;
    if (next !== undefined) {
      for (let quarters = 1; quarters <= THICKEST_WITNESS && witness === undefined; quarters++) {
        const thick = quarters * QUARTER_INCH;
        if (thick < setup.clearance.reserve - 1e-9) continue;
        const clean = kept.filter((n) => here.gap[n]! >= thick);
        const hits = clean.filter((n) => next.required[n]! > topHeight).length;
        if (clean.length > 0 && upperEnd(hits, clean.length) <= STEP_LIMIT) witness = thick;
      }
    } else witness = setup.clearance.reserve;
    // Thick enough, too, to be marked by a car that is not as believed: one run in a hundred comes that near.
    const usual = Math.floor(sampleQuantile(gaps, 0.01) / QUARTER_INCH) * QUARTER_INCH;
    if (witness !== undefined) witness = Math.max(witness, Math.min(usual, THICKEST_CHECK));
    const passed = witness === undefined ? [] : kept.filter((n) => here.gap[n]! >= witness!);
    const step: TestStep = {
      shutOff: place,
      speed: speedAlong(setup.tyres[tyre]!.centralCar, source.distance, place),
      runs: left.length,
      under: under.length,
      touching: touching.length,
      underAtMost: upperEnd(under.length, left.length),
      touchingAtMost: upperEnd(touching.length, left.length),
      underAtMostHarder: upperEnd(
        left.filter((n) => harder[k]!.required[n]! > topHeight).length,
        left.length,
      ),
      angle: medianOf(Float64Array.from(tight, (n) => here.angle[n]!)),
      moment: most,
      gapMiddle: sampleQuantile(gaps, 0.5),
      gapLow: sampleQuantile(gaps, 0.01),
      witness,
      passes: passed.length / left.length,
    };
    left = witness === undefined ? kept : passed;
    return step;
  });
  return {
    tyre: source.tyres[tyre]!.name,
    tub: source.tubs[tub]!.name,
    topHeight,
    morePressure: MORE_PRESSURE,
    steps,
  };
}
