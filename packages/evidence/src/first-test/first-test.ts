import type { Case } from '@tubgap/casefile';
import { speedAlong } from '@tubgap/core';
import {
  type CarRuns,
  carRuns,
  caseSetup,
  type JudgedTub,
  mostFrequentMoment,
  type Risk,
  type StudySetup,
  stepAt,
} from '@tubgap/simulation';
import { BLOCK, drawsToSupport, sampleQuantile } from '@tubgap/statistics';
import { INCH, PSI } from '@tubgap/units';
import { type CarSample, type ChosenCars, countOf, filterCars, riskOf } from './car-sample.ts';
import { shutOffCase, shutOffPlaces } from './shut-off.ts';
import { witnessAngles } from './witness-angles.ts';

const QUARTER_INCH = INCH / 4;
/** Cars drawn about the touches; plain ones are as many or more, up to what supports a risk of 1 in 35,000. */
const WEIGHTED_BLOCKS = 16;
const MOST_BLOCKS = 128;
/** Blocks that show where witnesses go. */
const FIRST_LOOK = 2;
const THICKEST_WITNESS = 16;
/** Thickest witness that is asked for only to see whether the car is as believed, m: a block of foam. */
const THICKEST_CHECK = 8 * QUARTER_INCH;
/** Of the runs that are tight, as a pick has it. */
const TIGHTEST = 0.05;
/** Gauge pressure by which the careful first steps are run harder, Pa: 2 psi. */
const MORE_PRESSURE = 2 * PSI;

/** What is told of the runs of a step: of all cars, or of some. */
export interface StepFigures {
  /** Of going under the reserve in such a run, and of real contact. */
  underReserve: Risk;
  contact: Risk;
  /** Of going under the reserve with `morePressure` in the tyre. */
  underReserveHarder: Risk;
  /** Where the tightest twentieth of the runs are tight in the middle, rad, and at which moment. */
  angle: number;
  moment: string;
  /** Smallest gap of a run, m: middle, one run in a hundred, and least of all runs. */
  gapMiddle: number;
  gapLow: number;
  gapLeast: number;
}

/** One step of a first test: a run shut off at a place. */
export interface TestStep {
  /** From the start to where the throttle is shut, m, and the speed there with all at its middle, m/s. */
  shutOff: number;
  speed: number;
  /** Of every car that fits the case, whatever was seen before. */
  overall: StepFigures;
  /** Of the cars alone that left every earlier step's witnesses untouched. */
  passed: StepFigures;
  /** Shares of all such cars: that come to this step, and that it stops by a mark or a touch; where the test ends, all. */
  comes: number;
  stops: number;
  /**
   * Witness, m thick, that must stay untouched before the next step: thick enough that the risk of the next step is, for
   * the cars that pass, within what is accepted for a run, and that a car which is not as believed marks it. Undefined when none is: the
   * test ends with this step, though the track goes on.
   */
  witness: number | undefined;
}

export interface FirstTest {
  tyre: string;
  tub: string;
  topHeight: number;
  morePressure: number;
  /** Risk of a step that lets a driver go on to it: what is accepted for a run. */
  limit: number;
  /** Hub angles of the witnesses, rad. */
  witnessAngles: number[];
  /** Up to the whole track, or to the step after which none is safe enough; none where the first is not. */
  steps: TestStep[];
  /** Whether the last step is the whole track. */
  isWhole: boolean;
  /** Risk of a first step that is not made because it is above the limit. */
  refused: { shutOff: number; risk: Risk } | undefined;
  /** Share of all such cars that come through every step. */
  comesThrough: number;
}

/** Blocks of plain cars that support a limit with something to spare. */
const blocksFor = (limit: number): number =>
  Math.min(MOST_BLOCKS, Math.max(WEIGHTED_BLOCKS, Math.ceil((1.5 * drawsToSupport(limit)) / BLOCK)));

const all = ({ weights }: CarRuns): Uint8Array => new Uint8Array(weights.length).fill(1);

/**
 * Witness of a step, m thick: the thinnest after which the next step's risk is within the limit, or a thicker one that a
 * car which is not as believed marks. Undefined when none is thick enough.
 * @param usual  thickness that one run in a hundred of a car as believed comes near, m
 */
function witnessFor(
  sample: CarSample,
  kept: ChosenCars,
  k: number,
  reserve: number,
  limit: number,
  usual: number,
): number | undefined {
  const isSafe = (thick: number): boolean => {
    const clean = unmarked(sample, kept, k, thick);
    return countOf(clean.plain) > 0 && riskOf(sample, clean, k + 1, 'steps').high <= limit;
  };
  for (let quarters = 1; quarters <= THICKEST_WITNESS; quarters++) {
    const thick = quarters * QUARTER_INCH;
    if (thick < reserve - 1e-9 || !isSafe(thick)) continue;
    return usual > thick && isSafe(usual) ? usual : thick;
  }
  return undefined;
}

/** Cars whose run of a step left a witness untouched. */
const unmarked = (sample: CarSample, cars: ChosenCars, k: number, thick: number): ChosenCars =>
  filterCars(sample, cars, ({ setups }, car) => setups[k]!.atAngles[car]! >= thick);

/** What the plain runs of a step show of some cars. */
function shown(sample: CarSample, cars: ChosenCars, k: number) {
  const { gap, angle, moment } = sample.plain.setups[k]!;
  const come = Array.from(cars.plain.keys()).filter((car) => cars.plain[car] === 1);
  const gaps = Float64Array.from(come, (car) => gap[car]!).sort();
  const limit = sampleQuantile(gaps, TIGHTEST);
  const tight = come.filter((car) => gap[car]! <= limit);
  return {
    angle: sampleQuantile(Float64Array.from(tight, (car) => angle[car]!).sort(), 0.5),
    moment: mostFrequentMoment(tight.map((car) => moment[car]!)),
    gapMiddle: sampleQuantile(gaps, 0.5),
    gapLow: sampleQuantile(gaps, 0.01),
    gapLeast: gaps[0]!,
  };
}

