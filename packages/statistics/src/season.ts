/**
 * Probability that at least one of N runs of a car touches, estimated without bias from k touches in M simulated
 * runs of that car: 1 − C(M − k, N)/C(M, N), the chance that N runs taken from the M hold a touch. The plug-in
 * 1 − (1 − k/M)^N is lower in the mean, on the unsafe side. Average it over cars for the risk of a season.
 * Source: derived (hypergeometric law; unbiased since each N of the M runs is itself a season).
 * @param touches     k, whole, 0 to runs
 * @param runs        M, whole, at least seasonRuns
 * @param seasonRuns  N, whole, at least 1
 * @throws RangeError outside these
 * @example seasonProbability(3, 60, 20)  // 0.711280
 */
export function seasonProbability(touches: number, runs: number, seasonRuns: number): number {
  if (!(Number.isSafeInteger(seasonRuns) && seasonRuns >= 1)) {
    throw new RangeError(`seasonRuns: read ${seasonRuns}; a whole number of at least 1 is needed.`);
  }
  if (!(Number.isSafeInteger(runs) && runs >= seasonRuns)) {
    throw new RangeError(
      `runs: read ${runs}; a whole number of at least seasonRuns, ${seasonRuns}, is needed.`,
    );
  }
  if (!(Number.isSafeInteger(touches) && touches >= 0 && touches <= runs)) {
    throw new RangeError(`touches: read ${touches}; a whole number from 0 to runs, ${runs}, is needed.`);
  }
  if (touches === 0) return 0;
  if (touches > runs - seasonRuns) return 1;
  // C(M − k, N)/C(M, N) = Π over the k touches of (M − N − i)/(M − i); the shorter of two equal products.
  const short = Math.min(touches, seasonRuns);
  const long = Math.max(touches, seasonRuns);
  let logClean = 0;
  for (let i = 0; i < short; i++) logClean += Math.log1p(-long / (runs - i));
  return -Math.expm1(logClean);
}
