import type { PlainLaw } from '../laws.ts';
import { normalDensity, normalQuantile, normalTail } from '../normal.ts';
import { type Distribution, notFinite } from './distribution.ts';
import { placeOfShare, type Side } from './place-of-share.ts';

/**
 * A law after something was learned: seen through the standard normal scores of the law it started from, its median
 * stands at `middle` and its spread is `below` and `above` that, all in standard deviations of those scores. With 0, 1
 * and 1 it is the law it started from; the ends of that law stay its ends. What was learned of others may not hold of this
 * one: with a chance of `apart` the law is as it started, a mixture of the two.
 */
export interface UpdatedLaw {
  readonly kind: 'updated';
  readonly from: PlainLaw;
  readonly middle: number;
  readonly below: number;
  readonly above: number;
  /** From 0 on, below 1; 0 when left out. */
  readonly apart?: number;
}

/** The standard normal number of a score, where what was learned holds. */
const numberOf = ({ middle, below, above }: UpdatedLaw, score: number): number =>
  (score - middle) / (score < middle ? below : above);

/** Share of the scores on one side of one. */
function shareOf(law: UpdatedLaw, score: number, side: Side): number {
  const { apart = 0 } = law;
  const sign = side === 'above' ? 1 : -1;
  const learned = normalTail(sign * numberOf(law, score));
  return apart === 0 ? learned : (1 - apart) * learned + apart * normalTail(sign * score);
}

/** Density of the scores. */
function scoreDensity(law: UpdatedLaw, score: number): number {
  const { middle, below, above, apart = 0 } = law;
  const learned = normalDensity(numberOf(law, score)) / (score < middle ? below : above);
  return (1 - apart) * learned + apart * normalDensity(score);
}

/** So near is a score of a mixture worked out, in standard deviations. */
const NEAR = 1e-12;

/** Score in the first law's space of a standard normal number, for a law's many numbers. */
function scoresOf(law: UpdatedLaw): (z: number) => number {
  const { middle, below, above, apart = 0 } = law;
  const learned = (z: number): number => middle + (z < 0 ? below : above) * z;
  if (apart === 0) return learned;
  const density = (score: number): number => scoreDensity(law, score);
  const sides = {
    below: { share: (score: number) => shareOf(law, score, 'below'), density },
    above: { share: (score: number) => shareOf(law, score, 'above'), density },
  };
  return (z) => {
    // A mixture's quantile lies between those of its parts.
    const held = learned(z);
    const side = z < 0 ? 'below' : 'above';
    const [low, high] = held < z ? [held, z] : [z, held];
    return placeOfShare(sides[side], normalTail(Math.abs(z)), side, low, high, NEAR);
  };
}

const positive = (name: string, value: number): string | undefined =>
  Number.isFinite(value) && value > 0
    ? undefined
    : `${name}: read ${value}; a finite number above 0 is needed.`;

const share = (name: string, value: number): string | undefined =>
  value >= 0 && value < 1 ? undefined : `${name}: read ${value}; from 0 on and below 1 is needed.`;

/** Half-width, sd, and steps of the sums for mean and variance: smooth over the whole line, so they converge fast. */
const REACH = 8;
const STEPS = 800;

/** Makes the law's functions from the table of the others. */
export function updatedDistribution(
  rowOf: (law: PlainLaw) => Distribution<PlainLaw>,
): Distribution<UpdatedLaw> {
  const single = new Float64Array(1);
  const atScore = (law: UpdatedLaw, score: number): number => {
    single[0] = score;
    rowOf(law.from).fillFromNormals(law.from, single, single, 1);
    return single[0];
  };
  const moment = (law: UpdatedLaw, about: number, power: number): number => {
    const scoreOf = scoresOf(law);
    let sum = 0;
    for (let i = 0; i <= STEPS; i++) {
      const z = REACH * ((2 * i) / STEPS - 1);
      sum += (atScore(law, scoreOf(z)) - about) ** power * normalDensity(z);
    }
    return (sum * 2 * REACH) / STEPS;
  };
  const fillFromNormals = (
    law: UpdatedLaw,
    normals: Float64Array,
    out: Float64Array,
    count: number,
  ): void => {
    const scoreOf = scoresOf(law);
    for (let i = 0; i < count; i++) out[i] = scoreOf(normals[i]!);
    rowOf(law.from).fillFromNormals(law.from, out, out, count);
  };
  return {
    problem: (law) =>
      rowOf(law.from).problem(law.from) ??
      notFinite('middle', law.middle) ??
      positive('below', law.below) ??
      positive('above', law.above) ??
      share('apart', law.apart ?? 0),
    quantile: (law, u) => atScore(law, scoresOf(law)(normalQuantile(u))),
    cumulative: (law, x) => {
      const score = normalQuantile(rowOf(law.from).cumulative(law.from, x));
      return shareOf(law, score, 'below');
    },
    density: (law, x) => {
      const row = rowOf(law.from);
      const u = row.cumulative(law.from, x);
      if (u <= 0 || u >= 1) return 0;
      const score = normalQuantile(u);
      return (scoreDensity(law, score) / normalDensity(score)) * row.density(law.from, x);
    },
    mean: (law) => moment(law, 0, 1),
    variance: (law) => moment(law, moment(law, 0, 1), 2),
    support: (law) => rowOf(law.from).support(law.from),
    fillFromNormals,
  };
}
