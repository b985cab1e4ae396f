import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Margins, openSearch } from '../src/limits/grid-search.ts';

/** Searches to the end and says what it found, and at how many places it looked. */
function searched(
  first: number,
  last: number,
  at: number,
  marginsOf: (place: number) => Margins,
  rough = (place: number): number => marginsOf(place).upper,
) {
  const places = [first, at, last].sort((a, b) => a - b);
  const curve = places.map((place) => ({ at: place, margin: rough(place) }));
  const search = openSearch(first, last, curve, { at, margins: marginsOf(at) });
  let looks = 0;
  for (let wanted = search.wanted(); wanted.length > 0; wanted = search.wanted()) {
    for (const place of wanted) search.told(place, marginsOf(place));
    looks += wanted.length;
    if (looks > 10_000) throw new Error('it never ends');
  }
  return { ...search.found(), looks };
}

describe('the search for both ends of what is enough', () => {
  it('finds by hand: growth A ln(1 + (v/vc)²) under a gap of 1.2 in, some 4 % of it not known', () => {
    // A = 0.022 m, vc = 40 m/s: 0.03048 m is grown at v = 40 √(e^(0.03048/0.022) − 1) = 69.2 m/s, by hand 154.9 mph.
    const growth = (mph: number): number => 0.022 * Math.log(1 + ((mph * 0.44704) / 40) ** 2);
    const marginsOf = (mph: number): Margins => ({
      upper: growth(mph) - 0.03048,
      lower: 0.96 * growth(mph) - 0.03048,
    });
    const found = searched(50, 350, 100.5, marginsOf);
    expect(found.within).toBe(154);
    // 0.03175 m at v = 40 √(e^(0.03175/0.022) − 1) = 71.8 m/s, 160.6 mph: from 161 on, and not far from there.
    expect(found.beyond).toBeGreaterThanOrEqual(161);
    expect(found.beyond).toBeLessThanOrEqual(165);
    expect(found.looks).toBeLessThan(9);
  });

  it('of any margins that never fall finds the last within, and what surely is not, none of it by guess', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: 0, max: 0.01, noNaN: true }), { minLength: 2, maxLength: 60 }),
        fc.double({ min: 0, max: 0.3, noNaN: true }),
        fc.double({ min: 0, max: 0.1, noNaN: true }),
        fc.nat(),
        fc.double({ min: -1, max: 1, noNaN: true }),
        (rises, start, width, from, slant) => {
          let sum = -start;
          const uppers = rises.map((rise) => {
            sum += rise;
            return sum > 0.2 ? Number.POSITIVE_INFINITY : sum;
          });
          const last = uppers.length - 1;
          const place = (at: number): number => uppers[Math.max(0, Math.min(last, Math.floor(at)))]!;
          const marginsOf = (at: number): Margins => ({ upper: place(at), lower: place(at) - width });
          const { within, beyond } = searched(0, last, from % (last + 1), marginsOf, (at) => slant * at);
          const kept = uppers.findLastIndex((upper) => upper <= 0);
          expect(within).toBe(kept < 0 ? undefined : kept);
          const least = uppers.findIndex((upper) => upper - width > 0);
          expect(beyond === undefined).toBe(least < 0);
          if (beyond !== undefined) expect(beyond).toBeGreaterThanOrEqual(least);
        },
      ),
      { numRuns: 300 },
    );
  });

  it('of a growing tyre names what surely is not enough near to its first, in few looks', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.01, max: 0.04, noNaN: true }),
        fc.double({ min: 0.01, max: 0.05, noNaN: true }),
        fc.double({ min: 0.85, max: 0.99, noNaN: true }),
        (growth, gap, share) => {
          const at = (mph: number): number => growth * Math.log(1 + ((mph * 0.44704) / 40) ** 2);
          const marginsOf = (mph: number): Margins => ({
            upper: at(mph) - gap,
            lower: share * at(mph) - gap,
          });
          const { within = 49, beyond, looks } = searched(50, 350, 200, marginsOf);
          const least = Array.from({ length: 301 }, (_, k) => 50 + k).find((mph) => share * at(mph) > gap);
          expect(beyond === undefined).toBe(least === undefined);
          if (beyond === undefined) return;
          expect(beyond).toBeGreaterThanOrEqual(least!);
          expect(beyond - least!).toBeLessThanOrEqual(0.45 * (beyond - within) + 1);
          expect(looks).toBeLessThan(14);
        },
      ),
      { numRuns: 200 },
    );
  });
});
