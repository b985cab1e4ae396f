import { BLOCK, clopperPearson } from '@tubgap/statistics';
import { beforeAll, describe, expect, it } from 'vitest';
import { caseRisks } from '../src/case-risks.ts';
import { touchCentres } from '../src/importance/centres.ts';
import type { Centres } from '../src/importance/mixture.ts';
import { normalSpace } from '../src/importance/normal-space.ts';
import {
  addWeightedTallies,
  emptyWeightedTallies,
  type WeightedTallies,
} from '../src/importance/weighted-risk.ts';
import { addWeight, emptyWeighted, weightByHeight } from '../src/importance/weighted-tally.ts';
import { riskByHeight } from '../src/risk.ts';
import { createBlockRoom } from '../src/run-risk.ts';
import { emptyRunTallies, type RunTallies } from '../src/run-tallies.ts';
import { mixtureRuns, tallyRuns, weightedParts } from '../src/runner.ts';
import { type CaseSetup, caseSetup } from '../src/setup.ts';
import { emptyTally, HEIGHT_STEPS, touchesByHeight } from '../src/tally.ts';
import { demoCase } from './demo.ts';

const DRAWS = 40 * BLOCK;
/** A tub of the demo that takes both tyres. */
const TUB = 3;

let setup: CaseSetup;
let centres: Centres;
let plain: RunTallies;
let tail: WeightedTallies;

beforeAll(() => {
  const source = demoCase(DRAWS, 1);
  setup = caseSetup({ ...source, tubs: source.tubs.slice(0, TUB + 1) });
  const space = normalSpace(setup);
  centres = touchCentres(setup, space, 1, createBlockRoom(setup));
  plain = emptyRunTallies(setup);
  // Draws of another seed: agreement is not agreement with itself.
  tallyRuns(setup, 2, DRAWS, 0, 40, createBlockRoom(setup), plain);
  tail = emptyWeightedTallies(setup);
  const room = createBlockRoom(setup);
  for (const range of weightedParts(32))
    addWeightedTallies(tail, mixtureRuns(setup, centres, 1, range, room, space));
});

/** Weighted estimate and the plain count at one height, with the difference in standard errors of both. */
function compare(tyre: number, step: number) {
  const found = weightByHeight(tail.tyres[tyre]!.events, tail.tyres[tyre]!.tubs[TUB]!.steps);
  const p = found.weight[step]! / found.events;
  const cov = Math.sqrt(found.square[step]! / found.weight[step]! ** 2 - 1 / found.events);
  const touches = touchesByHeight(plain.tyres[tyre]!.tubs[TUB]!.steps)[step]!;
  const counted = touches / DRAWS;
  const error = Math.hypot(p * cov, Math.sqrt((counted * (1 - counted)) / DRAWS));
  return { p, cov, touches, difference: (p - counted) / error };
}

describe('weighted draws', () => {
  it('agree with plain draws of another seed wherever these hold 20 touches, for both tyres', () => {
    let compared = 0;
    for (const tyre of [0, 1]) {
      for (let step = 0; step < 200; step += 2) {
        const found = compare(tyre, step);
        if (found.touches < 20) break;
        compared++;
        expect(Math.abs(found.difference)).toBeLessThan(4.5);
      }
    }
    expect(compared).toBeGreaterThan(30);
  });

  it('reach one in a million with a coefficient of variation of 10 % for the tyre that decides', () => {
    const rare = Array.from({ length: 300 }, (_, step) => compare(0, step)).filter(
      ({ p }) => p > 0.9e-6 && p < 1e-4,
    );
    expect(rare.length).toBeGreaterThan(5);
    for (const { cov } of rare) expect(cov).toBeLessThan(0.1);
  });

  it('reach one in a hundred thousand to 10 % for a tyre whose touches lie beside a suspension stop', () => {
    // Bug: the search for a design point swings between stop and spring and its centres stood aside: 27 %.
    const rare = Array.from({ length: 300 }, (_, step) => compare(1, step)).filter(
      ({ p }) => p > 1e-5 && p < 1e-3,
    );
    expect(rare.length).toBeGreaterThan(5);
    for (const { cov } of rare) expect(cov).toBeLessThan(0.1);
  });

  it('add up to the number of draws, as weights must', () => {
    const tally = tail.all.tubs[TUB]!.steps;
    const sum = tally.weight.reduce((a, b) => a + b, 0);
    const square = tally.square.reduce((a, b) => a + b, 0);
    const error = Math.sqrt(square);
    expect(Math.abs(sum - tail.all.events)).toBeLessThan(5 * error);
  });

  it('never say that risk rises with height', () => {
    const { weight } = weightByHeight(tail.all.events, tail.all.tubs[TUB]!.steps);
    for (let n = 1; n < HEIGHT_STEPS; n++) expect(weight[n]).toBeLessThanOrEqual(weight[n - 1]!);
  });
});

