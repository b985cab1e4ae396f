import { describe, expect, it } from 'vitest';
import {
  BLOCK,
  clopperPearson,
  exceedance,
  firstWithin,
  normalQuantile,
  normalTail,
  splitProbability,
} from '../src/index.ts';
import { BENCHMARK_PROBLEMS } from './rare/benchmark-problems.ts';
import { type Blocks, type Drawn, drawnAbout, pointModel } from './rare/estimator.ts';

// Upper ends are one-sided bounds of 97.5 %. Of 200 seeds a share of 0.95 lies 2.3 binomial standard deviations below.
const SEEDS = 200;
const HELD = 0.95;

/** A number of which each value of a grid is exceeded with a known probability, and centres that lead to part of it. */
interface Trial extends Blocks {
  dimension: number;
  centres: readonly (readonly number[])[];
  value: (u: Float64Array) => number;
  grid: readonly number[];
}

const draw = ({ dimension, centres, value, grid, ...blocks }: Trial, seed: number): Drawn =>
  drawnAbout(
    { points: centres.map((centre) => Float64Array.from(centre)) },
    pointModel(dimension, value),
    grid,
    seed,
    blocks,
  );

/** The estimate that the weights of all draws give alone, with a log-normal 95 % interval's upper end. */
function weightedHigh({ all, weighted }: Drawn): number {
  const weight = all.weight.slice(1).reduce((a, b) => a + b, 0);
  const square = all.square.slice(1).reduce((a, b) => a + b, 0);
  if (weight === 0) return 0;
  const cov = Math.sqrt(square / weight ** 2 - 1 / weighted.draws);
  return (weight / weighted.draws) * Math.exp(1.96 * Math.sqrt(Math.log1p(cov ** 2)));
}

const index = (p: number): number => -normalQuantile(p);

/** Blocks of plain and weighted draws of a trial that is repeated over many seeds, and of a pick's first round. */
const SMALL = { plain: 16, weighted: 8 };
const WHOLE = { plain: 64, weighted: 32 };

/** Touches where x > b1, P = p1, to which a centre leads, and where y > b2, P = p2, to which none does. */
const twoCauses = (p1: number, p2: number, blocks: Blocks = SMALL): Trial => ({
  dimension: 2,
  centres: [[index(p1), 0]],
  value: ([x, y]) => Math.max(x! - index(p1), y! - index(p2)),
  grid: [0],
  ...blocks,
});

const bothCauses = (p1: number, p2: number): number => 1 - (1 - p1) * (1 - p2);

describe('a cause that no centre leads to', () => {
  // P = 1 − (1 − p1)(1 − p2), closed form.
  it.each([
    [2e-3, 4e-9],
    [2e-3, 2e-4],
    [4e-5, 4e-4],
    [2e-4, 8e-4],
    [4e-6, 8e-5],
  ])('is covered by the upper bound beside one that has a centre: %d and %d', (p1, p2) => {
    const truth = bothCauses(p1, p2);
    let held = 0;
    let alone = 0;
    let sum = 0;
    for (let seed = 0; seed < SEEDS; seed++) {
      const drawn = draw(twoCauses(p1, p2), seed);
      const found = exceedance(drawn)(0);
      if (found.high >= truth) held++;
      if (weightedHigh(drawn) >= truth) alone++;
      sum += found.estimate;
    }
    expect(held / SEEDS).toBeGreaterThanOrEqual(HELD);
    // Unbiased: within four standard errors of the mean of the counted part and 2 % of the weighted one.
    const error = 0.02 * p1 + 4 * Math.sqrt(truth / (SMALL.plain * BLOCK) / SEEDS);
    if (p1 > 1e-5) expect(Math.abs(sum / SEEDS - truth)).toBeLessThan(error);
    // The weighted estimate alone must fail wherever the second cause counts: else this test could not.
    if (p2 > 1e-8) expect(alone / SEEDS).toBeLessThan(0.8);
  });

  it('is covered too where the mixture leads past it: what was never met there is bounded by the plain draws', () => {
    // P = P(x > b1) + P(2.2 < x < b1) P(y > 2.3), closed form; density ratios from 4 up.
    const b1 = index(2e-4);
    const truth = 2e-4 + (normalTail(2.2) - 2e-4) * normalTail(2.3);
    const trial: Trial = {
      ...twoCauses(2e-4, 4e-9),
      value: ([x, y]) => Math.max(x! - b1, Math.min(x! - 2.2, y! - 2.3)),
    };
    let held = 0;
    for (let seed = 0; seed < SEEDS; seed++) if (exceedance(draw(trial, seed))(0).high >= truth) held++;
    expect(held / SEEDS).toBeGreaterThanOrEqual(HELD);
  });

  it('costs little where there is none: 12 % of the bound at one in 2,000', () => {
    const highs = Array.from(
      { length: 15 },
      (_, seed) => exceedance(draw(twoCauses(5e-4, 1e-9, WHOLE), seed))(0).high,
    );
    const median = highs.sort((a, b) => a - b)[7]!;
    expect(median / 5e-4).toBeGreaterThan(1.08);
    expect(median / 5e-4).toBeLessThan(1.16);
  });
});

