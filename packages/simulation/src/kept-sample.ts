import { countSuffices } from '@tubgap/statistics';
import { type CountedSteps, type TubRisks, tubRisks, type WeighedSteps } from './case-risks.ts';
import type { WeightedTally } from './importance/weighted-tally.ts';
import type { NamedRuns } from './replay/named-runs.ts';
import { HEIGHT_STEPS, type Tally } from './tally.ts';
import type { Findings } from './tasks.ts';

/** What one tub has of a sample, by the number of the lowest heights that an event touches at. */
export interface KeptSteps {
  /** Rising; heights at which no event stops touching are left out. */
  steps: number[];
  /** Plain events at each of the steps. */
  all: number[];
  /**
   * At the last of the steps, those above which too few plain events are left for the count alone: of them those where
   * the mixture of the weighted ones does not lead to, and the sums over the weighted ones that may speak.
   */
  unseen: number[];
  weight: number[];
  square: number[];
}

export interface KeptTub {
  /** m */
  lowest: number;
  legTouches: number;
  touch: KeptSteps;
  contact: KeptSteps;
}

/** Events of one tyre, or seasons. */
export interface KeptTally {
  events: number;
  /** 0: there are none. */
  weightedEvents: number;
  hardTouches: number[];
  tubs: KeptTub[];
}

/** All that the risks of a pick follow from, small enough to be carried about; lengths in m. */
export interface KeptSample {
  tyres: KeptTally[];
  seasons: KeptTally;
  /** [tyre][tub] */
  named: NamedRuns[][];
}

type Sums = Readonly<{ weight: ArrayLike<number>; square: ArrayLike<number> }>;

function keptSteps(all: ArrayLike<number>, unseen: ArrayLike<number>, seen: Sums | undefined): KeptSteps {
  // Risk adds up from the top down, and where the count suffices it asks for nothing beside it.
  let rare = HEIGHT_STEPS;
  let touches = all[rare]!;
  while (rare > 0 && !countSuffices(touches)) touches += all[--rare]!;
  const kept: KeptSteps = { steps: [], all: [], unseen: [], weight: [], square: [] };
  for (let n = 0; n <= HEIGHT_STEPS; n++) {
    const isRare = n > rare;
    const weight = isRare ? (seen?.weight[n] ?? 0) : 0;
    if (all[n] === 0 && weight === 0) continue;
    kept.steps.push(n);
    kept.all.push(all[n]!);
    if (!isRare) continue;
    kept.unseen.push(unseen[n]!);
    kept.weight.push(weight);
    kept.square.push(seen?.square[n] ?? 0);
  }
  return kept;
}

const keptTally = (tally: Tally, unseen: Tally, weighted: WeightedTally | undefined): KeptTally => ({
  events: tally.events,
  weightedEvents: weighted?.events ?? 0,
  hardTouches: tally.hardTouches,
  tubs: tally.tubs.map((tub, t) => ({
    lowest: tub.lowest,
    legTouches: tub.legTouches,
    touch: keptSteps(tub.steps, unseen.tubs[t]!.steps, weighted?.tubs[t]?.steps.seen),
    contact: keptSteps(tub.contactSteps, unseen.tubs[t]!.contactSteps, weighted?.tubs[t]?.contact.seen),
  })),
});

/** What is kept of a case's findings. @param named  runs that stand for many, [tyre][tub] */
export function keepSample(found: Findings, named: NamedRuns[][]): KeptSample {
  const { runs, tail, seasons, unseenSeasons, tailSeasons } = found;
  return {
    tyres: runs.tyres.map((tally, i) => keptTally(tally, runs.unseen.tyres[i]!, tail.tyres[i])),
    seasons: keptTally(seasons, unseenSeasons, tailSeasons),
    named,
  };
}

/** A kept list as the whole one: the numbers of the last of its steps. */
function spread({ steps }: KeptSteps, values: readonly number[]): Float64Array {
  const whole = new Float64Array(HEIGHT_STEPS + 1);
  const first = steps.length - values.length;
  values.forEach((value, k) => {
    whole[steps[first + k]!] = value;
  });
  return whole;
}

/** One tub of a kept tally. */
export interface OpenTally {
  tally: Tally;
  unseen: CountedSteps;
  /** Undefined where nothing was weighed. */
  weighted: WeighedSteps | undefined;
}

/** One tub of a kept tally, to be asked for its risks. Counts in it are those of the pick, to the last bit. */
export function openKept({ events, weightedEvents, hardTouches, tubs }: KeptTally, tub: number): OpenTally {
  const { lowest, legTouches, touch, contact } = tubs[tub]!;
  const counts = (of: 'all' | 'unseen') => ({
    lowest,
    legTouches,
    steps: spread(touch, touch[of]),
    contactSteps: spread(contact, contact[of]),
  });
  const seen = (kept: KeptSteps) => ({
    seen: { weight: spread(kept, kept.weight), square: spread(kept, kept.square) },
  });
  return {
    tally: { events, hardTouches, tubs: [counts('all')] },
    unseen: { events, tubs: [counts('unseen')] },
    weighted:
      weightedEvents === 0
        ? undefined
        : { events: weightedEvents, tubs: [{ steps: seen(touch), contact: seen(contact) }] },
  };
}

/** Risks by height of one tub of a kept tally. */
export const keptRisks = ({ tally, unseen, weighted }: OpenTally): TubRisks =>
  tubRisks(tally, unseen, weighted)[0]!;
