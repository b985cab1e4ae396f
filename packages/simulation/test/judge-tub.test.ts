import type { Case } from '@tubgap/casefile';
import { SIXTEENTH } from '@tubgap/units';
import { beforeAll, describe, expect, it } from 'vitest';
import { type Assessment, assessCase } from '../src/assess/assess.ts';
import type { Decision } from '../src/assess/decision.ts';
import { judgeTub } from '../src/judge-tub.ts';
import { heightRisks } from '../src/verdict.ts';
import { demoCase } from './demo.ts';

/**
 * The slick alone in its tub, built without an error: then nothing of the least height is left for the work, and the tub
 * is set out higher than that.
 */
function exactlyBuilt(): Case {
  const demo = demoCase(16_384, 128);
  const { topHeightError, centreError } = demo.car;
  const none = { kind: 'constant', value: 0 } as const;
  return {
    ...demo,
    hardPoints: [],
    tyres: [demo.tyres[0]!],
    tubs: demo.tubs.filter(({ name }) => name === 'street-42'),
    car: {
      ...demo.car,
      topHeightError: { ...topHeightError, law: none },
      centreError: { ...centreError, law: none },
    },
  };
}

describe('a tub judged without a height', () => {
  const source = exactlyBuilt();
  let found: Assessment;
  const decided: Decision[] = [];
  beforeAll(async () => {
    found = await assessCase(source, undefined, undefined, (decision) => void decided.push(decision));
  });

  it('is told once by a pick, before the rest, with the figures that all of it has in the end', () => {
    expect(decided).toHaveLength(1);
    // Where a tub fits, where else it would is looked for afterwards.
    const { bestPlaces, ...decision } = decided[0]!;
    expect(found).toMatchObject(decision);
    expect(bestPlaces).toEqual([undefined]);
    expect(found.bestPlaces[0]!.best).not.toBeNull();
    expect(decided[0]!.asSetOut).toBeDefined();
    expect(decided[0]).not.toHaveProperty('changes');
  });

  it('stands where the pick sets it out, with the pick’s figures there and at the least height', async () => {
    const judged = (await judgeTub(source, {}))!;
    const { topHeight } = found.tolerances!.setOut;
    const { height } = found.picks[0]!;
    expect(judged.verdict).toMatchObject({ topHeight, standing: 'within', heightNeeded: height!.topHeight });
    expect(topHeight).toBeGreaterThan(height!.topHeight + SIXTEENTH - 1e-9);
    expect(heightRisks(judged.verdict)).toEqual(found.asSetOut);
    expect(height).toMatchObject(judged.least!);
    expect(judged.least!.runRisk.high).toBeGreaterThan(judged.verdict.runRisk.high);
  });

  it('stands where it is said to stand, and no least height is told, where a height is given', async () => {
    const topHeight = found.picks[0]!.height!.topHeight;
    const judged = (await judgeTub(source, { topHeight }))!;
    expect(judged.verdict.topHeight).toBe(topHeight);
    expect(judged.least).toBeUndefined();
  });
});
