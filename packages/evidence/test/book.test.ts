import { sampleQuantile } from '@tubgap/statistics';
import { describe, expect, it } from 'vitest';
import { explained } from '../src/book/explained.ts';
import { commonShares, tyreShares } from '../src/book/shares.ts';
import {
  apartChances,
  type BookBelief,
  type BookTask,
  believe,
  brierScore,
  carBelief,
  doubtfulCars,
  forecasts,
  foretoldWithout,
  heightTeachings,
  leaveOneOut,
  modelTrust,
  performBookTask,
  reliabilityBins,
  sampleBook,
  shopPriors,
  teachings,
} from '../src/index.ts';
import { CHEAP, GROWTH, inventedShop, TYRE } from './invented-shop.ts';

const SHORT = { seed: 3, pilot: 20, draws: 40 };

/** What is believed of a car's growth scale, in the first prior's standard deviations, rising. */
function growthOf(belief: BookBelief, car: string): Float64Array {
  const { space, points } = carBelief(belief, car);
  const d = space.directions.findIndex(({ stream }) => stream === `tyre/${TYRE}/${GROWTH}`);
  return Float64Array.from(points, (point) => point[d]!).sort();
}

describe('a book', () => {
  const { cars } = inventedShop(1, 3, { models: ['slick-a', 'slick-b'] });
  const belief = sampleBook(cars, SHORT);
  const priors = shopPriors(belief);

  it('comes to the same bytes in any order of cars', () => {
    const other = sampleBook([cars[2]!, cars[0]!, cars[1]!], SHORT);
    expect(other.chains).toEqual(belief.chains);
    expect(shopPriors(other)).toEqual(priors);
  });

  it('and with cars that nothing was measured of', () => {
    const more = [{ ...cars[0]!, name: 'a car yet unmeasured', parts: [] }, ...cars];
    const other = sampleBook(more, SHORT);
    expect(other.chains).toEqual(belief.chains);
    expect(other.cars.map(({ car }) => car.name)).toEqual(belief.cars.map(({ car }) => car.name));
  });

  it('comes to the same bytes in threads, which are handed plain numbers', () => {
    // Done backwards and handed over as between threads.
    const perform = (task: BookTask) => structuredClone(performBookTask(cars, structuredClone(task)));
    const prepared = [...cars].reverse().flatMap(({ name }) => {
      const done = perform({ kind: 'prepare', car: name, seed: SHORT.seed });
      return 'prepared' in done ? [done.prepared] : [];
    });
    const chains = [3, 1, 0, 2].map((chain) => ({
      chain,
      done: perform({ kind: 'chain', chain, effort: SHORT, prepared }),
    }));
    chains.sort((a, b) => a.chain - b.chain);
    expect(chains.map(({ done }) => ('chain' in done ? done.chain : undefined))).toEqual(belief.chains);
  });
});

it('shares of a variance are above 0 and add up to 1, so that a car alone has its first prior', () => {
  for (const numbers of [
    [0, 0, 0],
    [-3, 2, 1],
    [2.5, -3, 3],
    [0.3, 3, -3],
  ]) {
    for (const shares of [tyreShares(numbers), commonShares(numbers)]) {
      for (const share of shares) expect(share).toBeGreaterThan(0);
      expect(shares.reduce((sum, share) => sum + share, 0)).toBeCloseTo(1, 14);
    }
  }
});

it('a car alone is believed as it is without a book', () => {
  const [car] = inventedShop(2, 1).cars;
  const seed = 5;
  const alone = believe(car!.setup, car!.parts, { seed, pilot: 100, draws: 500 });
  const booked = carBelief(sampleBook([car!], { seed, pilot: 100, draws: 500 }), car!.name);
  let held = 0;
  alone.space.directions.forEach(({ stream }, d) => {
    const other = booked.space.directions.findIndex((direction) => direction.stream === stream);
    const [a, b] = [
      Float64Array.from(alone.points, (point) => point[d]!).sort(),
      Float64Array.from(booked.points, (point) => point[other]!).sort(),
    ];
    const spread = sampleQuantile(a, 0.84) - sampleQuantile(a, 0.16);
    for (const q of [0.05, 0.5, 0.95]) {
      // 2,000 draws each, worth 500 and more: the 5 % quantile of a normal law then has a standard error of 0.1 sd,
      // so that of the difference of two is 0.07 of what is the spread here.
      expect(Math.abs(sampleQuantile(a, q) - sampleQuantile(b, q))).toBeLessThan(0.3 * spread);
      held++;
    }
  });
  expect(held).toBeGreaterThan(45);
});

