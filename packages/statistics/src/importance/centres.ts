import { BLOCK } from '../stream.ts';
import { addCentre, addRound, type Bank, createBank, dropCentre, ratiosAbout } from './bank.ts';
import { type Centres, NO_CENTRES } from './mixture.ts';
import type { NormalModel } from './model.ts';
import { LEAST_EFFECTIVE, type RareEvent, rareEvents, relativeVariance } from './rare-events.ts';

export interface CentreSearch {
  readonly seed: number | string;
  /** Risks at which every output is to be known, from common to rare; default 1e-3, 1e-4, 1e-5 and 1e-6. */
  readonly risks?: readonly number[];
  /** Relative variance a draw that is good enough; default 80, a coefficient of variation of 5 % with 32,768 draws. */
  readonly variance?: number;
  /** Blocks that are drawn plainly at first; default 2. */
  readonly pilotBlocks?: number;
}

const RISKS = [1e-3, 1e-4, 1e-5, 1e-6];
const VARIANCE = 80;
const PILOT_BLOCKS = 2;
/** Rounds of one block each after the pilot: the demo needs six to eight. */
const MOST_ROUNDS = 8;
const MOST_CENTRES = 24;
/** Share of the pilot's draws that is looked at: an output that has no value for so many has none for rare ones either. */
const LOOKED_AT = 0.02;
/** A shift within this many of its standard errors of 0, or this small, is taken as 0. */
const NOISE = 2.5;
const SMALL = 0.1;
/** A centre that does not take this much off the variance which it was made for is none. */
const WORTH = 0.8;

/**
 * Where a new centre serves an event best: the mean of its draws, the shift with the least cross-entropy (R. Rubinstein
 * and D. Kroese, The Cross-Entropy Method, 2004; from memory). Draws count the more, the less the mixture leads to
 * them: with the square root of the inverse ratio. With the inverse itself single draws make a centre, and the demo took
 * twice as many; without, one in a corner is not found, and 1e-6 was known to 15 % at worst instead of 6 %.
 */
function centreFor(bank: Bank, { draws }: RareEvent, ratios: Float64Array): Float64Array {
  const own = Float64Array.from(draws, (i) => bank.weights[i]! / Math.sqrt(ratios[i]!));
  let total = 0;
  let square = 0;
  for (const w of own) {
    total += w;
    square += w * w;
  }
  const least = Math.max(SMALL, (NOISE * Math.sqrt(square)) / total);
  return Float64Array.from(bank.normals, (normals) => {
    let sum = 0;
    for (let k = 0; k < own.length; k++) sum += own[k]! * normals[draws[k]!]!;
    const mean = sum / total;
    return Math.abs(mean) < least ? 0 : mean;
  });
}

/** The event that a mixture serves worst, beyond what is good enough; undefined when all are served. */
function worstServed(
  bank: Bank,
  events: readonly RareEvent[],
  ratios: Float64Array,
  variance: number,
): RareEvent | undefined {
  let worst: RareEvent | undefined;
  let most = variance;
  for (const event of events) {
    const own = relativeVariance(bank, event, ratios);
    if (own <= most) continue;
    most = own;
    worst = event;
  }
  return worst;
}

/** Adds centres for the events that are served badly, the worst first. @returns whether any was added */
function addCentres(bank: Bank, events: readonly RareEvent[], variance: number): boolean {
  const before = bank.points.length;
  let left = events;
  let ratios = ratiosAbout(bank);
  while (bank.points.length < MOST_CENTRES) {
    const worst = worstServed(bank, left, ratios, variance);
    if (worst === undefined) break;
    addCentre(bank, centreFor(bank, worst, ratios));
    const next = ratiosAbout(bank);
    if (relativeVariance(bank, worst, next) < WORTH * relativeVariance(bank, worst, ratios)) ratios = next;
    else {
      dropCentre(bank);
      left = left.filter((event) => event !== worst);
    }
  }
  return bank.points.length > before;
}

/** The fewest centres that serve as well: one that is left out gives its draws to the others. */
function worthKeeping(bank: Bank, events: readonly RareEvent[], variance: number): Float64Array[] {
  const most = (centres: readonly number[]): number => {
    const ratios = ratiosAbout(bank, [...centres]);
    return Math.max(...events.map((event) => relativeVariance(bank, event, ratios)));
  };
  let kept = Array.from(bank.points.keys());
  let limit = Math.max(WORTH * variance, most(kept));
  while (kept.length > 0) {
    const fewer = kept.map((c) => kept.filter((other) => other !== c));
    const worst = fewer.map(most);
    const least = Math.min(...worst);
    if (least > limit) break;
    kept = fewer[worst.indexOf(least)]!;
    limit = Math.max(WORTH * variance, least);
  }
  return kept.map((c) => bank.points[c]!);
}

/**
 * Finds where in normal space the rare events of a model lie: what any output exceeds in one draw of a thousand to one
 * of a million. Of plain draws, the pilot's, the largest are taken as the first events; a round of draws from the
 * mixture about their centres shows rarer ones, and so on until all are served as well as is asked for, or no centre
 * helps.
 *
 * Draws that gave the centres lie near one: none of them may count where it is asked what the mixture leads to. They
 * have streams of their own, `pilot/` and `centre/`.
 */
export function searchCentres(model: NormalModel, search: CentreSearch): Centres {
  const { seed, risks = RISKS, variance = VARIANCE, pilotBlocks = PILOT_BLOCKS } = search;
  if (model.directions.length === 0) return NO_CENTRES;
  const bank = createBank(model, (pilotBlocks + MOST_ROUNDS) * BLOCK);
  addRound(model, bank, seed, 'pilot/', pilotBlocks);
  const rank = Math.max(2 * LEAST_EFFECTIVE, Math.floor(LOOKED_AT * bank.draws));
  const floors = bank.values.map((values) => values.slice(0, bank.draws).sort()[bank.draws - rank]!);
  for (let round = 0; ; round++) {
    const events = floors.flatMap((floor, output) =>
      floor === Number.POSITIVE_INFINITY ? [] : rareEvents(bank, output, risks, floor),
    );
    const isAdded = addCentres(bank, events, variance);
    const isDone = !isAdded && events.every(({ isReached }) => isReached);
    if (isDone || round === MOST_ROUNDS) return { points: worthKeeping(bank, events, variance) };
    addRound(model, bank, seed, `centre/${round}/`, 1);
  }
}
