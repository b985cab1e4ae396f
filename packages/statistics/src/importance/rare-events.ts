import { BLOCK } from '../stream.ts';
import type { Bank, Mixture } from './bank.ts';
import { drawsPerCentre } from './mixture.ts';

/** The draws of a bank in which one output is largest, as many as make up a risk by their weights. */
export interface RareEvent {
  draws: Uint32Array;
  probability: number;
  /** Whether it is as rare as was asked for, or as rare as the output has any. */
  isReached: boolean;
}

/** Draws of equal weight that an event must hold to say where it lies. */
export const LEAST_EFFECTIVE = 50;

/** Places of an output's values from a floor up, largest first; equal ones in the order of their draws. */
function sortedFrom(floor: number, values: Float64Array, draws: number): Uint32Array {
  const found: number[] = [];
  for (let i = 0; i < draws; i++) if (values[i]! >= floor) found.push(i);
  return Uint32Array.from(found).sort((a, b) => (values[a] === values[b] ? a - b : values[b]! - values[a]!));
}

/**
 * An output's events at some risks. Where too few draws show one, the rarest that enough draws show stands for it.
 * @param risks  from common to rare
 * @param floor  of the values that are looked at
 */
export function rareEvents(bank: Bank, output: number, risks: readonly number[], floor: number): RareEvent[] {
  const values = bank.values[output]!;
  const order = sortedFrom(floor, values, bank.draws);
  const found: RareEvent[] = [];
  let weight = 0;
  let square = 0;
  let others = 0;
  let next = risks.length - 1;
  for (let k = 0; k < order.length && next >= 0; k++) {
    const value = values[order[k]!]!;
    if (k > 0 && values[order[k - 1]!]! > value) others = weight;
    const w = bank.weights[order[k]!]!;
    weight += w;
    square += w * w;
    // Draws of one value are one event.
    if (k + 1 < order.length && values[order[k + 1]!] === value) continue;
    const probability = weight / bank.draws;
    if (weight ** 2 < LEAST_EFFECTIVE * square || probability < risks[next]!) continue;
    const isReached = probability < 2 * risks[next]! || others < 0.5 * weight;
    while (next >= 0 && probability >= risks[next]!) next--;
    found.push({ draws: order.subarray(0, k + 1), probability, isReached });
  }
  return found;
}

/**
 * Variance of what one draw adds to an event's estimate, over the square of its probability, if draws came from a
 * mixture: the square of the coefficient of variation times the number of draws.
 */
export function relativeVariance(
  bank: Bank,
  { draws, probability }: RareEvent,
  { centres, sums }: Mixture,
): number {
  const { moved, plain } = drawsPerCentre(centres);
  let sum = 0;
  for (const i of draws) sum += bank.weights[i]! / (plain + moved * sums[i]!);
  return (sum * BLOCK) / bank.draws / probability ** 2 - 1;
}
