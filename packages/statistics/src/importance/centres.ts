import { BLOCK } from '../stream.ts';
import { addCentre, addRound, type Bank, createBank, dropCentres, ratiosAbout } from './bank.ts';
import { centresFor } from './centre-for.ts';
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
/** An event that stands for a rarer one is to be served so much better: draws are wanted beyond it. */
const ON_THE_WAY = 0.25;
/** A centre that does not take this much off the variance which it was made for is none. */
const WORTH = 0.8;

/** The event that a mixture serves worst against its limit; undefined when all are served. */
function worstServed(
  bank: Bank,
  events: readonly RareEvent[],
  ratios: Float64Array,
  limitOf: (event: RareEvent) => number,
): RareEvent | undefined {
  let worst: RareEvent | undefined;
  let most = 1;
  for (const event of events) {
    const own = relativeVariance(bank, event, ratios) / limitOf(event);
    if (own <= most) continue;
    most = own;
    worst = event;
  }
  return worst;
}

/** Takes in the points that serve an event best, few rather than many. @returns the new ratios; undefined where none helps */
function addCentresFor(
  bank: Bank,
  event: RareEvent,
  ratios: Float64Array,
  limit: number,
): Float64Array | undefined {
  let least = relativeVariance(bank, event, ratios);
  let best: Float64Array[] | undefined;
  for (const points of centresFor(bank, event, ratios)) {
    if (bank.points.length + points.length > MOST_CENTRES) break;
    for (const point of points) addCentre(bank, point);
    const variance = relativeVariance(bank, event, ratiosAbout(bank));
    dropCentres(bank, points.length);
    if (variance < WORTH * least) {
      least = variance;
      best = points;
    }
    if (least <= limit) break;
  }
  if (best === undefined) return undefined;
  for (const point of best) addCentre(bank, point);
  return ratiosAbout(bank);
}

/** Adds centres for the events that are served badly, the worst first. @returns whether any was added */
function addCentres(bank: Bank, events: readonly RareEvent[], variance: number): boolean {
  const before = bank.points.length;
  const limitOf = ({ isReached }: RareEvent): number => (isReached ? variance : ON_THE_WAY * variance);
  let left = events;
  let ratios = ratiosAbout(bank);
  while (bank.points.length < MOST_CENTRES) {
    const worst = worstServed(bank, left, ratios, limitOf);
    if (worst === undefined) break;
    const next = addCentresFor(bank, worst, ratios, limitOf(worst));
    if (next === undefined) left = left.filter((event) => event !== worst);
    else ratios = next;
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
