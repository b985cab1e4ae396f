import type { Case } from '@tubgap/casefile';
import { BLOCK, centralValue, relocateLaw } from '@tubgap/statistics';
import { describe, expect, it } from 'vitest';
import { caseRisks } from '../src/case-risks.ts';
import { touchCentres } from '../src/importance/centres.ts';
import { normalSpace } from '../src/importance/normal-space.ts';
import { addWeightedTallies, emptyWeightedTallies } from '../src/importance/weighted-risk.ts';
import { findLimits } from '../src/limits/find-limits.ts';
import { findLargestTyre } from '../src/limits/largest-tyre.ts';
import type { Limit } from '../src/limits/limit.ts';
import { standsBy } from '../src/limits/margins.ts';
import { type Limited, limitQuantities } from '../src/limits/quantities.ts';
import { createBlockRoom } from '../src/run-risk.ts';
import { emptyRunTallies } from '../src/run-tallies.ts';
import { mixtureRuns, tallyRuns, weightedParts } from '../src/runner.ts';
import { tallySeasons } from '../src/season-risk.ts';
import { caseSetup } from '../src/setup.ts';
import { performHere } from '../src/simulate.ts';
import { emptyTally } from '../src/tally.ts';
import { tubVerdict, type Verdict } from '../src/verdict.ts';
import { demoCase } from './demo.ts';

const INCH = 0.0254;
const SLICK = 0;
const PLAIN = 8;
const WEIGHTED = 8;
const CARS = 128;

const demo = demoCase(PLAIN * BLOCK, CARS);
const one: Case = {
  ...demo,
  tubs: demo.tubs.filter(({ name }) => name === 'street-42'),
  accept: { runRisk: 0.005, seasonRisk: 0.4 },
};
const space = normalSpace(caseSetup(one));
const centres = touchCentres(caseSetup(one), space, 1, createBlockRoom(caseSetup(one)));
const sample = { draws: PLAIN * BLOCK, weightedBlocks: WEIGHTED, centres };

/** The risks of a pick's own rule of a case by itself, with the draws of the search: no study in between. */
function risksOf(source: Case) {
  const setup = caseSetup(source);
  const room = createBlockRoom(setup);
  const runs = emptyRunTallies(setup);
  const own = normalSpace(setup);
  tallyRuns(setup, 1, sample.draws, 0, PLAIN, room, runs, { space: own, centres });
  const tail = emptyWeightedTallies(setup);
  for (const range of weightedParts(WEIGHTED))
    addWeightedTallies(tail, mixtureRuns(setup, centres, 1, range, room));
  const seasons = emptyTally(setup.lowestHeights, setup.clearance.hardPoints.length);
  tallySeasons(setup, 1, 0, CARS, room, seasons);
  return { setup, runs, risks: caseRisks(runs, tail, seasons, undefined) };
}

function verdictOn(source: Case, topHeight: number): Verdict {
  const { setup, runs, risks } = risksOf(source);
  return tubVerdict(source, setup, risks, runs, 0, topHeight);
}

async function limitsOf(source: Case, topHeight: number, ...codes: Limited[]): Promise<Limit[]> {
  const { setup, risks } = risksOf(source);
  const stands = standsBy(source, setup, risks, 0, topHeight);
  const place = { tub: 0, tyre: SLICK, topHeight };
  return findLimits(source, place, { ...sample, stands }, performHere(source), codes);
}

const putBack = (source: Case, { code }: Pick<Limit, 'code'>, value: number): Case =>
  limitQuantities(source, SLICK)
    .find((quantity) => quantity.code === code)!
    .at(value);

