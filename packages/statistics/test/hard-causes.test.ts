import { describe, expect, it } from 'vitest';
import { normalTail, SEEN_FROM, searchCentres } from '../src/index.ts';
import { drawnAbout, pointModel, repeated } from './rare/estimator.ts';

/**
 * Problems made to hurt the estimator, each with its probability of exceeding any value in closed form. Upper ends are
 * bounds of 97.5 %: of 200 repeats a share of 0.95 lies 2.3 binomial standard deviations below. Lower ends are too, but
 * each is the largest of those at all higher values, so that their misses add up: 0.92.
 */
const REPEATS = { searches: 20, sets: 10, plain: 8, weighted: 4 };
const RISKS = [1e-2, 1e-3, 1e-4, 1e-5, 1e-6];

interface Hurt {
  what: string;
  dimension: number;
  value: (u: Float64Array) => number;
  /** P(value > t). */
  tail: (t: number) => number;
}

const below = (t: number): number => 1 - normalTail(t);
/** Lifts of a coin that falls one way in 2 % of the draws. */
const RARE = 0.02;
const STEEP = 5;
const STOP = 9;
const island = (chance: number): Hurt => ({
  what: `a region of ${chance} that nothing leads to`,
  dimension: 2,
  value: ([x, y]) => (normalTail(y!) < chance ? Math.max(x!, 9) : x!),
  tail: (t) => (t < 9 ? 1 - below(t) * (1 - chance) : normalTail(t)),
});

const HURTS: readonly Hurt[] = [
  {
    what: 'two causes opposite each other, one rarer',
    dimension: 2,
    value: ([x]) => Math.max(x!, -x! - 0.3),
    tail: (t) => normalTail(t) + normalTail(t + 0.3),
  },
  {
    what: 'two causes far apart among six inputs',
    dimension: 6,
    value: (u) => {
      let along = 0;
      let across = 0;
      for (let k = 0; k < 6; k++) {
        along += u[k]! / Math.sqrt(6);
        across += (k % 2 === 0 ? u[k]! : -u[k]!) / Math.sqrt(6);
      }
      return Math.max(along, -across - 0.2);
    },
    tail: (t) => 1 - below(t) * below(t + 0.2),
  },
  {
    what: 'a stop: another input decides, five times as steep, from where it is met',
    dimension: 2,
    value: ([x, y]) => Math.max((x! + y!) / Math.SQRT2, (STEEP * (x! - y!)) / Math.SQRT2 - STOP),
    tail: (t) => 1 - below(t) * below((t + STOP) / STEEP),
  },
  {
    what: 'a cause with a heavy tail',
    dimension: 2,
    value: ([x, y]) => Math.max(x!, 0.02 * Math.exp(1.8 * y!)),
    tail: (t) => 1 - below(t) * below(Math.log(t / 0.02) / 1.8),
  },
  island(2e-3),
  island(1e-4),
  island(1e-5),
  {
    what: 'a cause in one rare moment',
    dimension: 3,
    value: ([x, y, z]) => (normalTail(z!) < RARE ? Math.max(x!, 1.5 + y!) : x!),
    tail: (t) => 1 - below(t) * (1 - RARE + RARE * below(t - 1.5)),
  },
];

/** The value that is exceeded with a probability; undefined where none is. */
function valueAt(tail: (t: number) => number, risk: number): number | undefined {
  let low = 0.1;
  let high = 1000;
  while (high - low > 1e-12 * high) {
    const middle = (low + high) / 2;
    if (tail(middle) > risk) low = middle;
    else high = middle;
  }
  return tail(high) > 0.99 * risk ? high : undefined;
}

describe.each(HURTS.map((hurt) => [hurt.what, hurt] as const))('%s', (_what, { dimension, value, tail }) => {
  it('is within both bounds at one in 100 to one in a million', () => {
    const risks = RISKS.filter((risk) => valueAt(tail, risk) !== undefined);
    expect(risks.length).toBeGreaterThan(0);
    const grid = risks.map((risk) => valueAt(tail, risk)!);
    const found = repeated(pointModel(dimension, value), grid, REPEATS);
    risks.forEach((risk, n) => {
      const high = found.filter((at) => at[n]!.high >= risk).length / found.length;
      const low = found.filter((at) => at[n]!.low <= risk).length / found.length;
      expect(high, `upper at ${risk}`).toBeGreaterThanOrEqual(0.95);
      expect(low, `lower at ${risk}`).toBeGreaterThanOrEqual(0.92);
    });
  });
});

describe('a search', () => {
  const opposite = {
    ...pointModel(3, () => 0),
    outputs: 2,
    evaluate: (normals: readonly Float64Array[], count: number, values: readonly Float64Array[]) => {
      for (let i = 0; i < count; i++) {
        values[0]![i] = normals[0]![i]!;
        values[1]![i] = -normals[0]![i]! - normals[1]![i]!;
      }
    },
  };

  it('serves every output, and moves no direction that has no part in any', () => {
    const { points } = searchCentres(opposite, { seed: 1 });
    expect(points.some(([x]) => x! > 3)).toBe(true);
    expect(points.some(([x, y]) => x! < -2 && y! < -2)).toBe(true);
    for (const point of points) expect(point[2]).toBe(0);
  });

  it('gives the same for the same seed, and looks no further than it is asked', () => {
    expect(searchCentres(opposite, { seed: 7 })).toEqual(searchCentres(opposite, { seed: 7 }));
    const far = (points: readonly Float64Array[]): number => Math.max(...points.map((p) => Math.hypot(...p)));
    const common = searchCentres(opposite, { seed: 7, risks: [1e-2] });
    expect(far(common.points)).toBeLessThan(far(searchCentres(opposite, { seed: 7 }).points) - 1);
  });

  it('finds none where nothing moves, or where too many draws have no value', () => {
    expect(searchCentres({ ...opposite, directions: [] }, { seed: 1 }).points).toEqual([]);
    const never = pointModel(1, (u) => (u[0]! > 1 ? Infinity : u[0]!));
    expect(searchCentres(never, { seed: 1 }).points).toEqual([]);
  });

  it('leads to where a few draws have no value', () => {
    const some = pointModel(2, (u) => (u[0]! > 3 ? Infinity : u[1]!));
    const centres = searchCentres(some, { seed: 1 });
    const { weighted } = drawnAbout(centres, some, [10], 1, { plain: 1, weighted: 16 });
    expect(weighted.weight[1]! / weighted.draws / normalTail(3)).toBeGreaterThan(0.9);
    expect(weighted.square[1]!).toBeLessThan(weighted.weight[1]! / SEEN_FROM);
  });
});
