import { describe, expect, it } from 'vitest';
import { normalQuantile, normalTail, searchDesignPoints } from '../src/index.ts';
import { drawnAbout, pointModel, repeated } from './rare/estimator.ts';

const RISK = 1e-4;
const far = -normalQuantile(RISK);

// Sixty directions of which every third counts, the later the more: more inputs than a car has, and noise in none.
const DIMENSION = 60;
const slope = Array.from({ length: DIMENSION }, (_, d) => (d % 3 === 0 ? 1 + d / 20 : 0));
const steepness = Math.hypot(...slope);
const along = (u: Float64Array): number =>
  slope.reduce((sum, part, d) => sum + (part / steepness) * u[d]!, 0);
const plane = pointModel(DIMENSION, along);
/** The same with a bend in one input more: the pilot hardly sees the slope that the rare event has. */
const bent = pointModel(DIMENSION, (u) => along(u) + Math.max(0, 0.5 * (u[1]! - 0.5)) ** 2);

describe('a search for design points', () => {
  it('finds that of a plane among many inputs, a little nearer, in as many calls as it is given', () => {
    let calls = 0;
    const counted: typeof plane = {
      ...plane,
      evaluate: (normals, count, values) => {
        calls += count;
        plane.evaluate(normals, count, values);
      },
    };
    const { points } = searchDesignPoints(counted, { seed: 1, risk: RISK });
    expect(calls).toBe(768);
    expect(points).toHaveLength(1);
    expect(along(points[0]!)).toBeGreaterThan(0.93 * far);
    expect(Math.hypot(...points[0]!)).toBeLessThan(0.96 * far);
  });

  it('follows a slope that changes on the way, for weights that know the risk well', () => {
    const centres = searchDesignPoints(bent, { seed: 2, risk: RISK });
    const known = drawnAbout(centres, bent, [far], 3, { plain: 0, weighted: 64 }).all;
    const first = searchDesignPoints(bent, { seed: 2, risk: RISK, rounds: 0 });
    const before = drawnAbout(first, bent, [far], 3, { plain: 0, weighted: 64 }).all;
    const scatter = ({ weight, square }: typeof known): number => square[1]! / weight[1]! ** 2;
    expect(scatter(known)).toBeLessThan(0.7 * scatter(before));
  });

  it('gives one point for each output, the same for the same seed, and none where nothing moves', () => {
    const opposite = {
      ...plane,
      outputs: 3,
      evaluate: (normals: readonly Float64Array[], count: number, values: readonly Float64Array[]) => {
        for (let i = 0; i < count; i++) {
          values[0]![i] = normals[0]![i]!;
          values[1]![i] = -normals[0]![i]! - normals[1]![i]!;
          values[2]![i] = 1;
        }
      },
    };
    const { points } = searchDesignPoints(opposite, { seed: 1, risk: RISK });
    expect(points).toHaveLength(2);
    expect(points[0]![0]).toBeGreaterThan(3);
    expect(points[1]![0]).toBeLessThan(-2);
    expect(points[1]![1]).toBeLessThan(-2);
    expect(searchDesignPoints(opposite, { seed: 1, risk: RISK }).points).toEqual(points);
    expect(searchDesignPoints({ ...plane, directions: [] }, { seed: 1, risk: RISK }).points).toEqual([]);
    expect(() => searchDesignPoints(plane, { seed: 1, risk: 0.5 })).toThrow('risk: read 0.5');
  });

  it('goes by what has a value', () => {
    const some = pointModel(2, ([x, y]) => (y! > 2 ? Infinity : x!));
    const [point] = searchDesignPoints(some, { seed: 1, risk: RISK }).points;
    expect(point![0]).toBeGreaterThan(3);
    const never = pointModel(2, () => Infinity);
    expect(searchDesignPoints(never, { seed: 1, risk: RISK }).points).toEqual([]);
  });
});

// What it is not made for: it finds one cause of two, and the other is left to the plain count.
const TWO_CAUSES = [
  {
    what: 'opposite each other',
    value: ([x]: Float64Array) => Math.max(x!, -x! - 0.3),
    tail: (t: number) => normalTail(t) + normalTail(t + 0.3),
  },
  {
    what: 'side by side, one steep from a stop on',
    value: ([x, y]: Float64Array) => Math.max((x! + y!) / Math.SQRT2, (5 * (x! - y!)) / Math.SQRT2 - 9),
    tail: (t: number) => 1 - (1 - normalTail(t)) * (1 - normalTail((t + 9) / 5)),
  },
];

it.each(TWO_CAUSES)('its centres claim no more than was seen of two causes $what', ({ value, tail }) => {
  const grid = [2.5, 3, 3.5, 4, 4.5];
  const found = repeated(
    pointModel(2, value),
    grid,
    { searches: 20, sets: 10, plain: 8, weighted: 4 },
    (model, seed) => searchDesignPoints(model, { seed, risk: RISK }),
  );
  grid.forEach((t, n) => {
    const held = found.filter((at) => at[n]!.high >= tail(t)).length / found.length;
    expect(held, `upper at ${tail(t)}`).toBeGreaterThanOrEqual(0.95);
  });
});
