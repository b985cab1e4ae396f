import { comparedWith } from './rare-event/agreement.ts';
import { type CountedMargin, countedMargin, type Estimate, type Margin } from './rare-event/estimate.ts';
import { type FailureRegions, failureRegions } from './rare-event/failure-regions.ts';
import { importanceSampling } from './rare-event/importance-sampling.ts';
import { lineSampling } from './rare-event/line-sampling.ts';
import { drawsPerFailure } from './rare-event/mixture.ts';
import { type PlainCount, plainCount, plainEstimate } from './rare-event/plain-sampling.ts';
import { repeatedSubset, type SubsetRun, subsetRun } from './rare-event/subset-simulation.ts';

export interface FailureOptions {
  readonly seed: number | string;
  /** CoV to reach, above 0, below 1; default 0.1. */
  readonly cov?: number;
  /** Calls of the margin to stay near, at least 20,000; default 200,000. */
  readonly mostCalls?: number;
}

const FIRST_DRAWS = 2048;
/** Points in a level of the pilot run; a small CoV asks that no lesser region dies out in its chains. */
const PILOT_DRAWS = 1000;
const CAREFUL_PILOT_DRAWS = 3000;
const CAREFUL_COV = 0.05;
/** A failure likelier than this gains little from anything but plain draws. */
const NOT_RARE = 1 / 60;
/** Importance sampling that needs more draws than this makes it worth trying lines. */
const MANY_DRAWS = 5000;
const MOST_CENTRES_FOR_LINES = 6;
const TRIAL_LINES = 60;
/** A risk below this is no matter for anybody. */
const NEGLIGIBLE = 1e-9;
/** Probability down to which failure is sought along the axes when the pilot run found none. */
const SEARCHED = 1e-8;

/** Draws that a plain estimate of p needs for a CoV. */
const plainDraws = (p: number, cov: number): number => Math.ceil((1 - p) / (p * cov * cov));

/** Lines if a trial of them promises to be cheaper than `draws` of importance sampling. */
function byLines(
  counted: CountedMargin,
  found: FailureRegions,
  options: Required<FailureOptions>,
  draws: number,
): Estimate | undefined {
  const centres = found.mixture.centres.length;
  if (draws <= MANY_DRAWS || centres > MOST_CENTRES_FOR_LINES) return undefined;
  const before = counted.calls();
  const trial = lineSampling(counted, found, { seed: options.seed, lines: TRIAL_LINES });
  const lines = Math.max(TRIAL_LINES, Math.ceil(TRIAL_LINES * 1.1 * (trial.cov / options.cov) ** 2));
  const price = ((counted.calls() - before) / TRIAL_LINES) * lines;
  if (!trial.trusted || !(price < draws) || counted.calls() + price > options.mostCalls) return undefined;
  return lineSampling(counted, found, { seed: options.seed, lines });
}

/** What is left when centres do not serve: plain draws if they suffice, else repeated subset runs. */
function withoutCentres(
  counted: CountedMargin,
  count: PlainCount,
  pilot: Estimate,
  pilotDraws: number,
  options: Required<FailureOptions>,
): Estimate {
  const left = Math.max(0, options.mostCalls - counted.calls());
  if (pilot.probability === 0) {
    if (pilot.high <= NEGLIGIBLE) return { ...pilot, calls: counted.calls() };
    // The levels came to a stop on a flat margin: only plain draws can say anything.
    count.more(left);
    return plainEstimate(count.hits, count.draws, counted.calls());
  }
  const draws = plainDraws(pilot.probability, options.cov);
  if (draws <= left) {
    count.more(Math.max(0, draws - count.draws));
    return plainEstimate(count.hits, count.draws, counted.calls());
  }
  const wanted = (pilotDraws * (pilot.cov / options.cov) ** 2) / 8;
  const affordable = (pilotDraws * left) / (8 * pilot.calls);
  const perLevel = Math.max(300, Math.min(wanted, affordable));
  return repeatedSubset(counted, { seed: options.seed, draws: 10 * Math.ceil(perLevel / 10) });
}

/**
 * P(margin < 0) for independent standard normal inputs by the method that suits it: plain draws when failure is not
 * rare; else a subset run to find failure, design points from it, and importance sampling about them (or lines
 * through them where the limit state is nearly plane and the CoV asked for is small). What that gives has to agree
 * with the subset run and rest on enough draws; if not, plain draws or eight subset runs answer instead.
 *
 * `trusted` says whether the figures hold together. It cannot say that no failure region was missed: one that no
 * slope of the margin, no single input and no mirror image leads to stays unseen by any method but plain draws.
 * @param margin     see Margin
 * @param dimension  of the standard normal space, at least 1
 * @returns the estimate; the same for the same seed
 * @throws RangeError for options out of range and for a margin that gives NaN
 * @example failureProbability((u, n, out) => { for (let i = 0; i < n; i++) out[i] = 4 - u[i]!; }, 1, { seed: 1 })
 *   // probability near 3.17e-5 at a CoV of 10 % or less
 */
export function failureProbability(margin: Margin, dimension: number, options: FailureOptions): Estimate {
  const { seed, cov = 0.1, mostCalls = 200_000 } = options;
  if (!(cov > 0 && cov < 1)) throw new RangeError(`cov: read ${cov}; a number inside 0 to 1 is needed.`);
  if (!(mostCalls >= 20_000))
    throw new RangeError(`mostCalls: read ${mostCalls}; at least 20000 are needed.`);
  const full = { seed, cov, mostCalls };
  const counted = countedMargin(margin, dimension);
  const count = plainCount(counted, seed);
  count.more(FIRST_DRAWS);
  const share = count.hits / count.draws;
  if (share >= NOT_RARE) {
    count.more(Math.max(0, Math.min(plainDraws(share, cov), mostCalls) - count.draws));
    return plainEstimate(count.hits, count.draws, counted.calls());
  }

  const before = counted.calls();
  const pilotDraws = cov < CAREFUL_COV ? CAREFUL_PILOT_DRAWS : PILOT_DRAWS;
  const run = subsetRun(counted, { seed, draws: pilotDraws });
  const pilot = { ...run.estimate, calls: counted.calls() - before };
  const found = regionsOf(counted, run, seed);
  if (found.mixture.centres.length === 0) return withoutCentres(counted, count, pilot, pilotDraws, full);
  const failing = run.failingCount;
  const draws =
    failing === 0 ? 0 : drawsPerFailure(found.mixture, run.failing, failing, pilot.probability) / (cov * cov);
  const lines = byLines(counted, found, full, draws);
  if (lines !== undefined) {
    const judged = comparedWith(pilot, lines);
    if (judged.trusted) return judged;
  }
  // The other half is for another method, should this one fail.
  const mostDraws = Math.max(2000, (mostCalls - counted.calls()) / 2);
  const weighted = comparedWith(pilot, importanceSampling(counted, found, { seed, cov, mostDraws }));
  if (weighted.trusted || pilot.probability === 0) return weighted;
  return withoutCentres(counted, count, pilot, pilotDraws, full);
}

function regionsOf(counted: CountedMargin, run: SubsetRun, seed: number | string): FailureRegions {
  const probability =
    run.estimate.probability > 0 ? run.estimate.probability : Math.min(run.estimate.high, SEARCHED);
  return failureRegions(counted, {
    failing: run.failing,
    failingCount: run.failingCount,
    probability,
    seed,
  });
}
