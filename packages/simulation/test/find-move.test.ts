import type { Case } from '@tubgap/casefile';
import { BLOCK } from '@tubgap/statistics';
import { INCH, SIXTEENTH } from '@tubgap/units';
import { beforeAll, describe, expect, it } from 'vitest';
import { performTubs } from '../src/assess/insights.ts';
import { type Judgement, judgement } from '../src/judge-tub.ts';
import { weightedBlocks } from '../src/runner.ts';
import { performHere } from '../src/simulate.ts';
import { findMove, type Move } from '../src/study/find-move.ts';
import { withCentre } from '../src/study/places.ts';
import type { Verdict } from '../src/verdict.ts';
import { demoCase } from './demo.ts';

const demo = demoCase(8 * BLOCK, 128);
/** A tub of the demo that its legs keep out at most places, 2 in behind the axle: some height does there, but no low one. */
const source: Case = {
  ...demo,
  tubs: demo.tubs
    .filter(({ name }) => name === 'middle-44')
    .map((tub) => ({ ...tub, centreForward: -2 * INCH })),
  accept: { runRisk: 0.005, seasonRisk: 0.4 },
};
const topHeight = 39.25 * INCH;

const judged = async (moved: Case, height: number): Promise<Judgement> =>
  (await judgement(moved, { tub: 0, topHeight: height }))!;

let standing: Judgement;
beforeAll(async () => {
  standing = await judged(source, topHeight);
});

/** The move that is found for the tub as it stands. @param changed  what is said of it otherwise than it was judged */
function moveOf(
  changed: Partial<Verdict>,
  judge: (moved: Case, height: number) => Promise<Verdict>,
): Promise<Move | undefined> {
  const { draws, centres } = standing;
  const verdict = { ...standing.verdict, ...changed };
  return findMove(
    source,
    0,
    verdict,
    { draws, weightedBlocks: weightedBlocks(source), centres },
    performTubs(performHere(source)),
    (moved) => judge(moved, verdict.topHeight),
  );
}

describe('a tub that does not do where it stands', () => {
  it('is moved by eighths, as far as it must be and no further, to where it is within as judged there', async () => {
    expect(standing.verdict.standing).toBe('not within');
    const move = (await moveOf({}, async (moved, height) => (await judged(moved, height)).verdict))!;
    expect(move.topHeight).toBe(topHeight);
    expect(move.by / (INCH / 8)).toBeCloseTo(Math.round(move.by / (INCH / 8)), 9);
    expect(move.by).toBeGreaterThan(0);
    expect(move.centreForward).toBeCloseTo(-2 * INCH + move.by, 12);
    expect(move.roomMissing).toEqual([]);
    const at = async (centreForward: number) =>
      (await judged(withCentre(source, 0, centreForward), topHeight)).verdict.standing;
    expect(await at(move.centreForward)).toBe('within');
    expect(await at(move.centreForward - INCH / 8)).not.toBe('within');
  });

  it('gets no move that is not within when it is judged there', async () => {
    const asked: number[] = [];
    const move = await moveOf({}, async (moved) => {
      asked.push(moved.tubs[0]!.centreForward);
      return { ...standing.verdict, standing: 'not known' };
    });
    expect(move).toBeUndefined();
    expect(asked.length).toBeGreaterThan(0);
  });

  it('is left where it is for a height that no place makes enough, if some height does where it stands', async () => {
    const low = 36 * INCH;
    const never = async (): Promise<Verdict> => ({ ...standing.verdict, standing: 'not within' });
    expect(await moveOf({ topHeight: low, heightNeeded: 43 * INCH }, never)).toBeUndefined();
  });

  it('goes to its lowest place, with the height that is needed there, if no height does where it stands', async () => {
    const low = 36 * INCH;
    const move = (await moveOf({ topHeight: low, heightNeeded: undefined }, async (moved) => {
      const { centreForward } = moved.tubs[0]!;
      // Told apart by place, so that the height can only be that of the place that is named.
      return { ...standing.verdict, standing: 'not within', heightNeeded: 1 + centreForward };
    }))!;
    expect(move.topHeight).toBe(1 + move.centreForward);
    const needs = async (centreForward: number) =>
      (await judged(withCentre(source, 0, centreForward), topHeight)).verdict.heightNeeded!;
    const least = await needs(move.centreForward);
    // Places are searched to 2 in from the tub's own; heights are picked to a sixteenth, each with its own noise.
    for (const centreForward of [-1.5, -1, -0.5, 0].map((inches) => inches * INCH))
      expect(least).toBeLessThan((await needs(centreForward)) + 1.01 * SIXTEENTH);
  });
});
