import { normalQuantileInside } from '../normal.ts';
import { BLOCK, fillUniforms } from '../stream.ts';

/** Writes the next `count` numbers of a sequence into `out`. */
export type Source = (out: Float64Array, count: number) => void;

/** An endless sequence of uniform numbers of (0, 1): the blocks of a seeded stream, one after the other. */
function uniformSource(seed: number | string, stream: string): Source {
  const block = new Float64Array(BLOCK);
  let next = 0;
  let used = BLOCK;
  return (out, count) => {
    for (let i = 0; i < count; i++) {
      if (used === BLOCK) {
        fillUniforms(seed, stream, next, block, BLOCK);
        next += 1;
        used = 0;
      }
      out[i] = block[used]!;
      used += 1;
    }
  };
}

/** An endless sequence of independent standard normal numbers from a seeded stream. */
export function normalSource(seed: number | string, stream: string): Source {
  const uniforms = uniformSource(seed, stream);
  return (out, count) => {
    uniforms(out, count);
    for (let i = 0; i < count; i++) out[i] = normalQuantileInside(out[i]!);
  };
}
