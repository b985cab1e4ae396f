import { normalDensity, normalQuantileInside, normalTail } from './normal.ts';
import { PIECE, pieceAt, quinticTable } from './quintic.ts';

/**
 * The standard normal law as tables, for the loops that draw: what statistics are made of stays with the exact
 * functions of normal.ts. Errors are bounds that a test holds.
 */

const WORDS = 2 ** 32;

/** Pieces of each octave of the tail's probability: in an octave all quantiles look alike, however far out. */
const PIECES = 32;
/** Octaves, in words of 2^-32: below the first, 1.2e-7 of all draws, the exact quantile; the last ends at ½. */
const FIRST_OCTAVE = 8;
const OCTAVES = 31 - FIRST_OCTAVE;

/** Pieces for one of a width of 1, octave by octave: turns a tail in words into its place in the octave. */
const scales = Float64Array.from({ length: 32 }, (_, octave) => PIECES * 2 ** -octave);

/** Size of the quantile by the nearer tail; one piece of nothing more, for the tail ½ itself. */
const sizes = new Float64Array((OCTAVES * PIECES + 1) * PIECE);
for (let octave = 0; octave < OCTAVES; octave++) {
  const start = 2 ** (octave + FIRST_OCTAVE) / WORDS;
  const width = start / PIECES;
  const knots = quinticTable(PIECES, (i) => {
    const tail = start + i * width;
    const value = -normalQuantileInside(tail);
    // From Q(z) = tail: z' = −1/φ(z), z'' = z/φ(z)².
    const slope = -width / normalDensity(value);
    return { value, slope, curvature: value * slope * slope };
  });
  sizes.set(knots, octave * PIECES * PIECE);
}

/** Size of the quantile whose nearer tail is `words` · 2^-32, above 0, up to 2^31. */
function sizeOf(words: number): number {
  const octave = 31 - Math.clz32(words);
  if (octave < FIRST_OCTAVE) return -normalQuantileInside(words / WORDS);
  const position = words * scales[octave]!;
  const i = position | 0;
  return pieceAt(sizes, (octave - FIRST_OCTAVE - 1) * PIECES + i, position - i);
}

/**
 * The standard normal number of a random word: the quantile of (word + ½)/2³², word taken without sign. Error below
 * 1e-11; rises with the word; odd, the word ~k gives the negative of k. From −6.3 to 6.3.
 * @param word  whole, 32 bits, with or without sign
 */
export function normalOfWord(word: number): number {
  // All bits of `upper` are set in the upper half, none in the lower: a branch would be guessed wrong every other time.
  const upper = word >> 31;
  return sizeOf((word ^ upper) + 0.5) * (-1 - 2 * upper);
}

/** `normalQuantile` from the table, u inside (0, 1) and not checked. Error below 1e-11. */
export function tabulatedQuantile(u: number): number {
  return u < 0.5 ? -sizeOf(u * WORDS) : sizeOf((1 - u) * WORDS);
}

const STEPS = 32;
const TAIL_END = 5;
const tails = quinticTable(TAIL_END * STEPS, (i) => {
  const z = i / STEPS;
  const slope = -normalDensity(z) / STEPS;
  return { value: normalTail(z), slope, curvature: (-slope * z) / STEPS };
});

/** `normalTail` from the table. Relative error below 1e-9 for z above 0, absolute below 1e-12; any z but NaN. */
export function tabulatedTail(z: number): number {
  const size = Math.abs(z);
  if (!(size < TAIL_END)) return normalTail(z);
  const position = size * STEPS;
  const i = position | 0;
  const tail = pieceAt(tails, i, position - i);
  return z < 0 ? 1 - tail : tail;
}
