import { beforeAll, describe, expect, it } from 'vitest';
import { PROOF_CASES } from './proofs/cases.ts';
import { missesOf, type Picked, picked, proofSeeds } from './proofs/picked.ts';
import { readTruth, type TrueCounts, trueRisk } from './proofs/truth.ts';

/**
 * What is printed against what is true, by far more plain runs and seasons of another seed: proofs/truth/, counted by
 * scripts/write-truth.ts. A few seeds here; TUBGAP_PROOF_SEEDS=200 makes 200, and proofs/README.md says what came out.
 */

/** First step at which the true risk is at most so large. */
function stepWithin(counts: TrueCounts, risk: number): number {
  const k = counts.touches.findIndex((touches) => touches <= risk * counts.events);
  expect(k).toBeGreaterThan(0);
  return counts.fromStep + k;
}

/** Of what is accepted, where upper bounds of runs are held against what is true. */
const TIMES_ACCEPTED = [4, 2, 1, 0.5];

describe.each(['demo', 'bump'] as const)('the case %s', (name) => {
  const seeds = proofSeeds(4);
  const { tyres } = readTruth(name);
  const { source } = PROOF_CASES[name];
  const { runRisk: accepted } = source(1).accept;
  let picks: Picked[];
  beforeAll(async () => {
    picks = [];
    for (const seed of seeds) picks.push(await picked(source(seed)));
  });

  it('is picked a height with a true run risk above the accepted one in at most 5 % of the seeds', () => {
    const above = seeds.filter((_, k) => {
      const risks = tyres.map((counts) => trueRisk(counts, picks[k]!.step!));
      for (const { error } of risks) expect(error).toBeLessThan(0.03 * accepted);
      return risks.some(({ risk }) => risk > accepted);
    });
    expect(above.length, `seeds ${above}`).toBeLessThanOrEqual(missesOf(seeds.length));
  });

  it.each(TIMES_ACCEPTED)(
    'has a true run risk of %f times the accepted one within its 95 % upper bound',
    (times) => {
      const step = stepWithin(tyres[0]!, times * accepted);
      const { risk } = trueRisk(tyres[0]!, step);
      const missed = seeds.filter((_, k) => picks[k]!.risks.tyres[0]![0]!.touch(step).high < risk);
      expect(missed.length, `seeds ${missed}`).toBeLessThanOrEqual(missesOf(seeds.length));
    },
  );
});

describe.each([
  { name: 'demo', how: 'counted', at: [1 / 20, 1 / 100] },
  { name: 'season', how: 'weighed', at: [1 / 50, 1 / 500] },
] as const)('the season risk of the case $name, $how', ({ name, how, at }) => {
  it('has a true one above its 95 % upper bound in at most 5 % of the seeds', async () => {
    const seeds = proofSeeds(how === 'counted' ? 3 : 10);
    const { season } = readTruth(name);
    const steps = at.map((risk) => stepWithin(season, risk));
    const missed = at.map(() => [] as number[]);
    const methods = new Set<string>();
    for (const seed of seeds) {
      const { risks } = await picked(PROOF_CASES[name].source(seed));
      steps.forEach((step, k) => {
        const found = risks.seasons[0]!(step);
        methods.add(found.method);
        if (found.high < trueRisk(season, step).risk) missed[k]!.push(seed);
      });
    }
    expect(methods.has('weighted')).toBe(how === 'weighed');
    missed.forEach((own, k) => {
      expect(own.length, `1 in ${1 / at[k]!}, seeds ${own}`).toBeLessThanOrEqual(missesOf(seeds.length));
    });
  });
});
