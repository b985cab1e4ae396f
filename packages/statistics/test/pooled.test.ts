import { describe, expect, it } from 'vitest';
import {
  chainDiagnostics,
  choleskyFactor,
  joinedDraws,
  nestState,
  normalCumulative,
  openNest,
  orderModel,
  type PooledDraws,
  type PooledModel,
  pooledChain,
  sampleQuantile,
  solveLower,
  type Unit,
} from '../src/index.ts';

/** A unit with one coordinate in one group and a normal reading of it. */
const readingOf = (name: string, y: number, sd: number, groups: readonly string[] = ['all']): Unit => ({
  name,
  coordinates: [{ kind: 0, groups }],
  likelihood: (point) => -0.5 * ((point[0]! - y) / sd) ** 2,
  steering: { precision: [[1 / sd ** 2]], pull: [y / sd ** 2] },
  start: (normal) => Float64Array.of(y + 2 * sd * normal()),
});

const chainsOf = (model: PooledModel, draws: number, seed = 1): PooledDraws[] =>
  Array.from({ length: 4 }, (_, c) => pooledChain(orderModel(model), { seed, pilot: draws / 2, draws }, c));

/** Mean, standard deviation and effective draws of a number over the chains. */
function summaryOf(chains: readonly Float64Array[]) {
  const all = Float64Array.from(chains.flatMap((chain) => Array.from(chain))).sort();
  const mean = all.reduce((sum, x) => sum + x, 0) / all.length;
  const sd = Math.sqrt(all.reduce((sum, x) => sum + (x - mean) ** 2, 0) / (all.length - 1));
  return { mean, sd, ...chainDiagnostics(chains), at: (q: number) => sampleQuantile(all, q) };
}

/** A mean within four standard errors of the exact one, with as many effective draws as it takes to say so. */
function expectMean(chains: readonly Float64Array[], mean: number, sd: number, fewest = 400): void {
  const found = summaryOf(chains);
  expect(found.rHat).toBeLessThan(1.02);
  expect(found.bulk).toBeGreaterThan(fewest);
  expect(Math.abs(found.mean - mean)).toBeLessThan((4 * sd) / Math.sqrt(found.bulk));
}

/** A standard deviation within four standard errors, by the effective draws of what it is made of. */
function expectSpread(chains: readonly Float64Array[], sd: number): void {
  const { mean, sd: found } = summaryOf(chains);
  const { bulk, tail } = summaryOf(chains.map((chain) => chain.map((x) => (x - mean) ** 2)));
  expect(Math.abs(found / sd - 1)).toBeLessThan(4 / Math.sqrt(2 * Math.min(bulk, tail)));
}

describe('nested groups', () => {
  const paths = [['a', 'x'], ['a', 'x'], ['a', 'y'], ['a'], ['b', 'x'], ['b', 'z'], []];
  const values = [0.3, -0.4, 1.2, 0.8, -1.1, 0.1, 0.5];
  const variances = [0.4, 0.35, 0.25];
  /** Covariance of two leaves: the variances of the groups that they share. */
  const covariance = paths.map((a, i) =>
    paths.map((b, k) => {
      if (i === k) return 1;
      const common = [0, 1].filter(
        (l) => a[l] !== undefined && a.slice(0, l + 1).join() === b.slice(0, l + 1).join(),
      );
      return common.reduce((sum, l) => sum + variances[l]!, 0);
    }),
  );
  const state = nestState(openNest(paths));
  const known = (but?: number): void => {
    state.reset(variances);
    values.forEach((value, i) => {
      if (i !== but) state.set(i, value);
    });
  };

  it('have the density of the dense normal law', () => {
    known();
    const factor = choleskyFactor(covariance);
    const white = solveLower(factor, values, new Float64Array(values.length));
    const dense = white.reduce(
      (sum, x, i) => sum - 0.5 * (x * x + Math.log(2 * Math.PI)) - Math.log(factor[i]![i]!),
      0,
    );
    expect(state.logDensity()).toBeCloseTo(dense, 12);
  });

  it('foretell each leaf from all others as the dense law does, whatever came and went before', () => {
    values.forEach((value, i) => {
      known();
      state.set(i, 7);
      state.set(i, undefined);
      const rest = values.flatMap((_, k) => (k === i ? [] : [k]));
      const factor = choleskyFactor(rest.map((a) => rest.map((b) => covariance[a]![b]!)));
      const across = solveLower(
        factor,
        rest.map((a) => covariance[a]![i]!),
        new Float64Array(rest.length),
      );
      const white = solveLower(
        factor,
        rest.map((a) => values[a]!),
        new Float64Array(rest.length),
      );
      const { mean, variance } = state.foretold(i);
      expect(mean).toBeCloseTo(
        across.reduce((sum, x, k) => sum + x * white[k]!, 0),
        12,
      );
      expect(variance).toBeCloseTo(1 - across.reduce((sum, x) => sum + x * x, 0), 12);
      expect(value).toBe(values[i]);
    });
  });
});

