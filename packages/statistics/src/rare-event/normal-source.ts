import { numberSource } from '../posterior/number-source.ts';

/** Writes the next `count` numbers of a sequence into `out`. */
export type Source = (out: Float64Array, count: number) => void;

/** An endless sequence of independent standard normal numbers from a seeded stream. */
export function normalSource(seed: number | string, stream: string): Source {
  const { normal } = numberSource(seed, stream);
  return (out, count) => {
    for (let i = 0; i < count; i++) out[i] = normal();
  };
}
