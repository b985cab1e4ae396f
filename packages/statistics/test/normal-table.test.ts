import fc from 'fast-check';
import { expect, test } from 'vitest';
import { normalQuantile, normalTail } from '../src/index.ts';
import { normalOfWord, tabulatedQuantile, tabulatedTail } from '../src/normal-table.ts';

/** Words from one end to the other, dense by their ratio in both tails and by their step in the middle. */
function* words(): Generator<number> {
  for (let k = 0; k < 600; k++) yield k;
  for (let k = 600; k < 2 ** 31; k = Math.floor(k * 1.0001 + 1)) yield k;
  for (let k = 2 ** 30; k < 2 ** 32; k += 9_973) yield k;
  for (let k = 600; k >= 1; k--) yield 2 ** 32 - k;
}

test('the normal number of a word is the quantile of the middle of its step', () => {
  let worst = 0;
  for (const k of words()) {
    // From below ½, where the probability keeps its digits.
    const mirrored = k < 2 ** 31 ? k : 2 ** 32 - 1 - k;
    const size = -normalQuantile((mirrored + 0.5) / 2 ** 32);
    worst = Math.max(worst, Math.abs(normalOfWord(k) - (k < 2 ** 31 ? -size : size)));
  }
  expect(worst).toBeLessThan(1e-11);
  expect(normalOfWord(0)).toBe(normalQuantile(2 ** -33));
  expect(normalOfWord(-1)).toBe(-normalOfWord(0));
});

test('the normal number rises from word to word and is odd, across the ends of pieces and octaves too', () => {
  const ends = fc
    .tuple(fc.integer({ min: 0, max: 31 }), fc.integer({ min: 0, max: 31 }))
    .map(([octave, piece]) => Math.floor(2 ** octave * (1 + piece / 32)));
  const any = fc.integer({ min: 0, max: 2 ** 32 - 1 });
  const near = fc.tuple(ends, fc.integer({ min: -2, max: 2 })).map(([end, off]) => Math.max(0, end + off));
  fc.assert(
    fc.property(fc.oneof(any, near), (from) => {
      const k = Math.min(from, 2 ** 32 - 2);
      expect(normalOfWord(k + 1)).toBeGreaterThan(normalOfWord(k));
      expect(normalOfWord(~k)).toBe(-normalOfWord(k));
      expect(normalOfWord(k | 0)).toBe(normalOfWord(k));
    }),
    { numRuns: 20_000 },
  );
});

test('the tabulated quantile and tail are the exact ones within their bounds', () => {
  let worst = 0;
  for (let u = 1e-30; u < 0.5; u *= 1.0007) {
    worst = Math.max(worst, Math.abs(tabulatedQuantile(u) - normalQuantile(u)));
    if (u < 1e-15) continue;
    worst = Math.max(worst, Math.abs(tabulatedQuantile(1 - u) - normalQuantile(1 - u)));
  }
  expect(worst).toBeLessThan(1e-11);
  expect(tabulatedQuantile(0.5)).toBeCloseTo(0, 15);
  let relative = 0;
  let absolute = 0;
  for (let z = 0; z < 9; z += 0.000_37) {
    relative = Math.max(relative, Math.abs(tabulatedTail(z) / normalTail(z) - 1));
    absolute = Math.max(absolute, Math.abs(tabulatedTail(-z) - normalTail(-z)));
  }
  expect(relative).toBeLessThan(1e-9);
  expect(absolute).toBeLessThan(1e-12);
});
