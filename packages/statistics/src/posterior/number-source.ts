import { tabulatedQuantile } from '../normal-table.ts';
import { BLOCK, fillUniforms } from '../stream.ts';

/** An endless row of random numbers from a named stream: what a chain needs, whose length nobody knows beforehand. */
export interface NumberSource {
  /** Of the open interval (0, 1). */
  uniform: () => number;
  /** Standard normal. */
  normal: () => number;
}

/** Opens a stream at its first number. The same seed and name give the same row. */
export function numberSource(seed: number | string, stream: string): NumberSource {
  const numbers = new Float64Array(BLOCK);
  let block = -1;
  let at = BLOCK;
  const uniform = (): number => {
    if (at === BLOCK) {
      block++;
      at = 0;
      fillUniforms(seed, stream, block, numbers, BLOCK);
    }
    return numbers[at++]!;
  };
  return { uniform, normal: () => tabulatedQuantile(uniform()) };
}
