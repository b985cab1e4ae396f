import type { Case } from '@tubgap/casefile';
import { BLOCK } from '@tubgap/statistics';
import { INCH, SIXTEENTH } from '@tubgap/units';
import { describe, expect, it } from 'vitest';
import { type Assessment, assessCase } from '../src/assess/assess.ts';
import type { Decision } from '../src/assess/decision.ts';
import { withCentre } from '../src/study/places.ts';
import { demoCase } from './demo.ts';

const demo = demoCase(8 * BLOCK, 128);
/** One tub of the demo at a place, m ahead of the axle. */
const inTub = (name: string, centreForward: number): Case => ({
  ...demo,
  tubs: demo.tubs.filter((tub) => tub.name === name).map((tub) => ({ ...tub, centreForward })),
  accept: { runRisk: 0.005, seasonRisk: 0.4 },
});

async function assessed(source: Case): Promise<{ decision: Decision; found: Assessment }> {
  let decision: Decision | undefined;
  const found = await assessCase(source, undefined, undefined, (told) => {
    decision = told;
  });
  return { decision: decision!, found };
}

describe('the best place of a tub beside a pick', () => {
  it('asks for less height than the place given, put back picks that height, and follows the decision', async () => {
    const source = inTub('street-42', -0.5 * INCH);
    const { decision, found } = await assessed(source);
    expect(decision.chosen).toBe(0);
    expect(decision.bestPlaces).toEqual([undefined]);
    const { best, from, to } = found.bestPlaces[0]!;
    expect(from).toBeCloseTo(-2.5 * INCH, 12);
    expect(to).toBeCloseTo(1.5 * INCH, 12);
    expect(best!.by).toBeCloseTo(best!.centreForward + 0.5 * INCH, 12);
    expect(best!.topHeight).toBeLessThan(found.picks[0]!.height!.topHeight - SIXTEENTH / 2);
    const there = await assessed(withCentre(source, 0, best!.centreForward));
    expect(Math.abs(there.found.picks[0]!.height!.topHeight - best!.topHeight)).toBeLessThan(
      1.01 * SIXTEENTH,
    );
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
    const { decision } = await assessed(short);
    expect(decision.chosen).toBeUndefined();
    const { from, to, best } = decision.bestPlaces[0]!;
    expect(from).toBeCloseTo(0.4 * INCH, 9);
    expect(to).toBeCloseTo(0.9 * INCH, 9);
    expect(best!.centreForward).toBeGreaterThanOrEqual(from - 1e-9);
    expect(best!.centreForward).toBeLessThanOrEqual(to + 1e-9);
    const low = await assessed({ ...base, envelope: { ...base.envelope, highestTop: 30 * INCH } });
    expect(low.decision.bestPlaces[0]!.best).toBeNull();
  });
});
