/// <reference path="./seedrandom-tychei.d.ts" />
import tychei from 'seedrandom/lib/tychei.js';
import { normalOfWord } from './normal-table.ts';

/** Values in one block of a stream; work is shared out by whole blocks. */
export const BLOCK = 1024;

const STEP = 2 ** -32;

/**
 * The random words of a block. Generator: Tyche-i in the form of the seedrandom library, keyed anew for each block. That
 * form takes another word in one of its four rotations than the published one (Neves and Araujo 2011), so nothing
 * published speaks for it: it was put through the diehard and STS tests of dieharder as it is used here, a new key every
 * 1,024 words. xor128 of the same library is no choice, fast as it is: it is linear and its key is joined by exclusive
 * or, so that the words of blocks 0 to 3 cancel out.
 */
function openBlock(
  seed: number | string,
  stream: string,
  block: number,
  out: Float64Array,
  count: number,
): () => number {
  if (typeof seed === 'number' && !Number.isFinite(seed)) {
    throw new RangeError(`seed: read ${seed}; a finite number or a text is needed.`);
  }
  if (!(Number.isSafeInteger(block) && block >= 0)) {
    throw new RangeError(`block: read ${block}; a whole number of at least 0 is needed.`);
  }
  if (!(count >= 0 && count <= BLOCK && count <= out.length)) {
    throw new RangeError(`count: read ${count}; from 0 to ${Math.min(BLOCK, out.length)} is possible here.`);
  }
  // The length of the name stands before it, so that no two addresses spell the same key.
  return tychei(`${stream.length} ${stream} ${block} ${seed}`).int32;
}

/**
 * Uniform random numbers of the open interval (0, 1) from a stream with a name. Value j of block b depends on
 * seed, stream and b and j only: not on other streams, on the order of calls or on who asks. So an input that is
 * added later leaves the draws of the others as they were, and any number of workers gives the same result.
 * 32 random bits a value, each in the middle of its step: from 1.2e-10 to 1 − 1.2e-10, symmetric about ½. A probability
 * that hangs on one number alone is off by half a step, 1.2e-10, at most, which a plain count cannot tell: at 1 in
 * 100,000,000 its standard error is that only after 7e11 draws. Draws about a centre begin there and reach further.
 * @param seed    0 is a seed; the number 7 and the text '7' are the same seed; NaN or infinite: RangeError
 * @param stream  name of the input, any text
 * @param block   whole number, 0 or more
 * @param out     receives the values
 * @param count   0 to BLOCK and not beyond `out`; fewer than BLOCK are the first ones of the whole block
 */
export function fillUniforms(
  seed: number | string,
  stream: string,
  block: number,
  out: Float64Array,
  count: number,
): void {
  const nextWord = openBlock(seed, stream, block, out, count);
  for (let i = 0; i < count; i++) out[i] = ((nextWord() >>> 0) + 0.5) * STEP;
}

/**
 * Standard normal random numbers from a stream with a name: the quantiles of the uniform numbers of `fillUniforms` at the
 * same address, from a table, within 1e-11, and so from −6.3 to 6.3. Parameters as there.
 */
export function fillStandardNormals(
  seed: number | string,
  stream: string,
  block: number,
  out: Float64Array,
  count: number,
): void {
  const nextWord = openBlock(seed, stream, block, out, count);
  for (let i = 0; i < count; i++) out[i] = normalOfWord(nextWord());
}
