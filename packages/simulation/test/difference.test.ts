import normalCdf from '@stdlib/stats-base-dists-normal-cdf';
import { BLOCK, fillUniforms, normalQuantile, SEEN_FROM } from '@tubgap/statistics';
import { describe, expect, it } from 'vitest';
import { weighBlock } from '../src/importance/weighted-risk.ts';
import type { BlockOutcome } from '../src/outcome.ts';
import { countBlock } from '../src/run-tallies.ts';
import type { DrawnBy, SampledBlock } from '../src/runner.ts';
import { heightDifference } from '../src/study/height-at-risk.ts';
import { pairBlock } from '../src/study/paired-sums.ts';
import { type CellFigures, studyFigures } from '../src/study/study-figures.ts';
import { addPlain, addWeightedSums, emptyPlain, emptyWeightedSums } from '../src/study/study-sums.ts';
import { openStudy } from '../src/study/study-tasks.ts';
import { demoCase } from './demo.ts';

// A stand-in for the model: a run needs the greater of two normal heights, in steps. The first has a centre, the second
// has none; the other setup is a tub moved ahead: the first cause falls, and the second, which no centre leads to, rises.
const ACCEPTED = 1 / 500;
const CENTRE = 2.9;
/** Weighted draws of a block that stay plain. */
const UNMOVED = 103;
const PARTS = 8;
const PLAIN_BLOCKS = 4;
const SEEDS = 200;
const FIRST_HEIGHT = 400;
const HEIGHT_UNIT = 0.0254 / 16;

interface Causes {
  first: number;
  second: number;
}
const BASE: Causes = { first: FIRST_HEIGHT, second: FIRST_HEIGHT - 25 };
const MOVED: Causes = { first: FIRST_HEIGHT - 6, second: FIRST_HEIGHT - 10 };
const SPREAD = 12;

const truth = ({ first, second }: Causes, step: number): number => {
  const below = (middle: number): number => normalCdf((step - middle) / SPREAD, 0, 1);
  return 1 - below(first) * below(second);
};

/** Step, with its fraction, at which the known risk passes what is accepted, straight in its logarithm. */
function knownStep(causes: Causes): number {
  let step = FIRST_HEIGHT;
  while (truth(causes, step) > ACCEPTED) step++;
  const here = truth(causes, step);
  return step - Math.log(ACCEPTED / here) / Math.log(truth(causes, step - 1) / here);
}

const demo = demoCase(1, 1);
const source = { ...demo, hardPoints: [], tyres: demo.tyres.slice(0, 1), tubs: demo.tubs.slice(3, 4) };
const setups = ['as it stands', 'moved'].map((label) => ({ label, source }));
const { points } = openStudy(setups);
const [base, moved] = points as [(typeof points)[0], (typeof points)[0]];
const AT = FIRST_HEIGHT + 34;
const heights = [[base.setup.lowestHeights[0]! + AT * HEIGHT_UNIT]];

const uniforms = new Float64Array(BLOCK);
const normals = (seed: number, stream: string, block: number): Float64Array => {
  fillUniforms(seed, stream, block, uniforms, BLOCK);
  return uniforms.map(normalQuantile);
};

/** One block of both setups' runs. */
function drawn(seed: number, drawnBy: DrawnBy, block: number) {
  const z1 = normals(seed, `${drawnBy}/first`, block);
  const z2 = normals(seed, `${drawnBy}/second`, block);
  if (drawnBy === 'weighted') for (let i = UNMOVED; i < BLOCK; i++) z1[i]! += CENTRE;
  const plainShare = UNMOVED / BLOCK;
  const ratios = z1.map((z) => plainShare + (1 - plainShare) * Math.exp(CENTRE * (z - 0.5 * CENTRE)));
  const sampled: SampledBlock = {
    seed,
    prefix: '',
    block,
    count: BLOCK,
    weights: ratios.map((ratio) => (drawnBy === 'plain' ? 1 : 1 / ratio)),
    seen: Uint8Array.from(ratios, (ratio) => (ratio < SEEN_FROM ? 0 : 1)),
    normals: undefined,
  };
  const paired = ({ first, second }: Causes) => {
    const needed = z1.map((z, i) => Math.max(first + SPREAD * z, second + SPREAD * z2[i]!));
    const steps = Uint16Array.from(needed, Math.ceil);
    const nothing = new Uint8Array(BLOCK);
    const outcome: BlockOutcome = {
      count: BLOCK,
      steps: [[steps], [steps]],
      contactSteps: [[steps], [steps]],
      legs: [[nothing], [nothing]],
      hardPoints: [[], []],
    };
    return { outcome, requiredHeight: (_: number, __: number, run: number): number => needed[run]! };
  };
  return { sampled, blocks: [paired(BASE), paired(MOVED)] as const };
}