describe('problems of known probability whose centres are missing but for one', () => {
  const corner = 3 / Math.SQRT2;
  const centresOf: [string, number[]][] = [
    ['four-branch', [corner, corner]],
    ['RP75', [Math.sqrt(3), Math.sqrt(3)]],
    ['RP25', [0, 2]],
    ['shell in 10 dimensions', [Math.sqrt(33), ...new Array<number>(9).fill(0)]],
  ];
  it.each(centresOf)('%s: the upper bound holds', (name, centre) => {
    const { limitState, dimension, probability } = BENCHMARK_PROBLEMS.find((one) => one.name === name)!;
    const trial: Trial = {
      dimension,
      centres: [centre],
      value: (u) => -limitState(u),
      grid: [0],
      plain: 8,
      weighted: 4,
    };
    let held = 0;
    for (let seed = 0; seed < SEEDS; seed++) {
      if (exceedance(draw(trial, seed))(0).high >= probability) held++;
    }
    expect(held / SEEDS).toBeGreaterThanOrEqual(HELD);
  });
});

describe('probability over a grid', () => {
  const STEP = 0.1;
  const GRID = 60;
  const START = 1.5;
  // Two causes again; the second begins later by `LATER`. P(above n) = 1 − Φ(b)Φ(b + LATER), closed form.
  const LATER = 0.35;
  const trial: Trial = {
    dimension: 2,
    centres: [
      [2.5, 0],
      [3.3, 0],
      [4.2, 0],
    ],
    value: ([x, y]) => Math.max(x!, y! - LATER),
    grid: Array.from({ length: GRID }, (_, n) => START + n * STEP),
    ...SMALL,
  };
  const truth = (n: number): number => {
    const b = START + n * STEP;
    return bothCauses(normalTail(b), normalTail(b + LATER));
  };

  it('never rises, holds its own estimate, and lies nowhere below what the plain count allows', () => {
    for (let seed = 0; seed < 30; seed++) {
      const drawn = draw(trial, seed);
      const curve = exceedance(drawn);
      let hits = 0;
      for (let n = GRID - 1; n >= 0; n--) {
        hits += drawn.plain.hits[n + 1]!;
        const { low, estimate, high } = curve(n);
        expect(low).toBeLessThanOrEqual(estimate);
        expect(high).toBeGreaterThanOrEqual(estimate);
        expect(high).toBeGreaterThanOrEqual(clopperPearson(hits, SMALL.plain * BLOCK).low);
        if (n === 0) continue;
        expect(high).toBeLessThanOrEqual(curve(n - 1).high);
        expect(low).toBeLessThanOrEqual(curve(n - 1).low);
        expect(estimate).toBeLessThanOrEqual(curve(n - 1).estimate);
      }
    }
  });

  it('picks values whose true probability is within what is accepted', () => {
    const accepted = [1e-2, 2e-3, 1e-3, 3e-4];
    const above = accepted.map(() => 0);
    for (let seed = 0; seed < SEEDS; seed++) {
      const curve = exceedance(draw(trial, seed));
      accepted.forEach((limit, k) => {
        if (truth(firstWithin(curve, GRID, limit, 'high')!) > limit) above[k]!++;
      });
    }
    for (const count of above) expect(count / SEEDS).toBeLessThanOrEqual(1 - HELD);
  });

  it('finds the lowest value within a limit, and none where none is', () => {
    const falling = (n: number) => ({ low: 0, estimate: 1 / (n + 1), high: 2 / (n + 1) });
    for (const limit of [3, 1, 0.5, 0.1, 0.02]) {
      const wanted = Array.from({ length: 200 }, (_, n) => n).find((n) => falling(n).high <= limit);
      expect(firstWithin(falling, 200, limit, 'high')).toBe(wanted);
    }
    expect(firstWithin(falling, 200, 0.001, 'high')).toBeUndefined();
    expect(firstWithin(falling, 200, 0.001, 'low')).toBe(0);
  });
});

describe('where a split figure gives way to the count', () => {
  const weighted = { draws: 32_768, weight: 1, square: 1e-3 };

  it('the count met a cause that no weight tells of: 8 hits of 65,536 stand against one in 33,000', () => {
    const found = splitProbability({ plain: { draws: 65_536, hits: 8, unseen: 0 }, weighted });
    expect(found.method).toBe('counted');
    expect(found.estimate).toBe(8 / 65_536);
  });

  it('the weighted hits say too little', () => {
    const few = { ...weighted, square: 1 / 49 };
    expect(splitProbability({ plain: { draws: 65_536, hits: 2, unseen: 0 }, weighted: few }).method).toBe(
      'counted',
    );
  });

  it('no hit at all gives the weighted figure, and a bound that the plain draws allow', () => {
    const found = splitProbability({ plain: { draws: 65_536, hits: 0, unseen: 0 }, weighted });
    expect(found.method).toBe('weighted');
    expect(found.estimate).toBeCloseTo(1 / 32_768, 12);
    expect(found.high).toBeGreaterThan(1 / 32_768 + clopperPearson(0, 65_536).high);
    expect(found.seenHigh).toBeLessThan(1.1 / 32_768);
  });
});
