import { type CarInput, carColumn, frontLiftAcceleration, type Moment } from '@tubgap/core';
import { isBounded, isSpread } from '@tubgap/statistics';
import { mphText, STANDARD_GRAVITY } from '@tubgap/units';
import { byTyre, type Caution } from './caution.ts';
import { liftedLaunches } from './lifted-launches.ts';
import { senseChecks } from './sense-checks.ts';
import { type CaseSetup, isBernoulli } from './setup.ts';
import { caseState } from './state.ts';

/** Share of the launches from which a lifted front is worth a word. */
const SOME_LAUNCHES = 0.02;

function frontWheels(setup: CaseSetup): Caution[] {
  return byTyre(setup, 'front-wheels', (tyre) => {
    const share = liftedLaunches(tyre);
    if (share < SOME_LAUNCHES) return undefined;
    const value = (name: CarInput): number => tyre.centralCar[carColumn(name)]!;
    const lift = frontLiftAcceleration(value('rearShare'), value('wheelbase'), value('cgHeight'));
    return (
      `In about ${Math.round(100 * share)} % of the launches the acceleration lifts the front wheels (from about ` +
      `${(lift / STANDARD_GRAVITY).toFixed(2)} g on). The model then puts the whole car on the rear tyres and no more: the load ` +
      'moved to the rear ends at what the front axle carries. A wheel-stand and its landing are not in it.'
    );
  });
}

function trapSpeeds(setup: CaseSetup): Caution[] {
  return byTyre(setup, 'trap-speed', ({ centralCar, run }) => {
    const trap = centralCar[carColumn('trapSpeed')]!;
    const launch = centralCar[carColumn('launchAcceleration')]!;
    if (trap ** 2 < 2 * launch * run.distance) return undefined;
    return (
      'The launch acceleration cannot reach the trap speed over this distance; the whole run is taken at the constant ' +
      'acceleration that does. Check both.'
    );
  });
}

const FAST: readonly Moment[] = ['grip lost', 'finish', 'after the lift'];

/** A speed in m/s as the shop says it. */

/** What lies beyond the model or needs a word at the middle values of a case. */
export function caseCautions(setup: CaseSetup): Caution[] {
  const found: Caution[] = [];
  const height = setup.lowestHeights[0]! + setup.clearance.tubs[0]!.radius;
  setup.tyres.forEach((tyre, index) => {
    for (const moment of FAST) {
      const state = caseState(setup, { tyre: index, tub: 0, topHeight: height, moment });
      if (state.treadSpeed < state.criticalSpeedCareful) continue;
      const sure = state.treadSpeed >= state.criticalSpeedFromGrowth;
      found.push({
        code: 'standing-waves',
        text:
          `${tyre.name}, ${moment}: at ${mphText(state.treadSpeed)} the tread ${sure ? 'is' : 'may be'} beyond the ` +
          `speed at which standing waves can begin (${mphText(state.criticalSpeedCareful)} by the careful estimate, ` +
          `${mphText(state.criticalSpeedFromGrowth)} from its growth). The model has no waves; the room allowed for waves in the tread stands for them.`,
      });
      break;
    }
  });
  if (setup.tyres.some((tyre) => tyre.setup.construction === 'bias')) {
    found.push({
      code: 'launch-bulge',
      text:
        'A bias carcass stretches at low speed; the band of the model does not. At the launch its bulge may be shown two ' +
        'to three times too large. The excess is left in, on the safe side.',
    });
  }
  found.push(...frontWheels(setup), ...trapSpeeds(setup), ...senseChecks(setup));
  if (setup.clearance.tubs.some(({ notches = [] }) => notches.length > 0)) {
    found.push({
      code: 'notches',
      text:
        'A notch moves with its tub: raised or shifted, the tub takes it along. The corner of the car that it makes room ' +
        'for stays where it is: enter that corner as a hard point too.',
    });
  }
  const bounded = new Set<string>();
  for (const tyre of setup.tyres) {
    for (const input of [...tyre.car, ...tyre.tyre]) {
      if (isBernoulli(tyre, input)) continue;
      // Half-normal and positive-only laws are bounded where it does not matter; both ends closed is what hides a tail.
      const { law } = input;
      const closed =
        law.kind === 'uniform' ||
        law.kind === 'triangular' ||
        law.kind === 'empirical' ||
        closedTruncation(law);
      if (closed && isSpread(law) && isBounded(law)) bounded.add(input.label);
    }
  }
  if (bounded.size > 0) {
    found.push({
      code: 'bounded-laws',
      text:
        `These are taken never to lie outside their ranges: ${[...bounded].join(', ')}. Where such an end decides, a risk of 0 ` +
        'is no proof: your car may lie outside.',
    });
  }
  return found;
}

const closedTruncation = (law: { kind: string; low?: number; high?: number }): boolean =>
  law.kind === 'truncated-normal' && Number.isFinite(law.low) && Number.isFinite(law.high);
