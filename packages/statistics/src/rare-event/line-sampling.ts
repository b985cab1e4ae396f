import { studentQuantile } from '../distributions/student-t.ts';
import { normalTail } from '../normal.ts';
import { type CountedMargin, type Estimate, relativeInterval } from './estimate.ts';
import { doubtOf, type FailureRegions } from './failure-regions.ts';
import { normalSource, type Source } from './normal-source.ts';

export interface LineOptions {
  readonly seed: number | string;
  /** Lines for each centre, a whole number of at least 20; else RangeError. */
  readonly lines: number;
}

/** A line is looked at from −REACH to REACH, a unit apart; what fails beyond has a probability below 1e-15. */
const REACH = 8;
const REFINEMENTS = 5;
/**
 * CoV below which none is stated: regions of less than a hundredth of the probability are not looked for, and lines
 * through the others do not show them.
 */
const LEAST_COV = 5e-3;

/** Probability that a standard normal number lies between a and b, a ≤ b, without loss in either tail. */
const between = (a: number, b: number): number =>
  a > 0 ? normalTail(a) - normalTail(b) : normalTail(-b) - normalTail(-a);

/** A line base + c·along, and the part of it that is nearest to its own centre. */
interface Line {
  readonly base: Float64Array;
  readonly along: Float64Array;
  readonly low: number;
  readonly high: number;
}

/** Whole steps of the line that cover its own part, ends of the part included. */
function places(line: Line): number[] {
  const low = Math.max(-REACH, line.low);
  const high = Math.min(REACH, line.high);
  if (low >= high) return [];
  const inner = [];
  for (let c = Math.floor(low) + 1; c < high; c++) inner.push(c);
  return [low, ...inner, high];
}

/** Probability of failure along the own part of a line. */
function lineProbability(counted: CountedMargin, line: Line): number {
  const d = counted.dimension;
  const at = places(line);
  if (at.length === 0) return 0;
  const rows = new Float64Array(at.length * d);
  const margins = new Float64Array(at.length);
  at.forEach((c, i) => {
    for (let k = 0; k < d; k++) rows[i * d + k] = line.base[k]! + c * line.along[k]!;
  });
  counted.evaluate(rows, at.length, margins);

  const margin = new Float64Array(1);
  /** Where the margin changes sign between two points: false position with the Illinois halving. */
  const crossing = (i: number): number => {
    let [a, b, ga, gb] = [at[i - 1]!, at[i]!, margins[i - 1]!, margins[i]!];
    for (let step = 0; step < REFINEMENTS && Math.abs(b - a) > 1e-6; step++) {
      const c = b - (gb * (b - a)) / (gb - ga);
      counted.evaluate(
        line.base.map((x, k) => x + c * line.along[k]!),
        1,
        margin,
      );
      if (margin[0]! < 0 === gb < 0) ga /= 2;
      else [a, ga] = [b, gb];
      [b, gb] = [c, margin[0]!];
    }
    return gb === ga ? b : b - (gb * (b - a)) / (gb - ga);
  };

  let probability = 0;
  let from = at[0] === -REACH ? -Infinity : at[0]!;
  for (let i = 1; i < at.length; i++) {
    const failed = margins[i - 1]! < 0;
    if (failed === margins[i]! < 0) continue;
    const c = crossing(i);
    if (failed) probability += between(from, c);
    from = c;
  }
  if (!(margins[at.length - 1]! < 0)) return probability;
  const end = at[at.length - 1]!;
  return probability + between(from, end === REACH ? Infinity : end);
}

