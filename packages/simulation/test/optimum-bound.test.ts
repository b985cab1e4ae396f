import { BLOCK, fillUniforms } from '@tubgap/statistics';
import { describe, expect, it } from 'vitest';
import { openLatticeSearch } from '../src/optimum/lattice-search.ts';
import { seedOfSearch } from '../src/optimum/search-optimum.ts';
import { lowestAccepted } from '../src/pick.ts';
import { riskByHeight } from '../src/risk.ts';
import { HEIGHT_STEPS } from '../src/tally.ts';

/**
 * Places whose true risks are known and the same: a run touches at n steps and all below with probability q^n. Each place has
 * draws of its own, which makes of the best of many the luckiest one: harder than the common draws of a case.
 */
const Q = 0.97;
const ACCEPTED = 0.01;
const DRAWS = 2 * BLOCK;
const PLACES = 33;
const SEEDS = 80;
/** What is surely enough by the truth: 0.97^n ≤ 0.01 from n = ln 0.01 / ln 0.97 = 151.2 on, so that step 151 is the first. */
const FIRST = 151;

function risksAt(seed: number, place: number) {
  const uniforms = new Float64Array(BLOCK);
  const steps = new Float64Array(HEIGHT_STEPS + 1);
  for (let block = 0; block < DRAWS / BLOCK; block++) {
    fillUniforms(seed, `place ${place}`, block, uniforms, BLOCK);
    for (const uniform of uniforms)
      steps[Math.min(HEIGHT_STEPS, Math.floor(Math.log(uniform) / Math.log(Q)))]!++;
  }
  return riskByHeight({ events: DRAWS, all: steps, unseen: steps });
}

/** The step at which the bound of a place is within what is accepted. */
const heightAt = (seed: number, place: number): number => lowestAccepted(risksAt(seed, place), ACCEPTED)!;

/** The place at which a search by the draws of one seed finds the least height. */
function foundBy(seed: number): number {
  const search = openLatticeSearch<number>([PLACES], { compare: (a, b) => a - b, size: (value) => value });
  for (let wanted = search.wanted(); wanted.length > 0; wanted = search.wanted())
    for (const place of wanted) search.told(place, heightAt(seed, place[0]!));
  return search.best().place[0]!;
}

describe('the bound of the best of many', () => {
  const seeds = Array.from({ length: SEEDS }, (_, k) => k + 1);

  it('holds at its level by draws that the search did not see, and would not by those of the search', () => {
    const missed = { unseen: 0, seen: 0 };
    for (const seed of seeds) {
      const own = seedOfSearch(seed);
      const place = foundBy(own);
      // The risk one step below the first that is enough is above what is accepted.
      if (heightAt(seed, place) < FIRST) missed.unseen++;
      if (heightAt(own, place) < FIRST) missed.seen++;
    }
    // One side of a 95 % interval: 2.5 %, and three standard errors of that.
    const allowed = 0.025 * SEEDS + 3 * Math.sqrt(0.025 * 0.975 * SEEDS);
    expect(missed.unseen).toBeLessThanOrEqual(allowed);
    expect(missed.seen).toBeGreaterThan(2 * allowed);
  });
});