// Normal-normal and four groups, worked by hand (derived): tau 0.7 and a flat mean, here one of sd 1000.
it('four groups with a known spread shrink as by hand', () => {
  const model: PooledModel = {
    units: (
      [
        [9.8, 0.3],
        [10.6, 0.6],
        [12, 0.9],
        [11.2, 0.4],
      ] as const
    ).map(([y, sd], i) => readingOf(`group ${i}`, y, sd)),
    kinds: [{ name: 'theta', block: 0, variances: () => [1e6, 0.49] }],
    spreads: [{ name: 'none', size: 1 }],
  };
  // In two pieces, the later of which goes on where the earlier ended.
  const ordered = orderModel(model);
  const chains = Array.from({ length: 4 }, (_, c) => {
    const first = pooledChain(ordered, { seed: 1, pilot: 100, draws: 2000 }, c);
    const next = pooledChain(ordered, { seed: 1, pilot: 0, draws: 3000 }, c, first.end);
    expect(next.units[0]![0]).not.toBe(first.units[0]![0]);
    return joinedDraws(first, next, 1000);
  });
  for (const { draws, units, effects } of chains) {
    expect([draws, units[0]!.length, effects[0]!.length]).toEqual([4000, 4000, 4000]);
  }
  const exact = [
    [9.94263031756, 0.284002780601],
    [10.6504733073, 0.4919045049],
    [11.201946352, 0.616317555424],
    [11.0816426234, 0.363660647708],
  ] as const;
  exact.forEach(([mean, sd], u) => {
    const theta = chains.map(({ units }) => units[u]!);
    expectMean(theta, mean, sd);
    expectSpread(theta, sd);
  });
  expectMean(
    chains.map(({ effects }) => effects[0]!),
    10.7191731576,
    0.438179413394,
  );
});

/**
 * Eight schools (D. B. Rubin (1981), Estimation in parallel randomized experiments, Journal of Educational Statistics
 * 6:377; data and priors as in posteriordb: mean N(0, 5), spread half-Cauchy(5)). Exact moments and quantiles by
 * quadrature over the spread, the rest in closed form: derived apart from this program, ten digits.
 */
