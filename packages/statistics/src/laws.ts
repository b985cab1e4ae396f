import { type ConstantLaw, constant } from './distributions/constant.ts';
import type { Distribution, Support } from './distributions/distribution.ts';
import { type EmpiricalLaw, empirical } from './distributions/empirical.ts';
import { type LogNormalLaw, logNormal } from './distributions/log-normal.ts';
import { type NormalLaw, normal } from './distributions/normal.ts';
import { type StudentTLaw, studentT } from './distributions/student-t.ts';
import { type TriangularLaw, triangular } from './distributions/triangular.ts';
import { type TruncatedNormalLaw, truncatedNormal } from './distributions/truncated-normal.ts';
import { type UniformLaw, uniform } from './distributions/uniform.ts';
import { type UpdatedLaw, updatedDistribution } from './distributions/updated.ts';

/** A law that stands by itself. */
export type PlainLaw =
  | ConstantLaw
  | NormalLaw
  | TruncatedNormalLaw
  | LogNormalLaw
  | TriangularLaw
  | UniformLaw
  | StudentTLaw
  | EmpiricalLaw;

/** What is known of one number: a law and its parameters, in the unit of that number. */
export type Law = PlainLaw | UpdatedLaw;

/** A new law is a file in distributions/ and a line here. */
const laws: { readonly [K in Law['kind']]: Distribution<Law & { kind: K }> } = {
  constant,
  normal,
  'truncated-normal': truncatedNormal,
  'log-normal': logNormal,
  triangular,
  uniform,
  'student-t': studentT,
  empirical,
  updated: updatedDistribution((law) => row(law)),
};

/** The table's row for a law. */
function row<K extends Law['kind']>(law: Law & { kind: K }): Distribution<Law & { kind: K }> {
  return laws[law.kind];
}

function spread(law: Law): number {
  switch (law.kind) {
    case 'constant':
      return 0;
    case 'normal':
      return law.sd;
    case 'truncated-normal':
      return law.low === law.high ? 0 : law.sd;
    case 'log-normal':
      return law.cov;
    case 'triangular':
    case 'uniform':
      return law.high - law.low;
    case 'student-t':
      return law.scale;
    case 'empirical':
      return law.values.at(-1)! - law.values[0]! + law.bandwidth;
    case 'updated':
      return spread(law.from);
  }
}

/** Where a law without spread sits. */
function place(law: Law): number {
  switch (law.kind) {
    case 'constant':
      return law.value;
    case 'log-normal':
      return law.median;
    case 'triangular':
    case 'uniform':
      return law.low;
    case 'truncated-normal':
      return law.low === law.high ? law.low : law.mean;
    case 'normal':
    case 'student-t':
      return law.mean;
    case 'empirical':
      return law.values[0]!;
    case 'updated':
      return place(law.from);
  }
}

/** The law itself once its parameters are known to be sound; a law without spread as a constant. */
function settled(law: Law): Law {
  const problem = lawProblem(law);
  if (problem !== undefined) throw new RangeError(`${law.kind}: ${problem}`);
  return isSpread(law) ? law : { kind: 'constant', value: place(law) };
}

/** Why the parameters of a law are unusable (field, what was read, what is needed); undefined when they are sound. */
export function lawProblem(law: Law): string | undefined {
  return row(law).problem(law);
}

/** Whether the number can vary at all: false for a constant and for a law whose spread is 0. */
export function isSpread(law: Law): boolean {
  return spread(law) > 0;
}

/** Smallest and largest value the law can take, ±Infinity where it has no end. Unsound law: RangeError. */
export function support(law: Law): Support {
  const sound = settled(law);
  return row(sound).support(sound);
}

/** Whether the law has an end on both sides. */
export function isBounded(law: Law): boolean {
  const { low, high } = support(law);
  return low > -Infinity && high < Infinity;
}

/**
 * Value that lies above a share u of the law. Rises with u.
 * @param u  probability, 0 to 1; 0 and 1 give the ends of the support; outside or NaN: RangeError
 * @throws RangeError when the law is unsound, as do all functions of a law
 */
export function quantile(law: Law, u: number): number {
  if (!(u >= 0 && u <= 1)) throw new RangeError(`u: read ${u}; a probability from 0 to 1 is needed.`);
  const sound = settled(law);
  const ends = row(sound).support(sound);
  if (u === 0) return ends.low;
  return u === 1 ? ends.high : row(sound).quantile(sound, u);
}

