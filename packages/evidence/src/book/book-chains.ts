import { joinedDraws, type PooledDraws } from '@tubgap/statistics';
import { bookAgreement } from './book-agreement.ts';
import type { BookCar } from './book-car.ts';
import type { BookTask, Perform } from './learn-book.ts';
import type { PreparedCar } from './prepare-car.ts';
import {
  BOOK_CHAINS,
  BOOK_LOOKS,
  type BookBelief,
  type BookEffort,
  gatherBook,
  PILOT_SHARE,
} from './sample-book.ts';
import { type ShopPriors, shopPriors } from './shop-priors.ts';

/** Cars whose chains are worked out piece by piece. */
interface Sampled {
  /** With readings, by name. */
  cars: readonly BookCar[];
  /** Of each in that order. */
  prepared: readonly PreparedCar[];
  seed: number;
}

/** How a book's chains are worked out, piece by piece. */
export interface BookPieces {
  /** Works out a piece of all chains for each of some efforts. @param from  what they go on from */
  sampled: (
    efforts: readonly Omit<BookEffort, 'seed'>[],
    from?: readonly PooledDraws[],
  ) => Promise<PooledDraws[][]>;
  gathered: (chains: readonly PooledDraws[]) => BookBelief;
}

/** @param perform  whoever works them out */
export function chainsOf(perform: Perform, { cars, prepared, seed }: Sampled): BookPieces {
  return {
    sampled: async (efforts, from = []) => {
      const tasks = efforts.flatMap((effort) =>
        Array.from({ length: BOOK_CHAINS }, (_, chain): BookTask => {
          const before = from[chain]?.end;
          const own = { kind: 'chain', chain, effort: { seed, ...effort }, prepared } as const;
          return before === undefined ? own : { ...own, from: before };
        }),
      );
      const results = await perform(tasks);
      const chains = results.flatMap((result) => ('chain' in result ? [result.chain] : []));
      return efforts.map((_, e) => chains.slice(e * BOOK_CHAINS, (e + 1) * BOOK_CHAINS));
    },
    gathered: (chains) => gatherBook(cars, prepared, seed, chains),
  };
}

/** Takes chains further until they agree, on what cars share first and then on the heights that decide. */
export async function agreed(
  { sampled, gathered }: BookPieces,
  mayHelp: boolean,
): Promise<{ belief: BookBelief; priors: ShopPriors }> {
  let before: readonly PooledDraws[] = [];
  let [sofar, dropped] = [0, 0];
  for (const [look, sweeps] of BOOK_LOOKS.entries()) {
    const without = PILOT_SHARE * sweeps;
    const pilot = look === 0 ? without : 0;
    const [more] = await sampled([{ pilot, draws: sweeps - sofar - pilot }], before);
    const chains =
      look === 0 ? more! : more!.map((chain, c) => joinedDraws(before[c]!, chain, without - dropped));
    const belief = gathered(chains);
    const isLast = look === BOOK_LOOKS.length - 1 || !mayHelp;
    // What cars share costs next to nothing to judge, the heights that decide much.
    if (isLast || bookAgreement(belief, []).settled) {
      const priors = shopPriors(belief);
      if (isLast || priors.settled) return { belief, priors };
    }
    before = chains;
    sofar = sweeps;
    dropped = without;
  }
  throw new RangeError('chains without a look.');
}
