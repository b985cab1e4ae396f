import { BLOCK } from '../stream.ts';
import { addCentre, addRound, type Bank, createBank, type Mixture, mixtureWith, without } from './bank.ts';
import { centresFor } from './centre-for.ts';
import { type Centres, NO_CENTRES } from './mixture.ts';
import type { NormalModel } from './model.ts';
import { LEAST_EFFECTIVE, type RareEvent, rareEvents, relativeVariance } from './rare-events.ts';

export interface CentreSearch {
  readonly seed: number | string;
  /** Risks at which every output is to be known, from common to rare; default 1e-2 to 1e-6 by tens. */
  readonly risks?: readonly number[];
  /** Relative variance a draw that is good enough; default 80, a coefficient of variation of 5 % with 32,768 draws. */
  readonly variance?: number;
  /** Draws that are plain at first, and those of each round: whole blocks or an even part of one; default 2,048 and 1,024. */
  readonly pilotDraws?: number;
  readonly roundDraws?: number;
}

/** From where ten thousand plain draws count 100, on. */
const RISKS = [1e-2, 1e-3, 1e-4, 1e-5, 1e-6];
const VARIANCE = 80;
const PILOT_DRAWS = 2 * BLOCK;
const ROUND_DRAWS = BLOCK;
/** Draws of all rounds together: the demo needs six to eight thousand. */
const MOST_DRAWS = 8 * BLOCK;
const MOST_CENTRES = 24;
/** Share of the pilot's draws that is looked at: an output that has no value for so many has none for rare ones either. */
const LOOKED_AT = 0.02;
/** An event that stands for a rarer one is to be served so much better: draws are wanted beyond it. */
const ON_THE_WAY = 0.25;
/**
 * A centre that does not take so much off the variance which it was made for is none. Several for one event must take
 * more: halves of few draws serve those very draws well. At 0.5 and 0.8 the demo took up to 12 and 17 centres, not 8.
 */
const WORTH = 0.8;
const SPLIT_WORTH = 0.3;

/** The event that the mixture serves worst against its limit; undefined when all are served. */
function worstServed(
  bank: Bank,
  events: readonly RareEvent[],
  limitOf: (event: RareEvent) => number,
): RareEvent | undefined {
  let worst: RareEvent | undefined;
  let most = 1;
  for (const event of events) {
    const own = relativeVariance(bank, event, bank.mixture) / limitOf(event);
    if (own <= most) continue;
    most = own;
    worst = event;
  }
  return worst;
}

/** The points that serve an event best, few rather than many; none where none helps. */
function pointsFor(bank: Bank, event: RareEvent, limit: number): Float64Array[] {
  let least = relativeVariance(bank, event, bank.mixture);
  let best: Float64Array[] = [];
  for (const points of centresFor(bank, event)) {
    if (least <= limit || bank.points.length + points.length > MOST_CENTRES) break;
    const variance = relativeVariance(bank, event, mixtureWith(bank, points, event.draws));
    if (variance > (points.length === 1 ? WORTH : SPLIT_WORTH) * least) continue;
    least = variance;
    best = points;
  }
  return best;
}

/** Adds centres for the events that are served badly, the worst first. @returns whether any was added */
function addCentres(bank: Bank, events: readonly RareEvent[], variance: number): boolean {
  const before = bank.points.length;
  const limitOf = ({ isReached }: RareEvent): number => (isReached ? variance : ON_THE_WAY * variance);
  let left = events;
  for (;;) {
    const worst = worstServed(bank, left, limitOf);
    if (worst === undefined) return bank.points.length > before;
    const points = pointsFor(bank, worst, limitOf(worst));
    for (const point of points) addCentre(bank, point);
    if (points.length === 0) left = left.filter((event) => event !== worst);
  }
}

/** The fewest centres that serve as well: one that is left out gives its draws to the others. */
function worthKeeping(bank: Bank, events: readonly RareEvent[], variance: number): Float64Array[] {
  const most = (mixture: Mixture): number =>
    Math.max(...events.map((event) => relativeVariance(bank, event, mixture)));
  let kept = Array.from(bank.points.keys());
  let { mixture } = bank;
  let limit = Math.max(WORTH * variance, most(mixture));
  while (kept.length > 0) {
    const fewer = kept.map((c) => without(mixture, bank.densities[c]!));
    const variances = fewer.map(most);
    const least = Math.min(...variances);
    if (least > limit) break;
    const dropped = variances.indexOf(least);
    mixture = fewer[dropped]!;
    kept = kept.filter((_, k) => k !== dropped);
    limit = Math.max(WORTH * variance, least);
  }
  return kept.map((c) => bank.points[c]!);
}

/**
 * Finds where in normal space the rare events of a model lie: what any output exceeds in one draw of a hundred to one of
 * a million. Of plain draws, the pilot's, the largest are taken as the first events; a round of draws from the
 * mixture about their centres shows rarer ones, and so on until all are served as well as is asked for, or no centre
 * helps.
 *
 * Draws that gave the centres lie near one: none of them may count where it is asked what the mixture leads to. They
 * have streams of their own, `pilot/` and `centre/`.
 */
export function searchCentres(model: NormalModel, search: CentreSearch): Centres {
  const { seed, risks = RISKS, variance = VARIANCE } = search;
  const { pilotDraws = PILOT_DRAWS, roundDraws = ROUND_DRAWS } = search;
  if (model.directions.length === 0) return NO_CENTRES;
  const bank = createBank(model, pilotDraws + MOST_DRAWS);
  addRound(model, bank, seed, 'pilot/', pilotDraws);
  const rank = Math.max(2 * LEAST_EFFECTIVE, Math.floor(LOOKED_AT * bank.draws));
  const floors = bank.values.map((values) => values.slice(0, bank.draws).sort()[bank.draws - rank]!);
  for (let round = 0; ; round++) {
    const events = floors.flatMap((floor, output) =>
      floor === Number.POSITIVE_INFINITY ? [] : rareEvents(bank, output, risks, floor),
    );
    const isAdded = addCentres(bank, events, variance);
    const isDone = !isAdded && events.every(({ isReached }) => isReached);
    if (isDone || (round + 1) * roundDraws > MOST_DRAWS)
      return { points: worthKeeping(bank, events, variance) };
    addRound(model, bank, seed, `centre/${round}/`, roundDraws);
  }
}
