import { normalQuantile } from '../normal.ts';
import { householder } from '../posterior/householder.ts';
import { addCentre, addRound, type Bank, createBank } from './bank.ts';
import { type Centres, NO_CENTRES } from './mixture.ts';
import type { NormalModel } from './model.ts';

export interface DesignPointSearch {
  readonly seed: number | string;
  /** Risk at which every output is to be known, above 0 and below 1/2. */
  readonly risk: number;
  /** Draws that are plain at first, and those of each round: even parts of a block; default 256 of both. */
  readonly pilotDraws?: number;
  readonly roundDraws?: number;
  /** Rounds about the points found so far; default 2. */
  readonly rounds?: number;
}

const DRAWS = 256;
const ROUNDS = 2;
/**
 * How far from a design point, along its direction, draws still tell of the slope there: by a normal law of this
 * standard deviation. From 1.5 to 3 it made no difference of note.
 */
const REACH = 2;
/** Root of what is counted beside the draws in every direction, so that fewer draws than directions have a slope as well. */
const RIDGE = 1;
/**
 * Centres lie so much nearer than the point of the same risk on a plane. Draws from beyond it weigh least, so that too
 * far costs more than too near: at 0.9, 0.95 and 1 the bench's question took 3,100, 3,200 and 3,450 calls.
 */
const NEARER = 0.95;

/** How much each draw tells of the slope about a point; of the plain pilot's, without a point, all alike. */
function relevances(bank: Bank, output: number, at: Float64Array | undefined): Float64Array {
  const values = bank.values[output]!;
  const along = new Float64Array(bank.draws);
  const length = at === undefined ? 0 : Math.hypot(...at);
  at?.forEach((part, d) => {
    const normals = bank.normals[d]!;
    for (let i = 0; i < along.length; i++) along[i]! += (part / length) * normals[i]!;
  });
  return along.map((x, i) => {
    if (!Number.isFinite(values[i]!)) return 0;
    return at === undefined ? 1 : Math.exp(-0.5 * ((x - length) / REACH) ** 2);
  });
}

/** Slope of an output in every direction: weighted least squares of a plane through the draws. */
function slopeOf(bank: Bank, output: number, weights: Float64Array): Float64Array {
  const { draws, normals } = bank;
  const total = weights.reduce((sum, w) => sum + w, 0);
  /** Distances from the weighted mean, each times the root of its weight, and room for the ridge. */
  const centred = (numbers: Float64Array): Float64Array => {
    let mean = 0;
    for (let i = 0; i < draws; i++) if (weights[i]! > 0) mean += (weights[i]! / total) * numbers[i]!;
    const rows = new Float64Array(draws + normals.length);
    for (let i = 0; i < draws; i++)
      if (weights[i]! > 0) rows[i] = Math.sqrt(weights[i]!) * (numbers[i]! - mean);
    return rows;
  };
  const columns = normals.map(centred);
  columns.forEach((column, d) => {
    column[draws + d] = RIDGE;
  });
  return householder(columns, centred(bank.values[output]!)).s;
}

/**
 * The point of a risk by the slope of an output about another point: where the plane that it would be there is exceeded
 * with that risk lies straight up the slope. Undefined where the output has no slope.
 */
function pointOf(bank: Bank, output: number, risk: number, at?: Float64Array): Float64Array | undefined {
  const slope = slopeOf(bank, output, relevances(bank, output, at));
  const steepness = Math.hypot(...slope);
  if (!(steepness > 0)) return undefined;
  return slope.map((part) => (NEARER * normalQuantile(1 - risk) * part) / steepness);
}

/**
 * Finds the design point of each output's rare event, from draws instead of derivatives: the slope of the plain pilot leads
 * to a first point, that of the draws about it to the next. For smooth outputs of one cause each, at one risk, this takes a
 * quarter of what searchCentres takes, for as good a mixture; of a second cause, a stop or what has no value it knows
 * nothing. What it misses costs draws and leaves more to the plain count, by the one rule of splitProbability; no bound rests
 * on it. Streams are those of searchCentres, so that none of its draws counts where it is asked what the mixture leads to.
 * Source: response surface by C. Bucher and U. Bourgund (1990), Struct. Saf. 7:57 (from memory), with draws for its points.
 * @throws RangeError for a risk that is none
 */
export function searchDesignPoints(model: NormalModel, search: DesignPointSearch): Centres {
  const { seed, risk, pilotDraws = DRAWS, roundDraws = DRAWS, rounds = ROUNDS } = search;
  if (!(risk > 0 && risk < 0.5)) throw new RangeError(`risk: read ${risk}; above 0 and below 1/2 is needed.`);
  if (model.directions.length === 0) return NO_CENTRES;
  const bank = createBank(model, pilotDraws + rounds * roundDraws);
  addRound(model, bank, seed, 'pilot/', pilotDraws);
  let found = bank.values.map((_, output) => pointOf(bank, output, risk));
  for (let round = 0; round < rounds; round++) {
    for (const point of found) if (point !== undefined) addCentre(bank, point);
    addRound(model, bank, seed, `centre/${round}/`, roundDraws);
    found = found.map((point, output) => point && (pointOf(bank, output, risk, point) ?? point));
  }
  return { points: found.filter((point) => point !== undefined) };
}
