import { kolmogorovTail } from './kolmogorov.ts';

/** How much an input has to do with failure. */
export interface TailInfluence {
  /** Kolmogorov distance, 0 to 1, between the input's law among failing draws and its law in general. */
  readonly distance: number;
  /** Probability of a distance of that size or more if the input had nothing to do with failure. */
  readonly chance: number;
  /** Mean probability of the input among failing draws: above ½ it fails by being high, below by being low. */
  readonly meanProbability: number;
}

/**
 * Compares an input among failing draws with the input in general, given each draw's probability u = F(x) under the
 * input's own law: without influence these are uniform on (0, 1). A regional measure: it speaks of failure, where a
 * variance index speaks of the whole range. Source: R. C. Spear and G. M. Hornberger (1980), Water Research 14:43,
 * with the input's known law in place of the other sample.
 * @param probabilities  of the failing draws, 0 to 1, at least one; else RangeError
 * @param weights        of the draws, above 0, when they come from importance sampling; default: equal. Their
 *   effective number (Σw)²/Σw² takes the place of the number of draws in `chance`, which below some 100 is rough.
 */
export function tailInfluence(probabilities: Float64Array, weights?: Float64Array): TailInfluence {
  const n = probabilities.length;
  if (n === 0) throw new RangeError('probabilities: read no value; at least one failing draw is needed.');
  if (weights !== undefined && weights.length !== n) {
    throw new RangeError(`weights: read ${weights.length}; one for each of the ${n} draws is needed.`);
  }
  const order = Uint32Array.from(probabilities.keys()).sort((i, j) => probabilities[i]! - probabilities[j]!);
  let total = 0;
  let squares = 0;
  let moment = 0;
  for (let i = 0; i < n; i++) {
    const u = probabilities[i]!;
    const weight = weights?.[i] ?? 1;
    if (!(u >= 0 && u <= 1 && weight > 0)) {
      throw new RangeError(
        `draw ${i}: read probability ${u}, weight ${weight}; 0 to 1 and above 0 are needed.`,
      );
    }
    total += weight;
    squares += weight * weight;
    moment += weight * u;
  }
  let below = 0;
  let distance = 0;
  for (const i of order) {
    const u = probabilities[i]!;
    distance = Math.max(distance, u - below / total);
    below += weights?.[i] ?? 1;
    distance = Math.max(distance, below / total - u);
  }
  const effective = (total * total) / squares;
  return {
    distance,
    chance: kolmogorovTail(distance * Math.sqrt(effective)),
    meanProbability: moment / total,
  };
}
