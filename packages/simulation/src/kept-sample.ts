import { countSuffices, weightsSuffice } from '@tubgap/statistics';
import { type CountedSteps, type TubRisks, tubRisks, type WeighedSteps } from './case-risks.ts';
import type { WeightedTally } from './importance/weighted-tally.ts';
import type { NamedRuns } from './replay/named-runs.ts';
import { HEIGHT_STEPS, type Tally } from './tally.ts';
import type { Findings } from './tasks.ts';

/** What one tub has of a sample, by the number of the lowest heights that an event touches at. */
export interface KeptSteps {
  /** Rising; those at which nothing is kept are left out. */
  steps: number[];
  /** Plain events at each of the steps. */
  all: number[];
  /**
   * From an index of the steps on, where the count alone does not suffice and weights may speak: of the plain events
   * those where the mixture does not lead to, and sums over the weighted ones. The last holds all above it as well.
   */
  from: number;
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
  // Risk adds up from the top down. What it asks for nothing beside the count for, few weights or many counts, is left out.
  const weighed = { unseen: 0, weight: 0, square: 0 };
  let top = HEIGHT_STEPS + 1;
  while (top > 1 && !weightsSuffice(weighed.weight, weighed.square)) {
    top--;
    weighed.unseen += unseen[top]!;
    weighed.weight += seen?.weight[top] ?? 0;
    weighed.square += seen?.square[top] ?? 0;
  }
  let rare = HEIGHT_STEPS;
  let touches = all[rare]!;
  while (rare > 0 && !countSuffices(touches)) touches += all[--rare]!;
  const kept: KeptSteps = { steps: [], all: [], from: 0, unseen: [], weight: [], square: [] };
  for (let n = 0; n <= HEIGHT_STEPS; n++) {
    const isWeighed = n > rare && n <= top && seen !== undefined;
    if (!isWeighed && all[n] === 0) continue;
    if (isWeighed) {
      if (kept.unseen.length === 0) kept.from = kept.steps.length;
      const last = n === top;
      kept.unseen.push(last ? weighed.unseen : unseen[n]!);
      kept.weight.push(last ? weighed.weight : seen.weight[n]!);
      kept.square.push(last ? weighed.square : seen.square[n]!);
    }
    kept.steps.push(n);
    kept.all.push(all[n]!);
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
  const { runs, tail, seasons, unseenSeasons, mixtureSeasons } = found;
  return {
    tyres: runs.tyres.map((tally, i) => keptTally(tally, runs.unseen.tyres[i]!, tail.tyres[i])),
    seasons: keptTally(seasons, unseenSeasons, mixtureSeasons),
    named,
  };
}

/** A kept list as the whole one: its first number is of the step of that index. */
function spread({ steps }: KeptSteps, values: readonly number[], from: number): Float64Array {
  const whole = new Float64Array(HEIGHT_STEPS + 1);
  values.forEach((value, k) => {
    whole[steps[from + k]!] = value;
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
  const counts = (of: (kept: KeptSteps) => Float64Array) => ({
    lowest,
    legTouches,
    steps: of(touch),
    contactSteps: of(contact),
  });
  const seen = (kept: KeptSteps) => ({
    seen: {
      weight: spread(kept, kept.weight, kept.from),
      square: spread(kept, kept.square, kept.from),
    },
  });
  return {
    tally: { events, hardTouches, tubs: [counts((kept) => spread(kept, kept.all, 0))] },
    unseen: { events, tubs: [counts((kept) => spread(kept, kept.unseen, kept.from))] },
    weighted:
      weightedEvents === 0
        ? undefined
        : { events: weightedEvents, tubs: [{ steps: seen(touch), contact: seen(contact) }] },
  };
}

/** Risks by height of one tub of a kept tally. */
export const keptRisks = ({ tally, unseen, weighted }: OpenTally): TubRisks =>
  tubRisks(tally, unseen, weighted)[0]!;
