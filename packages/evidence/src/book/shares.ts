import type { SpreadBlock } from '@tubgap/statistics';
import type { Family } from './book-car.ts';

/**
 * How much of a coordinate's variance cars have in common, as priors: logistic(middle + sd · a standard normal number).
 * All are engineering judgement and wide on purpose, for no source was found; the cars of the book say more. The shares
 * of one coordinate add up to 1, so that a car alone has the program's first prior whatever they are.
 */
const SHARE = {
  /** By which tyres of one model differ: made alike, on one mould, to one recipe. About 0.1, between 0.02 and 0.4. */
  withinModel: { middle: -2.2, sd: 0.87 },
  /** Of that, what a batch has in common: rubber and age. About half, between 0.12 and 0.88. */
  batch: { middle: 0, sd: 1 },
  /** Of the rest, what all models of a construction have in common: how wrong the prior itself is. About half. */
  construction: { middle: 0, sd: 1.2 },
  /** Of a shop's statements, a builder's set-out or a tool: about 0.2, between 0.02 and 0.7. */
  common: { middle: -1.386, sd: 1.2 },
} as const;

/**
 * Chance a priori that a car's tyre does not belong to its group: wrong tape, wrong case, another tyre. Judgement. It is a
 * new car's too: what the book says of its tyre then does not hold.
 */
export const APART = 0.05;

const share = ({ middle, sd }: { middle: number; sd: number }, number: number): number =>
  1 / (1 + Math.exp(-(middle + sd * number)));

/** A tyre's shares of the variance: construction, model, batch, own. @param numbers  three, standard normal a priori */
export function tyreShares(numbers: ArrayLike<number>): [number, number, number, number] {
  const within = share(SHARE.withinModel, numbers[0]!);
  const batch = share(SHARE.batch, numbers[1]!);
  const construction = share(SHARE.construction, numbers[2]!);
  return [
    (1 - within) * construction,
    (1 - within) * (1 - construction),
    within * batch,
    within * (1 - batch),
  ];
}

/** Shares of what a shop, a builder or a tool has in common, and of the car's own. @param numbers  one */
export function commonShares(numbers: ArrayLike<number>): [number, number] {
  const common = share(SHARE.common, numbers[0]!);
  return [common, 1 - common];
}

/** What a family's shares are made of: a tyre's are of each input its own. */
export const blockOf = (family: Family, kind: string): SpreadBlock =>
  family === 'tyre' ? { name: kind, size: 3 } : { name: family, size: 1 };

export const sharesOf = (family: Family): ((numbers: ArrayLike<number>) => number[]) =>
  family === 'tyre' ? tyreShares : commonShares;
