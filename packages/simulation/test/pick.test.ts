import type { Case } from '@tubgap/casefile';
import { describe, expect, it } from 'vitest';
import { caseRisks } from '../src/case-risks.ts';
import { chosenTub, nearestTub, type Pick, passedOverTubs, pickHeights } from '../src/pick.ts';
import { createBlockRoom } from '../src/run-risk.ts';
import { emptyRunTallies } from '../src/run-tallies.ts';
import { tallyRuns } from '../src/runner.ts';
import { caseSetup } from '../src/setup.ts';
import { emptyTally } from '../src/tally.ts';
import { demoCase } from './demo.ts';

const INCH = 0.0254;
const DRAWS = 8192;

/** Picks of a case from plain runs, with seasons that never touch. */
function picksOf(source: Case): { picks: Pick[]; hardTouches: number[] } {
  const setup = caseSetup(source);
  const runs = emptyRunTallies(setup);
  tallyRuns(setup, 1, DRAWS, 0, DRAWS / 1024, createBlockRoom(setup), runs);
  const seasons = emptyTally(setup.lowestHeights, setup.clearance.hardPoints.length);
  seasons.events = 2000;
  for (const tub of seasons.tubs) tub.steps[0] = 2000;
  const risks = caseRisks(runs, undefined, seasons, undefined);
  return { picks: pickHeights(source, setup, risks, runs), hardTouches: runs.all.hardTouches };
}

const bar = (name: string, ahead: number): Case['hardPoints'][number] => ({
  name,
  shape: 'circle',
  ahead: ahead * INCH,
  above: 0.1 * INCH,
  radius: 0.875 * INCH,
});

describe('a hard point that every run touches', () => {
  it('is named with its own touches, wherever it stands in the list', () => {
    const source = { ...demoCase(DRAWS, 2000), hardPoints: [bar('far bar', 40), bar('near bar', 18)] };
    const { picks, hardTouches } = picksOf(source);
    expect(hardTouches[0]).toBe(0);
    expect(hardTouches[1]).toBeGreaterThan(0.9 * DRAWS);
    for (const { reason } of picks) {
      expect(reason.replaceAll(',', '')).toContain(`near bar (${hardTouches[1]} of ${DRAWS} runs)`);
      expect(reason).not.toContain('far bar');
    }
  });
});

describe('the limits of the car', () => {
  const picks = [39, 38.5, 38, 38, 38].map((inches, t) => ({
    verdict: t > 0 ? ('fits' as const) : ('does not fit' as const),
    height: { topHeight: inches * INCH },
  }));
  const limited = (envelope: Case['envelope']): Case => ({ ...demoCase(1024, 1), envelope });

  it('pass over a tub that fits the tyres alone', () => {
    const { tubs } = limited({});
    expect(chosenTub(limited({}), picks)).toBe(1);
    const outside = tubs[1]!.skinThickness + tubs[1]!.liner;
    // Room for a top of 38 in but not for one of 38 1/2 in: the second tub is too high, the third is not.
    const low = limited({ highestTop: 38.2 * INCH + outside });
    expect(chosenTub(low, picks)).toBe(2);
    // Derived: half the diameter and the skin, about a centre 1/4 in ahead of the axle.
    const ahead = 0.5 * tubs[1]!.diameter + tubs[1]!.skinThickness + 0.25 * INCH;
    expect(chosenTub(limited({ furthestAhead: ahead }), picks)).toBe(1);
    expect(chosenTub(limited({ furthestAhead: ahead - 1e-6 }), picks)).toBeUndefined();
  });

  it('leave the tub for which the fewest sides have to give way, then the least of length', () => {
    const { tubs } = limited({});
    const ahead = 0.5 * tubs[1]!.diameter + tubs[1]!.skinThickness + 0.25 * INCH;
    // The second tub is too high alone, the others too long alone; half an inch is less than what they are too long.
    const short = limited({ furthestAhead: ahead, highestTop: 38.1 * INCH + 0.002 });
    expect(chosenTub(short, picks)).toBeUndefined();
    expect(nearestTub(short, picks)).toBe(1);
    const both = limited({ furthestAhead: ahead - 0.001, highestTop: 38.1 * INCH + 0.002 });
    expect(nearestTub(both, picks)).toBe(2);
    expect(
      nearestTub(
        both,
        picks.map(({ height }) => ({ verdict: 'does not fit' as const, height })),
      ),
    ).toBeUndefined();
  });
});

describe('a tub that clears only at a silly height', () => {
  it('gives way to the next one, and is told as passed over', () => {
    // Bug: middle-44 at 59 3/16 in was to be built as the smallest that fits, where the next tub needed 41 in.
    const source = demoCase(1024, 1);
    const at = (heights: readonly number[]): { verdict: 'fits'; height: { topHeight: number } }[] =>
      heights.map((inches) => ({ verdict: 'fits' as const, height: { topHeight: inches * INCH } }));
    // Diameters 39 1/4, 42 1/2, 44 1/2, 46 1/4, 49 1/2 in.
    const silly = at([70, 65, 59.1875, 41, 40.5]);
    expect(chosenTub(source, silly)).toBe(3);
    expect(passedOverTubs(source, silly, 3)).toEqual([0, 1, 2]);
    // Within what it saves in diameter the smaller tub stays the one to build.
    const usual = at([41, 38.5, 37.5, 37, 36.5]);
    expect(chosenTub(source, usual)).toBe(0);
    expect(passedOverTubs(source, usual, 0)).toEqual([]);
    expect(chosenTub(source, at([41.9, 38.5, 37.5, 37, 36.5]))).toBe(1);
    // Of equal sums the smaller one.
    expect(chosenTub(source, at([41.75, 38.5, 37.5, 37, 36.5]))).toBe(0);
  });

  it('is no reason to order one: a tub in stock is built before any that is not', () => {
    const source = demoCase(1024, 1);
    const at = (heights: readonly number[]): { verdict: 'fits'; height: { topHeight: number } }[] =>
      heights.map((inches) => ({ verdict: 'fits' as const, height: { topHeight: inches * INCH } }));
    const stocked = (...inStock: (boolean | undefined)[]) => ({
      ...source,
      tubs: source.tubs.map((tub, t) => ({
        ...tub,
        ...(inStock[t] !== undefined && { inStock: inStock[t] }),
      })),
    });
    const picks = at([41, 38.5, 37.5, 37, 36.5]);
    expect(chosenTub(stocked(false, false, true, true), picks)).toBe(2);
    // Where the list is silent a tub counts as there.
    expect(chosenTub(stocked(false, false, undefined, true), picks)).toBe(2);
    expect(chosenTub(stocked(false, false, false, false, false), picks)).toBe(0);
  });

  it('is found so for a whole car: a tub 3 in behind the axle takes the slick only with its ends above the shoulders', () => {
    const demo = demoCase(DRAWS, 2000);
    const source = {
      ...demo,
      hardPoints: [],
      tubs: demo.tubs.map((tub) => ({ ...tub, centreForward: -3 * INCH })),
      accept: { ...demo.accept, runRisk: 1 / 200 },
    };
    const { picks } = picksOf(source);
    const heights = picks.map(({ height }) => height!.topHeight / INCH);
    // The 44 1/2 in tub has slanted legs of 7 in; endless ones asked for 59 in.
    expect(heights[2]).toBeGreaterThan(48);
    expect(heights[2]).toBeLessThan(53);
    expect(heights[4]).toBeLessThan(41);
    expect(source.tubs[chosenTub(source, picks)!]!.name).toBe('full-50');
  });
});
