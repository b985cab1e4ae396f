import { carColumn, frontLiftAcceleration, type Moment } from '@tubgap/core';
import { isBounded, isSpread } from '@tubgap/uncertainty';
import { type CaseSetup, isToss } from './setup.ts';
import { caseState } from './state.ts';

/** Something that a reader of the numbers must know, in one sentence or two. */
export interface Caution {
  code: 'standing-waves' | 'launch-bulge' | 'front-wheels' | 'bounded-laws' | 'trap-speed';
  text: string;
}

const FAST: readonly Moment[] = ['grip lost', 'finish', 'after the lift'];

/** A speed in m/s as the shop says it. */
const mph = (speed: number): string => `${(speed / 0.44704).toFixed(0)} mph`;

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
          `${tyre.name}, ${moment}: at ${mph(state.treadSpeed)} the tread ${sure ? 'is' : 'may be'} beyond the ` +
          `speed at which standing waves can begin (${mph(state.criticalSpeedCareful)} by the careful estimate, ` +
          `${mph(state.criticalSpeedFromGrowth)} from its growth). The model has no waves; the lobe allowance stands for them.`,
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
  const car = setup.tyres[setup.buildIndex]!.centralCar;
  const value = (name: Parameters<typeof carColumn>[0]): number => car[carColumn(name)]!;
  const lift = frontLiftAcceleration(value('rearShare'), value('wheelbase'), value('cgHeight'));
  if (value('launchAcceleration') > lift) {
    found.push({
      code: 'front-wheels',
      text:
        `The launch acceleration lifts the front wheels (from ${(lift / 9.80665).toFixed(2)} g on). The model then puts ` +
        'the whole car on the rear tyres; a wheel-stand and its landing are not in it.',
    });
  }
  if (value('trapSpeed') ** 2 >= 2 * value('launchAcceleration') * setup.clearance.distance) {
    found.push({
      code: 'trap-speed',
      text:
        'The launch acceleration cannot reach the trap speed over this distance; the whole run is taken at the constant ' +
        'acceleration that does. Check both.',
    });
  }
  const bounded = new Set<string>();
  for (const tyre of setup.tyres) {
    for (const input of [...tyre.car, ...tyre.tyre]) {
      if (isToss(tyre, input)) continue;
      // Half-normal and positive-only laws are bounded where it does not matter; both ends closed is what hides a tail.
      const { law } = input;
      const closed = law.kind === 'uniform' || law.kind === 'triangular' || closedTruncation(law);
      if (closed && isSpread(law) && isBounded(law)) bounded.add(input.label);
    }
  }
  if (bounded.size > 0) {
    found.push({
      code: 'bounded-laws',
      text:
        `These inputs have laws with hard ends: ${[...bounded].join(', ')}. Past its ends such a law says “never”, so ` +
        'where they decide, a risk of 0 is no proof.',
    });
  }
  return found;
}

const closedTruncation = (law: { kind: string; low?: number; high?: number }): boolean =>
  law.kind === 'truncated-normal' && Number.isFinite(law.low) && Number.isFinite(law.high);