/** Median of the law: the value of a run in which nothing is unusual. */
export function centralValue(law: Law): number {
  return quantile(law, 0.5);
}

/** Mean of the law. */
export function mean(law: Law): number {
  const sound = settled(law);
  return row(sound).mean(sound);
}

/** Variance of the law, unit squared; Infinity for Student's t of dof up to 2. */
export function variance(law: Law): number {
  const sound = settled(law);
  return row(sound).variance(sound);
}

/** Probability that the number is at most x, 1. NaN: RangeError. */
export function cumulative(law: Law, x: number): number {
  if (Number.isNaN(x)) throw new RangeError('x: read NaN; a number is needed.');
  const sound = settled(law);
  return row(sound).cumulative(sound, x);
}

/** Density of the law at x, 1 over its unit; Infinity at the value of a constant. NaN: RangeError. */
export function density(law: Law, x: number): number {
  if (Number.isNaN(x)) throw new RangeError('x: read NaN; a number is needed.');
  const sound = settled(law);
  return row(sound).density(sound, x);
}

/**
 * Values of the law at `count` standard normal numbers z, each the quantile of Φ(z): the one way from random numbers to
 * the model, whether they are drawn plainly or about a centre. Keeps its digits in both tails, where Φ(z) itself would
 * round to 1. From tables: the error is below 1e-9 of the sd or of the distance from the median, whichever is more.
 * @param normals  finite, |z| below 38; not checked one by one
 * @param out      receives the values; may be the array of normals itself
 * @throws RangeError when the law is unsound or an array is shorter than `count`
 */
export function fillFromNormals(law: Law, normals: Float64Array, out: Float64Array, count: number): void {
  if (!(count >= 0 && count <= normals.length && count <= out.length)) {
    throw new RangeError(`count: read ${count}; the arrays hold ${normals.length} and ${out.length}.`);
  }
  const sound = settled(law);
  row(sound).fillFromNormals(sound, normals, out, count);
}

/**
 * Law of factor·x + offset where x follows `law`.
 * @param factor  above 0, finite; else RangeError
 * @param offset  finite; a log-normal shifted by anything but 0 is no log-normal: RangeError
 */
export function scaleLaw(law: Law, factor: number, offset: number): Law {
  if (!(factor > 0 && factor < Infinity)) {
    throw new RangeError(`factor: read ${factor}; a finite number above 0 is needed.`);
  }
  if (!Number.isFinite(offset)) throw new RangeError(`offset: read ${offset}; a finite number is needed.`);
  const move = (x: number): number => factor * x + offset;
  switch (law.kind) {
    case 'constant':
      return { kind: 'constant', value: move(law.value) };
    case 'normal':
      return { kind: 'normal', mean: move(law.mean), sd: factor * law.sd };
    case 'truncated-normal':
      return { ...law, mean: move(law.mean), sd: factor * law.sd, low: move(law.low), high: move(law.high) };
    case 'log-normal':
      if (offset !== 0) {
        throw new RangeError(
          `offset: read ${offset}; a log-normal law takes 0 only, as a shifted one is none.`,
        );
      }
      return { ...law, median: factor * law.median };
    case 'triangular':
      return { ...law, low: move(law.low), mode: move(law.mode), high: move(law.high) };
    case 'uniform':
      return { ...law, low: move(law.low), high: move(law.high) };
    case 'student-t':
      return {
        ...law,
        mean: move(law.mean),
        scale: factor * law.scale,
        ...(law.low === undefined ? {} : { low: move(law.low) }),
      };
    case 'empirical':
      return {
        ...law,
        values: law.values.map(move),
        bandwidth: factor * law.bandwidth,
        ...(law.low === undefined ? {} : { low: move(law.low) }),
      };
    case 'updated':
      return { ...law, from: scaleLaw(law.from, factor, offset) as PlainLaw };
  }
}

/**
 * The law of a factor times the quantity and an offset more. As scaleLaw, but a log-normal law, which has no shift, is
 * scaled so that its middle lies there.
 * @param floor  below which the middle of a log-normal law is not moved
 */
export function relocateLaw(law: Law, factor: number, offset: number, floor = Number.NEGATIVE_INFINITY): Law {
  if (law.kind === 'updated')
    return { ...law, from: relocateLaw(law.from, factor, offset, floor) as PlainLaw };
  if (law.kind === 'log-normal' && offset !== 0) {
    return { ...law, median: Math.max(floor, factor * law.median + offset) };
  }
  return scaleLaw(law, factor, offset);
}