/** What a verdict tells of the whole track with a tyre; the place where it is tight only of the one that limits. */
function judgedFigures({ verdict, tyre: limiting, tight }: JudgedTub, tyre: number): Partial<StepFigures> {
  const { runRisk: underReserve, contactRisk: contact } = verdict.tyres[tyre]!;
  if (tyre !== limiting) return { underReserve, contact };
  const { tightestAngle: angle, tightestMoment: moment, p50: gapMiddle } = tight;
  return { underReserve, contact, angle, moment, gapMiddle };
}

/** All that is told of a step for some cars. @param places  steps there are: the setups behind them have more pressure */
const figuresOf = (sample: CarSample, cars: ChosenCars, k: number, places: number): StepFigures => ({
  underReserve: riskOf(sample, cars, k, 'steps'),
  contact: riskOf(sample, cars, k, 'contactSteps'),
  underReserveHarder: riskOf(sample, cars, k + places, 'steps'),
  ...shown(sample, cars, k),
});

/**
 * A stepped first test of the car as it is believed now: shut off early, look, go on. The same cars make every step, each
 * with what changes from run to run drawn anew; a car that marks a witness or goes under the reserve is stopped there.
 * Each step's figures are told of all cars and of those that came through the steps before, from plain runs and from runs
 * drawn about the touches. No step is made whose risk for a car that comes to it, at most, is above what is accepted for
 * a run.
 * @param judged  the verdict on the tub: whatever it tells of the whole track is told here too, risks, place and middling gap
 */
export function planFirstTest(source: Case, tyre: number, judged: JudgedTub): FirstTest {
  const { tub, centres, verdict } = judged;
  const { topHeight } = verdict;
  const setup = caseSetup(source);
  const { accepted: limit, run } = setup.tyres[tyre]!;
  const { reserve, distance } = run;
  const places = shutOffPlaces(distance);
  const ends = places.length - 1;
  const at = (place: number, harder: number): StudySetup => ({
    label: source.name,
    source: shutOffCase(source, setup, tyre, tub, place, harder),
  });
  // Cars are drawn by the first setup: the centres are points of the whole track's inputs.
  const early = places.slice(0, ends).map((place) => at(place, 0));
  const setups = [at(distance, 0), ...early, ...places.map((place) => at(place, MORE_PRESSURE))];
  const { seed } = source.simulation;
  const runs = (angles: Float64Array, blocks: number, weighted: boolean): CarRuns => {
    const found = carRuns(setups, seed, {
      tyre,
      topHeight,
      angles,
      blocks,
      looked: places.length,
      drawnBy: weighted ? 'weighted' : 'plain',
      centres,
      prefix: weighted ? 'plan-tail/' : 'plan/',
    });
    const [whole, ...others] = found.setups;
    return { ...found, setups: others.toSpliced(ends, 0, whole!) };
  };
  const angles = witnessAngles(runs(new Float64Array(), FIRST_LOOK, true), places.length);
  const plain = runs(angles, blocksFor(limit), false);
  const sample: CarSample = {
    plain,
    weighted: runs(angles, WEIGHTED_BLOCKS, true),
    step: stepAt(plain.lowest, topHeight),
  };
  const everyone: ChosenCars = { plain: all(sample.plain), weighted: all(sample.weighted) };
  const cars = countOf(everyone.plain);
  const first = riskOf(sample, everyone, 0, 'steps');
  const isRefused = first.high > limit;

  const steps: TestStep[] = [];
  let left = everyone;
  for (const [k, shutOff] of places.entries()) {
    if (isRefused) break;
    const isLast = k === ends;
    const passed = figuresOf(sample, left, k, places.length);
    const kept = filterCars(sample, left, ({ setups: found }, car) => found[k]!.steps[car]! <= sample.step);
    // Thick enough to be marked by a car that is not as believed: one run in a hundred of one that is comes that near.
    const usual = Math.min(Math.floor(passed.gapLow / QUARTER_INCH) * QUARTER_INCH, THICKEST_CHECK);
    const witness = isLast ? Math.max(reserve, usual) : witnessFor(sample, kept, k, reserve, limit, usual);
    const through = witness === undefined ? kept : unmarked(sample, kept, k, witness);
    const comes = countOf(left.plain) / cars;
    const counted = left === everyone ? passed : figuresOf(sample, everyone, k, places.length);
    const isJudged = isLast && !verdict.belowRest;
    steps.push({
      shutOff,
      speed: speedAlong(setup.tyres[tyre]!.centralCar, distance, shutOff),
      overall: isJudged ? { ...counted, ...judgedFigures(judged, tyre) } : counted,
      passed,
      comes,
      stops: witness === undefined ? comes : comes - countOf(through.plain) / cars,
      witness,
    });
    left = through;
    if (witness === undefined) break;
  }
  const last = steps.at(-1);
  return {
    tyre: source.tyres[tyre]!.name,
    tub: source.tubs[tub]!.name,
    topHeight,
    morePressure: MORE_PRESSURE,
    limit,
    witnessAngles: Array.from(angles),
    steps,
    isWhole: last?.shutOff === distance,
    refused: isRefused ? { shutOff: places[0]!, risk: first } : undefined,
    comesThrough: last?.witness === undefined ? 0 : countOf(left.plain) / cars,
  };
}
