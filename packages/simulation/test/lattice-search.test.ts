import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type LatticePlace, openLatticeSearch } from '../src/optimum/lattice-search.ts';

/** Searches to the end: the place found, and how many were looked at. */
function searched(sizes: readonly number[], valueAt: (place: LatticePlace) => number) {
  const search = openLatticeSearch<number>(sizes, { compare: (a, b) => a - b, size: (value) => value });
  const looked = new Set<string>();
  for (let wanted = search.wanted(); wanted.length > 0; wanted = search.wanted()) {
    for (const place of wanted) {
      expect(looked.has(place.join()), `${place} twice`).toBe(false);
      looked.add(place.join());
      search.told(place, valueAt(place));
    }
    if (looked.size > 2000) throw new Error('it never ends');
  }
  return { ...search.best(), looks: looked.size };
}

const bowl =
  (bottom: LatticePlace, lean = 0) =>
  (place: LatticePlace): number => {
    const [x, y = 0] = place.map((one, axis) => one - bottom[axis]!);
    return x! ** 2 + 2 * y ** 2 + lean * x! * y;
  };

describe('the search for the least value on a lattice', () => {
  it('finds by hand the bottom of a bowl, upright and leaning, in few looks', () => {
    expect(searched([41], bowl([27]))).toMatchObject({ place: [27], value: 0 });
    for (const [lean, most] of [
      [0, 60],
      [2, 130],
      [-2.4, 130],
    ] as const) {
      const found = searched([41, 33], bowl([27, 6], lean));
      expect(found).toMatchObject({ place: [27, 6], value: 0 });
      expect(found.looks).toBeLessThan(most);
    }
  });

  it('ends at the end that holds it, and where one axis has a single value', () => {
    expect(searched([31, 1], ([x]) => -x!)).toMatchObject({ place: [30, 0], value: -30 });
    expect(searched([1], () => 5)).toMatchObject({ place: [0], looks: 1 });
  });

  it('goes down into the second valley where that is the deeper one', () => {
    const two = ([x]: LatticePlace): number => Math.min((x! - 8) ** 2, (x! - 31) ** 2 / 4 - 3);
    expect(searched([41], two)).toMatchObject({ place: [31], value: -3 });
    const apart = (place: LatticePlace): number => Math.min(bowl([5, 5])(place), bowl([34, 30])(place) - 2);
    expect(searched([41, 41], apart)).toMatchObject({ place: [34, 30], value: -2 });
  });

  it('follows a crease between two slopes down to its lowest place', () => {
    const crease = ([x, y]: LatticePlace): number => Math.max(x! - 2 * y!, 2 * y! - x!) * 3 - x!;
    const found = searched([41, 41], crease);
    const least = Math.min(
      ...Array.from({ length: 41 * 41 }, (_, k) => crease([k % 41, Math.floor(k / 41)])),
    );
    expect(found.value).toBeLessThanOrEqual(least + 1);
  });

  it('of any bowl is the least of all places, and a wider lattice never has a greater least', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 2, max: 40 }),
        fc.integer({ min: 2, max: 40 }),
        fc.integer({ min: 0, max: 15 }),
        fc.double({ min: -10, max: 50, noNaN: true }),
        fc.double({ min: -10, max: 50, noNaN: true }),
        (columns, rows, more, x, y) => {
          const valueAt = bowl([x, y], 1);
          const all = (n: number, m: number): number =>
            Math.min(...Array.from({ length: n * m }, (_, k) => valueAt([k % n, Math.floor(k / n)])));
          const narrow = searched([columns, rows], valueAt).value;
          expect(narrow).toBeCloseTo(all(columns, rows), 9);
          expect(searched([columns + more, rows], valueAt).value).toBeLessThanOrEqual(narrow + 1e-9);
        },
      ),
    );
  });
});