describe('eight schools', () => {
  const y = [28, 8, -3, 7, -1, 1, 18, 12];
  const sd = [15, 10, 16, 11, 9, 11, 10, 18];
  const tauOf = (h: number): number => 5 * Math.tan(0.5 * Math.PI * normalCumulative(h));
  const model = (order: readonly number[]): PooledModel => ({
    units: order.map((i) => readingOf(`school ${i}`, y[i]!, sd[i]!)),
    kinds: [{ name: 'effect', block: 0, variances: ([h]) => [25, tauOf(h!) ** 2] }],
    spreads: [{ name: 'tau', size: 1 }],
    withEffectsHeld: [[0]],
  });
  const schools = [0, 1, 2, 3, 4, 5, 6, 7];
  const chains = chainsOf(model(schools), 4000);
  const tau = chains.map(({ spreads }) => spreads[0]!.map(tauOf));

  it('have their exact means', () => {
    const exact = [
      [6.211884204, 5.593126195],
      [4.94017842, 4.674268462],
      [3.927004403, 5.262615105],
      [4.757098291, 4.780297337],
      [3.615477015, 4.657452586],
      [4.042612636, 4.826865592],
      [6.296724128, 5.077848756],
      [4.85425332, 5.290801065],
    ] as const;
    expect(exact.length).toBe(8);
    exact.forEach(([mean, spread], u) => {
      expectMean(
        chains.map(({ units }) => units[u]!),
        mean,
        spread,
      );
    });
    expectMean(
      chains.map(({ effects }) => effects[0]!),
      4.396820714,
      3.317704463,
    );
    expectMean(tau, 3.597705484, 3.219958415);
  });

  it('have the exact quantiles of their spread, down into the neck', () => {
    // Densities there by quadrature: 0.2025, 0.1457 and 0.01669 a unit. The standard error of a quantile is
    // sqrt(q(1 − q)/draws)/density.
    const rows = [
      [0.05, 0.246391441, 0.2025],
      [0.5, 2.74873108, 0.1457],
      [0.95, 9.84194943, 0.01669],
    ] as const;
    const { at, bulk, tail } = summaryOf(tau);
    for (const [q, exact, density] of rows) {
      const error = Math.sqrt((q * (1 - q)) / Math.min(bulk, tail)) / density;
      expect(Math.abs(at(q) - exact)).toBeLessThan(4 * error);
    }
  });

  it('come to the same draws in any order', () => {
    const other = chainsOf(model([5, 2, 7, 0, 1, 6, 4, 3]), 50);
    expect(other).toEqual(chainsOf(model(schools), 50));
  });
});

/**
 * Growth of 30 rats (A. E. Gelfand, S. E. Hills, A. Racine-Poon, A. F. M. Smith (1990), Illustration of Bayesian inference in
 * normal data models using Gibbs sampling, JASA 85:972; priors as in posteriordb: flat spreads, means N(0, 100)). The
 * data enter by their sufficient statistics, so 30 lines that have the same are as good as the rats. Exact: three nested
 * integrals, derived apart from this program. The flat spreads are cut at 100, 10 and 30 here, far out of their reach.
 */
it('the rats have their exact means', () => {
  const [count, times, squareX] = [30, 5, 490];
  const spreadOf = (most: number) => (h: number) => most * normalCumulative(h);
  const [intercept, slope, error] = [spreadOf(100), spreadOf(10), spreadOf(30)];
  // Standard numbers with mean nought, and their squares together 1.
  const shape = (k: number): number => Math.sin((2 * Math.PI * k) / count) / Math.sqrt(count / 2);
  const other = (k: number): number => Math.cos((2 * Math.PI * k) / count) / Math.sqrt(count / 2);
  const model: PooledModel = {
    units: Array.from({ length: count }, (_, k): Unit => {
      const a = 242.6533333 + Math.sqrt(6101.594667) * shape(k);
      const b = 6.185714286 + Math.sqrt(9.700408163) * other(k);
      return {
        name: `rat ${String(k).padStart(2, '0')}`,
        coordinates: [
          { kind: 0, groups: ['all'] },
          { kind: 1, groups: ['all'] },
        ],
        likelihood: (point, _, spreads) => {
          const square = error(spreads[2]![0]!) ** 2;
          const rest = 3255.8 / count + times * (point[0]! - a) ** 2 + squareX * (point[1]! - b) ** 2;
          return -0.5 * (rest / square + times * Math.log(square));
        },
        // Wrong on purpose: intercept and slope do not hang together.
        steering: {
          precision: [
            [times / 37, 0.4],
            [0.4, squareX / 37],
          ],
          pull: [(times / 37) * a, (squareX / 37) * b],
        },
        start: (normal) => Float64Array.of(a + 5 * normal(), b + 0.5 * normal()),
      };
    }),
    kinds: [
      { name: 'intercept', block: 0, variances: ([h]) => [1e4, intercept(h!) ** 2] },
      { name: 'slope', block: 1, variances: ([h]) => [1e4, slope(h!) ** 2] },
    ],
    spreads: ['sd of intercepts', 'sd of slopes', 'error'].map((name) => ({ name, size: 1 })),
    withEffectsHeld: [[2], [0, 1]],
  };
  const chains = chainsOf(model, 2000);
  const spread = (block: number, of: (h: number) => number) =>
    chains.map(({ spreads }) => spreads[block]!.map(of));
  expectMean(spread(0, intercept), 14.9093, 2.1477);
  expectMean(spread(1, slope), 0.532427, 0.095243);
  expectMean(spread(2, error), 6.111907, 0.46625);
  expectMean(
    chains.map(({ effects }) => effects[1]!),
    6.185707,
    0.11094,
  );
  expectMean(
    chains.map(({ effects }) => effects[0]!.map((a, i) => a - 22 * effects[1]![i]!)),
    106.3783,
    3.7104,
  );
});

