/// <reference path="./seedrandom-alea.d.ts" />
import alea from 'seedrandom/lib/alea.js';

/** Values in one block of a stream; work is shared out by whole blocks. */
export const BLOCK = 1024;

/**
 * Uniform random numbers of the open interval (0, 1) from a stream with a name. Value j of block b depends on
 * seed, stream and b and j only: not on other streams, on the order of calls or on who asks. So an input that is
 * added later leaves the draws of the others as they were, and any number of workers gives the same result.
 * 53 random bits a value: the smallest possible is 5.6e-17, where 32 bits would end at 2.3e-10 (6.2 sd).
 * Generator: Alea of J. Baagøe, from the seedrandom library, keyed anew for each block.
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
  const next = alea(`${block} ${stream.length} ${stream} ${seed}`);
  for (let i = 0; i < count; i++) {
    const u = next.double();
    out[i] = u === 0 ? 2 ** -54 : u;
  }
}