/** Figures of both setups from one seed. */
function figuresOf(seed: number): CellFigures[][][] {
  const sums = points.map((point) => ({
    plain: emptyPlain(point, heights),
    weighted: emptyWeightedSums(point, heights),
    plainParts: Array.from({ length: PARTS }, () => emptyPlain(point, heights)),
    weightedParts: Array.from({ length: PARTS }, () => emptyWeightedSums(point, heights)),
  }));
  for (let part = 0; part < PARTS; part++) {
    for (let b = 0; b < PLAIN_BLOCKS; b++) {
      const { sampled, blocks } = drawn(seed, 'plain', PLAIN_BLOCKS * part + b);
      points.forEach((_, p) => {
        countBlock(blocks[p]!.outcome, sampled.seen, sums[p]!.plainParts[part]!.tallies);
      });
      pairBlock(moved, blocks[1], blocks[0], [[AT]], sampled, sums[1]!.plainParts[part]!.paired);
    }
    const { sampled, blocks } = drawn(seed, 'weighted', part);
    points.forEach((_, p) => {
      weighBlock(blocks[p]!.outcome, sampled.weights, sums[p]!.weightedParts[part]!.tallies);
    });
    pairBlock(moved, blocks[1], blocks[0], [[AT]], sampled, sums[1]!.weightedParts[part]!.paired);
  }
  const figures: CellFigures[][][] = [];
  sums.forEach((totals, p) => {
    for (const part of totals.plainParts) addPlain(totals.plain, part);
    for (const part of totals.weightedParts) addWeightedSums(totals.weighted, part);
    figures.push(studyFigures(points[p]!, totals, ACCEPTED, heights, figures[0]));
  });
  return figures;
}

describe('the interval of a difference where one of two causes has no centre', () => {
  const found = Array.from({ length: SEEDS }, (_, seed) => figuresOf(seed)[1]![0]![0]!);
  const held = (known: number, of: (cell: CellFigures) => { low: number; high: number }) => {
    const intervals = found.map(of);
    const below = intervals.filter(({ high }) => high < known).length / SEEDS;
    const above = intervals.filter(({ low }) => low > known).length / SEEDS;
    return { below, above };
  };

  it('of heights holds the known one in 95 % of the seeds, give or take what 200 of them can tell', () => {
    const known = (knownStep(MOVED) - knownStep(BASE)) * HEIGHT_UNIT;
    const { below, above } = held(known, ({ heightDifference }) => heightDifference!);
    expect(below).toBeLessThan(0.055);
    expect(above).toBeLessThan(0.055);
  });

  it('of risks holds the known one, and says something', () => {
    const known = truth(MOVED, AT) - truth(BASE, AT);
    const { below, above } = held(known, ({ compared }) => compared[0]!.difference!);
    expect(below).toBeLessThan(0.055);
    expect(above).toBeLessThan(0.055);
    const half = found.reduce((sum, { compared }) => {
      const { low, high } = compared[0]!.difference!;
      return sum + (high - low) / 2 / SEEDS;
    }, 0);
    expect(half).toBeLessThan(2 * Math.abs(known) + 2.77 / (PARTS * PLAIN_BLOCKS * BLOCK));
    expect(found.filter(({ compared }) => compared[0]!.risk.method === 'weighted').length).toBeGreaterThan(
      150,
    );
  });
});

describe('a height that was counted beside one that was weighed', () => {
  // Parts left out move a height by a hundredth; the count happens to lie 1 above the weights.
  const leftOut = (height: number): Float64Array =>
    Float64Array.from({ length: 16 }, (_, part) => height + (part % 2 === 0 ? 0.01 : -0.01));
  const by = (height: number) => ({ height, leftOut: leftOut(height) });
  const weighed = (height: number) => ({
    ...by(height),
    methods: ['weighted' as const],
    weighted: by(height),
  });
  const counted = { ...by(6), methods: ['counted' as const], weighted: by(5) };

  it('has the difference that is printed, in an interval that holds what the weights say of both', () => {
    const { estimate, low, high } = heightDifference(weighed(7), counted)!;
    expect(estimate).toBe(1);
    expect(low).toBeLessThanOrEqual(1);
    expect(high).toBeGreaterThanOrEqual(2);
  });

  it('says no more than that where both were found alike', () => {
    const { low, high } = heightDifference(weighed(7), weighed(5))!;
    expect(high - low).toBeLessThan(0.2);
  });
});
