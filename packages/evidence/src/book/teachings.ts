import { nodeOf } from '@tubgap/statistics';
import { tyreGroups } from './book-car.ts';
import { explained } from './explained.ts';
import { groupDraws } from './group-draws.ts';
import type { BookBelief } from './sample-book.ts';

/** What one more measurement would teach of a tyre model. */
export interface Teaching {
  model: string;
  /** Car of the book that it would be made on; left out: a car that is not in it. */
  car?: string;
  /** Input that it would show: 'growthScale'. */
  input: string;
  /** Share of the variance of what the model's tyres have in common that it would take away at best, 0 to 1. */
  share: number;
}

const GROWTH = 'tyre/growthScale';

/**
 * What it would teach of a model's common growth to know that of one of its tyres for sure, the most first: from how
 * the two hang together in the draws. A car that is not in the book differs from its model as the shares say.
 */
export function teachings(belief: BookBelief): Teaching[] {
  const kind = belief.kinds.findIndex(({ name }) => name === GROWTH);
  if (kind < 0) return [];
  const nest = belief.model.nests[kind]!;
  const input = GROWTH.slice('tyre/'.length);
  const draws = belief.chains.flatMap((chain) =>
    Array.from({ length: chain.draws }, (_, draw) => ({ chain, draw })),
  );
  const commonOf = (groups: readonly string[]): number[] => {
    const node = nodeOf(nest, groups);
    return draws.map(({ chain, draw }) => chain.effects[kind]![draw * nest.nodes.length + node]!);
  };
  const models = new Map<string, readonly string[]>();
  const ofCars = belief.cars.flatMap(({ car, places, space }, u) =>
    places.flatMap((place, i): Teaching[] => {
      if (place?.kind !== GROWTH) return [];
      const groups = tyreGroups(car, car.setup.tyres[place.tyre!]!.name).slice(0, 2);
      models.set(groups[1]!, groups);
      const own = draws.map(({ chain, draw }) => chain.units[u]![draw * space.dimension + i]!);
      return [{ model: groups[1]!, car: car.name, input, share: explained(commonOf(groups), [own], [0]) }];
    }),
  );
  const ofNew = [...models].map(([model, groups]): Teaching => {
    const common = commonOf(groups);
    const mean = common.reduce((sum, x) => sum + x, 0) / common.length;
    const variance = common.reduce((sum, x) => sum + (x - mean) ** 2, 0) / common.length;
    const { at } = groupDraws(belief, GROWTH, groups);
    const own = draws.reduce((sum, { chain, draw }) => sum + at(chain, draw).spread ** 2, 0) / draws.length;
    return { model, input, share: variance / (variance + own) };
  });
  return [...ofCars, ...ofNew].sort((a, b) => b.share - a.share || ((a.car ?? '') < (b.car ?? '') ? -1 : 1));
}