describe('eight cars, the last of which grows 1.8 times as much', () => {
  const shop = inventedShop(9, 8, { allBelong: true, wrongCar: 1.8 });
  const { cars } = shop;
  const belief = sampleBook(cars, { seed: 1, pilot: 60, draws: 150 });
  const right = sampleBook(cars.slice(0, 7), { seed: 1, pilot: 60, draws: 150 });

  it('have one that stands apart', () => {
    const chances = cars.map(({ name }) => apartChances(belief, name)[0]!.chance);
    expect(chances[7]).toBeGreaterThan(0.8);
    for (const chance of chances.slice(0, 7)) expect(chance).toBeLessThan(0.2);
  });

  it('foretell each other well, and that one badly', () => {
    const gains = leaveOneOut(belief);
    expect(gains.length).toBe(8);
    expect(gains[7]!.gain).toBeLessThan(-1);
    expect(gains.slice(0, 7).reduce((sum, { gain }) => sum + gain, 0)).toBeGreaterThan(0);
    expect(modelTrust(gains)).toMatchObject([{ model: 'slick-a', cars: 8 }]);
  });

  it('are foretold by weights as by a run that has not seen the car', () => {
    const gains = leaveOneOut(belief);
    for (const n of [1, 7]) {
      const { name } = cars[n]!;
      const others = sampleBook(cars, { seed: 1, pilot: 60, draws: 150, without: name });
      const [told, ...rest] = foretoldWithout(others, name);
      expect(rest).toEqual([]);
      expect(told).toMatchObject({ car: name, tyre: TYRE, model: 'slick-a' });
      // Draws that saw the car, taken as if they had not, are off by 0.3 to 0.8.
      expect(Math.abs(told!.gain - gains[n]!.gain)).toBeLessThan(0.25);
    }
    const few = { ...gains[2]!, effectiveDraws: 5 };
    expect(doubtfulCars([...gains.slice(3), few, few])).toEqual([cars[2]!.name]);
  });

  it('believe of the others what they would without it', () => {
    for (const { name } of cars.slice(0, 7)) {
      const [a, b] = [growthOf(belief, name), growthOf(right, name)];
      const spread = sampleQuantile(b, 0.84) - sampleQuantile(b, 0.16);
      expect(Math.abs(sampleQuantile(a, 0.5) - sampleQuantile(b, 0.5))).toBeLessThan(0.35 * spread);
    }
  });

  it('say of the next car what they know, and no more', () => {
    const { models, constructions } = shopPriors(right);
    const ownOf = (rows: typeof models, which: string) =>
      rows
        .find(({ model, construction }) => (model ?? construction) === which)!
        .inputs.find(({ input }) => input === GROWTH)!;
    const slick = ownOf(models, 'slick-a');
    const truth = shop.commonOf(`tyre/${GROWTH}`, ['bias', 'slick-a']);
    expect(slick.spreadAbove).toBeLessThan(0.7);
    expect(Math.abs(slick.middle - truth)).toBeLessThan(2 * slick.spreadAbove);
    // A model never seen differs by more than one that was.
    const other = constructions.find(({ construction }) => construction === 'bias')!;
    const wide = other.inputs.find(({ input }) => input === GROWTH)?.spreadAbove ?? 1;
    expect(wide).toBeGreaterThan(1.2 * slick.spreadAbove);
  });

  it('would learn of the next car’s height from those that belong to it', () => {
    const rows = heightTeachings(belief);
    rows.forEach(({ share, before, after }, i) => {
      expect(share).toBeLessThanOrEqual(rows[Math.max(0, i - 1)]!.share);
      expect(share).toBeLessThan(1);
      expect(after / before).toBeCloseTo(Math.sqrt(1 - share), 12);
    });
    // Tyres tell of tyres, and by how they grow: a scale under a car tells nothing of the next, nor does a car that
    // stands apart. After seven cars there is little left that one more would tell.
    expect(rows.length).toBeGreaterThan(3);
    for (const { measure, share } of rows) {
      expect(measure).toMatch(/^another run log/);
      expect(share).toBeLessThan(0.05);
    }
    expect(rows.map(({ car }) => car)).not.toContain(cars[7]!.name);
    // After two there is more.
    const few = heightTeachings(sampleBook(cars.slice(0, 2), { seed: 1, pilot: 60, draws: 150 }));
    expect(few[0]!.share).toBeGreaterThan(2 * rows[0]!.share);
  });

  it('would learn most of their model from a car that is new, or little known', () => {
    const rows = teachings(belief);
    expect(rows.length).toBe(9);
    for (const { share } of rows) {
      expect(share).toBeGreaterThanOrEqual(0);
      expect(share).toBeLessThanOrEqual(1);
    }
    // The one that stands apart has nothing to say of the others.
    const own = rows.find(({ car }) => car === cars[7]!.name)!;
    expect(own.share).toBeLessThan(0.1);
  });
});