/**
 * A reading far from its group: by Bayes' rule from the two densities of the reading, all else known. Derived.
 */
it('a unit stands apart as often as Bayes says', () => {
  const [sd, chance] = [0.3, 0.05];
  const y = [0, 0.1, -0.1, 0.05, 1.2];
  const own = 0.1;
  const model: PooledModel = {
    units: y.map((value, i) => ({
      ...readingOf(`car ${i}`, value, i === 4 ? sd : 1e-3),
      ...(i === 4 ? { coordinates: [{ kind: 0, groups: ['all'], clique: 0 }], apart: [chance] } : {}),
    })),
    kinds: [{ name: 'growth', block: 0, variances: () => [1 - own, own] }],
    spreads: [{ name: 'none', size: 1 }],
  };
  const state = nestState(openNest(y.map(() => ['all'])));
  state.reset([1 - own, own]);
  for (let i = 0; i < 4; i++) state.set(i, y[i]);
  const { mean, variance } = state.foretold(4);
  const density = (middle: number, square: number): number =>
    Math.exp((-0.5 * (1.2 - middle) ** 2) / square) / Math.sqrt(square);
  const belongs = (1 - chance) * density(mean, variance + sd * sd);
  const apart = chance * density(0, 1 + sd * sd);
  const truth = apart / (apart + belongs);
  const found = chainsOf(model, 4000).map(({ apart: flags }) => Float64Array.from(flags[4]!));
  expect(truth).toBeGreaterThan(0.2);
  expect(truth).toBeLessThan(0.8);
  expectMean(found, truth, Math.sqrt(truth * (1 - truth)));
});

/**
 * Three readings of one group, tried by a guide and steered by a law that are both wrong. Derived: with common share 0.3, own 0.7
 * and error 0.25 the covariance of the readings is 0.95 I + 0.3 J, its inverse (I − 0.3 J/1.85)/0.95; the
 * variances along the common direction and across it are 1.6 · 0.25/1.85 and 0.7 · 0.25/0.95.
 */
it('what guides and steers does no more than that', () => {
  const y = [1.5, 0.2, -0.4];
  const model: PooledModel = {
    units: y.map(
      (value, i): Unit => ({
        ...readingOf(`unit ${i}`, value, 0.5),
        guide: (point) => -0.5 * ((point[0]! - value + 0.3) / 0.6) ** 2,
        steering: { precision: [[1.5]], pull: [1.5 * (value + 0.5)] },
      }),
    ),
    kinds: [{ name: 'one', block: 0, variances: () => [0.3, 0.7] }],
    spreads: [{ name: 'none', size: 1 }],
    withEffectsHeld: [[0]],
  };
  const chains = chainsOf(model, 6000);
  const sum = 1.3;
  const weights = y.map((value) => (value - (0.3 * sum) / 1.85) / 0.95);
  const common = 0.3 * weights.reduce((total, w) => total + w, 0);
  const sd = Math.sqrt((1.6 * 0.25) / 1.85 / 3 + (2 * 0.7 * 0.25) / 0.95 / 3);
  weights.forEach((weight, u) => {
    const found = chains.map(({ units }) => units[u]!);
    expectMean(found, 0.7 * weight + common, sd);
    expectSpread(found, sd);
  });
});