describe('how far numbers of a case may go for a tub at its height', async () => {
  const needed = verdictOn(one, 40 * INCH).heightNeeded!;
  const roomy = needed + 0.5 * INCH;
  const tight = needed - 0.5 * INCH;

  it('each put back is within at that height, not a step further, and surely not at the interval’s end', async () => {
    for (const [topHeight, codes] of [
      [roomy, ['speed', 'travel', 'reserve']],
      [roomy, ['diameter']],
      [tight, ['speed', 'spring', 'travel']],
    ] as const) {
      const limits = await limitsOf(one, topHeight, ...codes);
      expect(limits.map(({ outcome }) => outcome)).toEqual(codes.map(() => 'limit'));
      for (const limit of limits) {
        const { grid } = limitQuantities(one, SLICK).find(({ code }) => code === limit.code)!;
        const step = (limit.end === 'most' ? 1 : -1) * grid.valueAt(1);
        expect(verdictOn(putBack(one, limit, limit.value!), topHeight).standing, limit.code).toBe('within');
        expect(verdictOn(putBack(one, limit, limit.value! + step), topHeight).standing).not.toBe('within');
        expect(verdictOn(putBack(one, limit, limit.beyond!), topHeight).standing).toBe('not within');
        expect(verdictOn(putBack(one, limit, limit.beyond! + step), topHeight).standing).toBe('not within');
      }
    }
  });

  it('a higher accepted risk, or a higher tub, never gives a lower speed', async () => {
    const speeds: number[] = [];
    for (const runRisk of [0.003, 0.01, 0.05]) {
      const [speed] = await limitsOf({ ...one, accept: { runRisk, seasonRisk: 0.9 } }, needed, 'speed');
      speeds.push(speed!.value!);
    }
    expect(speeds).toEqual(speeds.toSorted((a, b) => a - b));
    expect(new Set(speeds).size).toBe(3);
    const byHeight: number[] = [];
    for (const topHeight of [tight, needed, roomy]) {
      const [speed] = await limitsOf(one, topHeight, 'speed');
      byHeight.push(speed!.value!);
    }
    expect(byHeight).toEqual(byHeight.toSorted((a, b) => a - b));
    expect(new Set(byHeight).size).toBe(3);
  });

  it('where the season decides, goes by it, and finds how many runs it may have', async () => {
    const season: Case = { ...one, accept: { runRisk: 0.4, seasonRisk: 0.2 } };
    const at = verdictOn(season, 40 * INCH).heightNeeded! - 0.25 * INCH;
    const [speed, runs] = await limitsOf(season, at, 'speed', 'runs');
    expect(verdictOn(putBack(season, speed!, speed!.value!), at).standing).toBe('within');
    expect(verdictOn(putBack(season, speed!, speed!.value! + 0.44704), at).standing).not.toBe('within');
    expect(runs).toMatchObject({ outcome: 'limit', now: 48 });
    expect(runs!.value).toBeLessThan(48);
    expect(verdictOn(putBack(season, runs!, runs!.value!), at).standing).toBe('within');
    expect(verdictOn(putBack(season, runs!, runs!.value! + 1), at).standing).not.toBe('within');
  });

  it('names the largest tyre of a list that is within and the smallest that is not, each so by itself', async () => {
    const tyre = one.tyres[SLICK]!;
    const { referenceRadius } = tyre.inputs;
    const sized = (inches: number) => ({
      ...tyre,
      name: `slick-${inches}`,
      inputs: {
        ...tyre.inputs,
        referenceRadius: {
          ...referenceRadius,
          law: relocateLaw(referenceRadius.law, 1, (inches * INCH) / 2 - centralValue(referenceRadius.law)),
        },
      },
    });
    const inches = [31, 33.2, 34.2, 34.5, 34.9, 37];
    const sizes = inches.map(sized);
    const { setup, risks } = risksOf(one);
    const stands = standsBy(one, setup, risks, 0, roomy);
    const place = { tub: 0, tyre: SLICK, topHeight: roomy };
    const found = await findLargestTyre(one, place, { ...sample, stands }, performHere(one), sizes);
    const withSize = (name: string): Case => ({
      ...one,
      build: { ...one.build, tyre: name },
      tyres: one.tyres.map((own, i) => (i === SLICK ? sizes.find((size) => size.name === name)! : own)),
    });
    expect(found.now).toMatchObject({ name: 'tall-slick', standing: 'within' });
    expect(verdictOn(withSize(found.largest!.name), roomy).standing).toBe('within');
    expect(verdictOn(withSize(found.smallest!.name), roomy).standing).toBe('not within');
    expect(found.smallest!.diameter).toBeGreaterThan(found.largest!.diameter);
    const larger = sizes.filter((_, i) => inches[i]! * INCH > found.largest!.diameter + 1e-9);
    for (const { name } of larger) expect(verdictOn(withSize(name), roomy).standing).not.toBe('within');
    expect(found.looked.length).toBeLessThan(7);
  });

  it('names no value where too few runs were simulated to tell, and none beyond what it looked at', async () => {
    const rare: Case = { ...one, accept: { runRisk: 1e-7, seasonRisk: 0.4 } };
    const [unknown] = await limitsOf(rare, 46 * INCH, 'speed');
    expect(unknown).toMatchObject({ outcome: 'not known', value: null });
    const [any] = await limitsOf(one, 46 * INCH, 'travel');
    expect(any).toMatchObject({ outcome: 'any', beyond: null });
    expect(any!.value).toBe(any!.to);
  });
});
