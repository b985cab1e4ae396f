import tychei from 'seedrandom/lib/tychei.js';
import { DIRECTION_NUMBERS } from './direction-numbers.ts';

/** Number of dimensions that direction numbers are at hand for. */
export const SOBOL_DIMENSIONS = DIRECTION_NUMBERS.length + 1;

/**
 * Writes coordinates of the points start … start + count − 1 of one dimension into `out`. Whole numbers,
 * start + count at most 2³², else RangeError.
 */
export type PointFill = (start: number, out: Float64Array, count: number) => void;

const BITS = 32;

/** The 32 direction numbers of a dimension, the first with its leading bit set. */
function directions(dimension: number): Uint32Array {
  if (!(Number.isInteger(dimension) && dimension >= 1 && dimension <= SOBOL_DIMENSIONS)) {
    throw new RangeError(
      `dimension: read ${dimension}; a whole number from 1 to ${SOBOL_DIMENSIONS} is needed.`,
    );
  }
  const v = new Uint32Array(BITS);
  if (dimension === 1) return v.map((_, k) => 2 ** (BITS - 1 - k));
  const [degree = 0, inner = 0, ...m] = DIRECTION_NUMBERS[dimension - 2]!.split(' ').map(Number);
  for (let k = 0; k < BITS; k++) {
    if (k < degree) {
      v[k] = m[k]! * 2 ** (BITS - 1 - k);
      continue;
    }
    let next = v[k - degree]! ^ (v[k - degree]! >>> degree);
    for (let j = 1; j < degree; j++) {
      if ((inner >>> (degree - 1 - j)) & 1) next ^= v[k - j]!;
    }
    v[k] = next;
  }
  return v;
}

function checkRange(start: number, out: Float64Array, count: number): void {
  if (!(Number.isSafeInteger(start) && start >= 0 && count >= 0 && start + count <= 2 ** BITS)) {
    throw new RangeError(
      `start, count: read ${start}, ${count}; whole numbers up to 2^32 together are needed.`,
    );
  }
  if (count > out.length) throw new RangeError(`count: read ${count}; the array holds ${out.length}.`);
}

/** The point before `start` steps of the Gray code have been taken, as a 32-bit fraction. */
function pointAt(v: Uint32Array, index: number): number {
  let x = 0;
  const gray = (index ^ (index >>> 1)) >>> 0;
  for (let k = 0; k < BITS; k++) if ((gray >>> k) & 1) x ^= v[k]!;
  return x;
}

/** Number of trailing ones of i: the Gray code's next bit. */
const nextBit = (i: number): number => 31 - Math.clz32(~i & (i + 1));

/**
 * Bare Sobol' points of one dimension, in [0, 1), Gray-code order, point 0 (the origin) included: 2^m points from
 * 0 on hold their balance only together, so none is left out. For integration take the scrambled points.
 * Source: I. M. Sobol' (1967); Gray-code order after I. A. Antonov and V. M. Saleev (1979).
 * @param dimension  1 to SOBOL_DIMENSIONS; else RangeError
 */
export function sobolPoints(dimension: number): PointFill {
  const v = directions(dimension);
  return (start, out, count) => {
    checkRange(start, out, count);
    let x = pointAt(v, start);
    for (let i = 0; i < count; i++) {
      out[i] = (x >>> 0) / 2 ** BITS;
      x ^= v[nextBit(start + i)] ?? 0;
    }
  };
}

function reverseBits(value: number): number {
  let x = value;
  x = ((x >>> 1) & 0x55555555) | ((x & 0x55555555) << 1);
  x = ((x >>> 2) & 0x33333333) | ((x & 0x33333333) << 2);
  x = ((x >>> 4) & 0x0f0f0f0f) | ((x & 0x0f0f0f0f) << 4);
  x = ((x >>> 8) & 0x00ff00ff) | ((x & 0x00ff00ff) << 8);
  return (x >>> 16) | (x << 16);
}

/**
 * Permutes 32-bit fractions so that each bit is flipped or not depending on the bits before it: in the reversed
 * number, sums and products carry from low bits to high ones only.
 */
function nestedScramble(x: number, key: number): number {
  let y = reverseBits(x);
  y ^= Math.imul(y, 0x3d20adea);
  y = (y + key) | 0;
  y = Math.imul(y, (key >>> 16) | 1);
  y ^= Math.imul(y, 0x05526c56);
  y ^= Math.imul(y, 0x53a22864);
  return reverseBits(y);
}

/** A well mixed 32-bit number (finalizer of the 32-bit MurmurHash3, in the public domain). */
function mix(value: number): number {
  let x = value;
  x = Math.imul(x ^ (x >>> 16), 0x85ebca6b);
  x = Math.imul(x ^ (x >>> 13), 0xc2b2ae35);
  return x ^ (x >>> 16);
}

/** How the points are made random: `nested` (Owen) or a digital `shift`. */
export type Scramble = 'nested' | 'shift';

/**
 * Sobol' points made random, in the open interval (0, 1): each point alone is uniform, so a mean over them is
 * unbiased and repeats under other seeds give its error, while 2^m of them keep the balance of the bare points.
 * `nested` scrambling after A. B. Owen (1995), by the hash of B. Burley (2020, J. Comp. Graph. Tech. 9(4):1) with
 * the constants of N. Vegdahl (2021); smooth integrands gain a further √n over the plain sequence. `shift` flips
 * the same bits in every point (digital shift), without that gain. 20 bits below the 32 of the sequence are
 * filled at random, so that a point can lie anywhere in its cell.
 * @param dimension  1 to SOBOL_DIMENSIONS; give every input one of its own
 * @param seed       0 is a seed
 * @param stream     name of the input; with the seed it picks the scramble
 */
export function scrambledSobolPoints(
  dimension: number,
  seed: number | string,
  stream: string,
  scramble: Scramble = 'nested',
): PointFill {
  const v = directions(dimension);
  const next = tychei(`sobol ${stream.length} ${stream} ${seed}`);
  const key = next.int32();
  const low = next.int32();
  return (start, out, count) => {
    checkRange(start, out, count);
    let x = pointAt(v, start);
    for (let i = 0; i < count; i++) {
      const high = (scramble === 'nested' ? nestedScramble(x, key) : x ^ key) >>> 0;
      const rest = mix((start + i) ^ low) >>> 12;
      out[i] = (high * 2 ** 20 + rest + 0.5) / 2 ** 52;
      x ^= v[nextBit(start + i)] ?? 0;
    }
  };
}