/** A random line along a centre, cut to the half spaces in which that centre is likelier than each other one. */
function drawLine(centres: readonly Float64Array[], own: Float64Array, normals: Source): Line {
  const d = own.length;
  const size = Math.hypot(...own);
  const along = own.map((x) => x / size);
  const base = new Float64Array(d);
  normals(base, d);
  const share = base.reduce((sum, x, k) => sum + x * along[k]!, 0);
  for (let k = 0; k < d; k++) base[k] = base[k]! - share * along[k]!;
  let low = -Infinity;
  let high = Infinity;
  for (const other of centres) {
    if (other === own) continue;
    // (own − other)·(base + c along) ≥ (|own|² − |other|²)/2
    let here = 0;
    let slope = 0;
    for (let k = 0; k < d; k++) {
      const difference = own[k]! - other[k]!;
      here += difference * (base[k]! - (own[k]! + other[k]!) / 2);
      slope += difference * along[k]!;
    }
    if (slope > 0) low = Math.max(low, -here / slope);
    else if (slope < 0) high = Math.min(high, -here / slope);
    else if (here < 0) high = -Infinity;
  }
  return { base, along, low, high };
}

/**
 * Failure probability as a mean over lines towards each centre: where a line fails is found along it and counted
 * exactly, only the other dimensions are drawn. Space is shared out between the centres, each point going to the one
 * that is likeliest there, so that no region is counted twice. Unbiased if the margin changes sign at most once
 * between points a unit apart on a line. Where the limit state hardly bends, some tens of lines of up to 22 calls do
 * what a thousand draws do; on bent ones it loses.
 * Source: P. S. Koutsourelakis, H. J. Pradlwarter and G. I. Schuëller (2004), Prob. Eng. Mech. 19:409; the sharing
 * out between several centres is our own.
 * @param found  with at least one centre, none at the origin; else RangeError
 */
export function lineSampling(counted: CountedMargin, found: FailureRegions, options: LineOptions): Estimate {
  const { centres } = found.mixture;
  const n = options.lines;
  if (!(Number.isInteger(n) && n >= 20)) {
    throw new RangeError(`lines: read ${n}; a whole number of at least 20 is needed.`);
  }
  if (centres.length === 0 || centres.some((centre) => !(Math.hypot(...centre) > 0))) {
    throw new RangeError('centres: lines need at least one centre, and none at the origin.');
  }
  const normals = normalSource(options.seed, 'lines');
  let probability = 0;
  let variance = 0;
  let third = 0;
  let total = 0;
  let allSquares = 0;
  for (const own of centres) {
    let sum = 0;
    let squares = 0;
    let cubes = 0;
    for (let line = 0; line < n; line++) {
      const value = lineProbability(counted, drawLine(centres, own, normals));
      sum += value;
      squares += value * value;
      cubes += value ** 3;
    }
    third += (cubes - (3 * sum * squares) / n + (2 * sum ** 3) / (n * n)) / n ** 3;
    probability += sum / n;
    variance += Math.max(0, squares - (sum * sum) / n) / (n * (n - 1));
    total += sum;
    allSquares += squares;
  }
  const cov = probability === 0 ? Infinity : Math.hypot(Math.sqrt(variance) / probability, LEAST_COV);
  const effectiveDraws = total === 0 ? 0 : (total * total) / allSquares;
  const deviate = studentQuantile(0.975, Math.max(2, effectiveDraws - 1));
  // Few lines with much probability make the mean skew: the interval moves up, as P. Hall (1992) has it for a mean.
  const skewness = variance > 0 ? third / variance ** 1.5 : 0;
  const shift = (Math.max(0, skewness) * (1 + 2 * deviate * deviate)) / 6;
  const common = {
    probability,
    cov,
    ...relativeInterval(probability, Number.isFinite(cov) ? cov : 0, deviate, Math.min(1, shift)),
    calls: counted.calls(),
    effectiveDraws,
    regions: found.regions,
    method: 'line sampling',
  } as const;
  const doubt = doubtOf(found);
  if (doubt !== undefined) return { ...common, trusted: false, reason: doubt };
  if (effectiveDraws >= 15) return { ...common, trusted: true };
  const reason = `the lines are worth only ${Math.floor(effectiveDraws)} of equal weight; 15 are needed.`;
  return { ...common, trusted: false, reason };
}
