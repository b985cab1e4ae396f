import type { PooledDraws } from '@tubgap/statistics';
import { type Agreement, agreementAmong } from '../learned.ts';
import type { BookBelief } from './sample-book.ts';

/** Every number that is shared by cars, as its chains: the shares, and what groups have in common. */
function* sharedNumbers({ model, chains }: BookBelief): Generator<Float64Array[]> {
  const columns = (of: (chain: PooledDraws) => Float64Array, size: number): Float64Array[][] =>
    Array.from({ length: size }, (_, i) =>
      chains.map((chain) =>
        Float64Array.from({ length: chain.draws }, (__, draw) => of(chain)[draw * size + i]!),
      ),
    );
  for (const [block, { size }] of model.spreads.entries())
    yield* columns(({ spreads }) => spreads[block]!, size);
  for (const [kind, { nodes }] of model.nests.entries()) {
    yield* columns(({ effects }) => effects[kind]!, nodes.length);
  }
}

/**
 * How well the chains agree on all that cars share and on the numbers that decide.
 * @param deciding  of each new car the risks at the height that is asked for, chain by chain, see `newHeights`
 */
export function bookAgreement(
  belief: BookBelief,
  deciding: readonly (readonly Float64Array[])[],
): Agreement & { settled: boolean } {
  if (belief.cars.length === 0) return { worstRHat: 1, leastEffectiveDraws: 0, settled: false };
  const found = agreementAmong([...sharedNumbers(belief), ...deciding]);
  return { ...found, settled: found.settled && belief.cars.every(({ prepared }) => prepared.enough) };
}
