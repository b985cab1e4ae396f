import type { Case } from '@tubgap/casefile';
import { BLOCK } from '@tubgap/statistics';
import { INCH, SIXTEENTH } from '@tubgap/units';
import { describe, expect, it } from 'vitest';
import { assessCase } from '../src/assess/assess.ts';
import { countedPart, type Decision } from '../src/assess/decision.ts';
import { drawsOfPick, performTubs } from '../src/assess/insights.ts';
import { judgement } from '../src/judge-tub.ts';
import { caseSetup } from '../src/setup.ts';
import { performHere, simulateUntilSettled } from '../src/simulate.ts';
import { findBestPlaces } from '../src/study/best-place.ts';
import { withCentre } from '../src/study/places.ts';
import { demoCase } from './demo.ts';

const demo = demoCase(8 * BLOCK, 128);
/** One tub of the demo at a place, m ahead of the axle. */
const inTub = (name: string, centreForward: number): Case => ({
  ...demo,
  tubs: demo.tubs.filter((tub) => tub.name === name).map((tub) => ({ ...tub, centreForward })),
  accept: { runRisk: 0.005, seasonRisk: 0.4 },
});

const ENOUGH = new Error('the decision stands');

/** The decision of a case; what would be looked at after it is left. */
async function decisionOf(source: Case): Promise<Decision> {
  let decision: Decision | undefined;
  const found = assessCase(source, undefined, undefined, (told) => {
    decision = told;
    throw ENOUGH;
  });
  await expect(found).rejects.toBe(ENOUGH);
  return decision!;
}

describe('the best place of a tub beside a pick', () => {
  it('asks for less height than the place given, and put back picks that height', async () => {
    const source = inTub('street-42', -0.5 * INCH);
    const perform = performHere(source);
    const setup = caseSetup(source);
    const { found } = await simulateUntilSettled(source, setup, perform, () => {});
    const counted = countedPart(source, setup, found);
    expect(counted.chosen).toBe(0);
    const sample = drawsOfPick(source, found);
    const [search] = await findBestPlaces(source, counted, sample, performTubs(perform));
    const { best, from, to } = search!;
    expect(from).toBeCloseTo(-2.5 * INCH, 12);
    expect(to).toBeCloseTo(1.5 * INCH, 12);
    expect(best!.by).toBeCloseTo(best!.centreForward + 0.5 * INCH, 12);
    expect(best!.topHeight).toBeLessThan(counted.picks[0]!.height!.topHeight - SIXTEENTH / 2);
    const there = (await judgement(withCentre(source, 0, best!.centreForward), {}))!;
    expect(Math.abs(there.least!.topHeight - best!.topHeight)).toBeLessThan(1.01 * SIXTEENTH);
  });

  it('is told before the decision where no tub fits, on the car alone, and none is named where none fits', async () => {
    const tub = { ...inTub('street-42', 0).tubs[0]!, arcExtent: Math.PI };
    const outside = 0.5 * tub.diameter + tub.skinThickness;
    const base = inTub('street-42', 0);
    const short: Case = {
      ...base,
      envelope: {
        ...base.envelope,
        furthestBehind: outside - 0.4 * INCH,
        furthestAhead: outside + 0.9 * INCH,
      },
    };
    const decision = await decisionOf(short);
    expect(decision.chosen).toBeUndefined();
    const { from, to, best } = decision.bestPlaces[0]!;
    expect(from).toBeCloseTo(0.4 * INCH, 9);
    expect(to).toBeCloseTo(0.9 * INCH, 9);
    expect(best!.centreForward).toBeGreaterThanOrEqual(from - 1e-9);
    expect(best!.centreForward).toBeLessThanOrEqual(to + 1e-9);
    const low = await decisionOf({ ...base, envelope: { ...base.envelope, highestTop: 30 * INCH } });
    expect(low.bestPlaces[0]!.best).toBeNull();
  });
});