// Worked by hand: of y = a + 2b with a, b of variance 1 and no covariance, a for sure tells 1/5, b 4/5, both all of it; b
// misread by as much as it varies tells half of its part.
it('a straight line through readings explains what it explains by hand', () => {
  const n = 4000;
  const pick = (values: readonly number[], every: number): number[] =>
    Array.from({ length: n }, (_, i) => values[Math.floor(i / every) % values.length]!);
  const [a, b] = [pick([-1, 1], 1), pick([-1, 1], 2)];
  const y = a.map((x, i) => x + 2 * b[i]!);
  expect(explained(y, [a], [0])).toBeCloseTo(0.2, 3);
  expect(explained(y, [b], [1])).toBeCloseTo(0.4, 3);
  expect(explained(y, [a, b], [0, 0])).toBeCloseTo(1, 6);
  expect(explained(y, [b, b], [0, 0])).toBeCloseTo(0.8, 3);
  expect(explained(a, [b], [0])).toBe(0);
  expect(explained(y, [y.map(() => 3)], [0])).toBe(0);
});

it('events are foretold by the other cars, not by what came', () => {
  const { cars } = inventedShop(4, 3, { allBelong: true });
  const chances = () => [0.02];
  const withEvents = cars.map((car) => ({
    ...car,
    parts: car.parts.map((part, i) =>
      i === 0 ? { ...part, names: ['runs of a day'], events: { happened: [false], chances } } : part,
    ),
  }));
  const rows = forecasts(sampleBook(withEvents, SHORT));
  expect(rows.map(({ car }) => car)).toEqual(cars.map(({ name }) => name));
  for (const { chance } of rows) expect(chance).toBeCloseTo(0.02, 12);
  expect(CHEAP.length).toBeGreaterThan(1);
});

describe('forecasts against what came', () => {
  const groups = [
    [0.1, 40, 3],
    [0.3, 20, 7],
    [0.6, 25, 14],
    [0.9, 15, 14],
  ] as const;
  const bins = groups.map(([chance, count, events]) =>
    Array.from({ length: count }, (_, i) => ({ chance, happened: i < events })),
  );

  // Murphy's partition worked as fractions by hand: 79/60000 − 1097/12000 + 589/2500 = 291/2000. Derived, exact.
  it('fall apart into reliability, resolution and uncertainty', () => {
    const { score, reliability, resolution, uncertainty, within } = brierScore(bins);
    expect(reliability).toBeCloseTo(79 / 60000, 14);
    expect(resolution).toBeCloseTo(1097 / 12000, 14);
    expect(uncertainty).toBeCloseTo(589 / 2500, 14);
    expect(score).toBeCloseTo(291 / 2000, 14);
    expect(within).toBeCloseTo(0, 14);
    expect(1 - score / uncertainty).toBeCloseTo(0.382427843803, 12);
  });

  it('stand in bins even in the logarithm, with an interval where nothing came too', () => {
    const rare = [0, 0.00005, 0.012, 0.014, 0.02, 1].map((chance) => ({
      car: 'a',
      reading: 'r',
      chance,
      happened: chance === 1,
    }));
    const found = reliabilityBins(rare);
    expect(found.map(({ forecasts: count }) => count)).toEqual([2, 3, 1]);
    expect(found[1]).toMatchObject({ happened: 0 });
    expect(found[1]!.from).toBeCloseTo(0.01, 12);
    // No event of 3, two-sided 95 %: 1 − 0.025^(1/3). Derived.
    expect(found[1]!.interval.high).toBeCloseTo(1 - 0.025 ** (1 / 3), 10);
    expect(found[2]).toMatchObject({ happened: 1, forecasts: 1 });
  });
});