describe('the choice between counted and weighted risk', () => {
  const counts = (touching: number): Float64Array => {
    const steps = new Float64Array(HEIGHT_STEPS + 1);
    steps[10] = touching;
    steps[0] = 10_000 - touching;
    return steps;
  };
  const plain = { events: 10_000, all: counts(40), unseen: counts(0) };
  const weighted = (touching: number, each = touching / 2000) => {
    const { steps } = emptyWeighted(1).tubs[0]!;
    for (let k = 0; k < touching / each; k++) addWeight(steps, 20, each);
    return { events: 10_000, steps };
  };

  it('takes the weighted one where the count is thin', () => {
    const risk = riskByHeight(plain, weighted(40));
    expect(risk(5).method).toBe('weighted');
    expect(risk(15).estimate).toBeCloseTo(0.004, 12);
    expect(risk(15).touches).toBe(0);
  });

  it('puts to it what plain runs met where no centre leads to', () => {
    const risk = riskByHeight({ ...plain, unseen: counts(30) }, weighted(40));
    expect(risk(5).estimate).toBeCloseTo(0.007, 12);
    expect(risk(5).high).toBeGreaterThan(0.008);
  });

  it('takes none of the weighted ones where the count alone says more: a cause was missed', () => {
    const risk = riskByHeight(plain, weighted(8));
    expect(risk(5).method).toBe('counted');
    expect(risk(5).estimate).toBe(0.004);
  });

  it('bounds what no run met by the number of runs', () => {
    expect(riskByHeight(plain, weighted(8))(15).high).toBeGreaterThan(8e-4 + 3.6e-4);
    expect(riskByHeight(plain)(15).high).toBeCloseTo(3.6882e-4, 7);
  });

  it('does not listen to draws that weigh much: the mixture does not lead to them', () => {
    expect(riskByHeight(plain, weighted(40, 0.5))(15).method).toBe('counted');
  });
});

describe('the bounds of a case by height', () => {
  it('never rise, and lie nowhere below what the plain count allows', () => {
    const seen = emptyRunTallies(setup);
    const seeing = { space: normalSpace(setup), centres };
    tallyRuns(setup, 2, DRAWS, 0, 40, createBlockRoom(setup), seen, seeing);
    expect(seen.all).toEqual(plain.all);
    const none = emptyTally(setup.lowestHeights, setup.clearance.hardPoints.length);
    none.events = 1;
    const risks = caseRisks(seen, tail, none, undefined);
    let weighed = 0;
    for (const [i, tubs] of [...risks.tyres, risks.all].entries()) {
      tubs.forEach((risk, t) => {
        const tally = (seen.tyres[i] ?? seen.all).tubs[t]!;
        for (const [of, steps] of [
          [risk.touch, tally.steps],
          [risk.contact, tally.contactSteps],
        ] as const) {
          const touches = touchesByHeight(steps);
          for (let step = 1; step < HEIGHT_STEPS; step++) {
            const here = of(step);
            if (here.method === 'weighted') weighed++;
            expect(here.high).toBeLessThanOrEqual(of(step - 1).high);
            expect(here.high).toBeGreaterThanOrEqual(clopperPearson(touches[step]!, DRAWS).low);
          }
        }
      });
    }
    expect(weighed).toBeGreaterThan(100);
  });
});
