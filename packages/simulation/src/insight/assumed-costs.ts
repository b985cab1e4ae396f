import { type Case, everyInput, withInputs } from '@tubgap/casefile';
import { BLOCK, quantile } from '@tubgap/statistics';
import type { Centres } from '../importance/mixture.ts';
import { figuresNear } from '../study/study-near.ts';
import type { StudySetup } from '../study/study-point.ts';
import { openStudy, type PerformStudy } from '../study/study-tasks.ts';

/** Something that is assumed of a car and that one answer would tell. */
export interface AssumedItem {
  name: string;
  /** Places in the file of the inputs that it holds: 'suspension.wheelRate'. */
  inputs: readonly string[];
}

/** A choice that is assumed: what the case would be with each of the others. */
export interface AssumedChoice {
  name: string;
  /** The case's own tub among those of each; `chance` that it is so, all others and what is taken being 1 together. */
  others: readonly { source: Case; chance: number }[];
}

/**
 * What it costs that something is assumed: how the top height at the accepted run risk would change if it were known, m;
 * null where no height near the pick's does then: that car is one for another tub.
 */
export interface AssumedCost {
  name: string;
  /**
   * Known to lie where 1 in 20 lie below, in its middle, and where 1 in 20 lie above. Of a choice: at the least, as it is
   * taken, and at the most.
   */
  low: number | null;
  middle: number | null;
  high: number | null;
  /** How far an answer would move the height, on the average of the three, m; an answer without a height counts most. */
  moves: number;
}

/**
 * Three places that stand for a law, by the chance of what lies below, and the weight of each: means of smooth functions
 * come out within a few per cent. Source: D. L. Keefer and S. E. Bodily (1983), Management Science 29, 595–609 (from memory).
 */
const PLACES = [
  { end: 'low', below: 0.05, weight: 0.185 },
  { end: 'middle', below: 0.5, weight: 0.63 },
  { end: 'high', below: 0.95, weight: 0.185 },
] as const;

/**
 * So much above the pick a height is none of its tub any more, m: a leg that the tyre nears at its widest is passed only
 * inches higher, and the few draws of a cost cannot tell on which side of the accepted risk such runs are. It is what an
 * answer without a height counts as having moved, too.
 */
const NO_HEIGHT = 0.05;
/** Items of one study: with the base as many setups as one task takes. */
const ITEMS_A_STUDY = 3;
/** And where those do not tell the height that all is compared with. */
const PLAIN_RUNS = [4 * BLOCK, 16 * BLOCK] as const;
const WEIGHTED_BLOCKS = 8;

/**
 * A case with some inputs known: each at the place of its law below which a share of it lies, all at the same.
 * @param paths  of inputs; what the case does not have is passed over
 */
export const withKnown = (source: Case, paths: readonly string[], below: number): Case =>
  withInputs(source, (input) => {
    if (!paths.includes(input.path)) return input;
    const { follows: _, ...rest } = input;
    const value = Math.max(input.floor ?? Number.NEGATIVE_INFINITY, quantile(input.law, below));
    return { ...rest, law: { kind: 'constant', value } };
  });

/** Where the assumed stands: a tub, its pick, and the centres of the case's touches. */
export interface AssumedPlace {
  tub: number;
  /** m */
  topHeight: number;
  centres: Centres;
}

/** Who works out tasks of the study of some setups. */
export type PerformSetups = (setups: readonly StudySetup[]) => PerformStudy;

/**
 * What every assumed item of a case costs in one tub, by variants of the case on common draws: each item known at three
 * places of its law, all else as uncertain as it is. Heights are those of a sweep of the same, without steps. An item
 * without an input that is uncertain in the case is left out.
 * @param tell  told each cost as it is known
 */
export async function assumedCosts(
  source: Case,
  items: readonly AssumedItem[],
  place: AssumedPlace,
  perform: PerformSetups,
  tell: (cost: AssumedCost) => void,
): Promise<void> {
  const only: Case = { ...source, tubs: [source.tubs[place.tub]!] };
  const uncertain = new Set(
    everyInput(only).flatMap(({ law, path }) => (law.kind === 'constant' ? [] : [path])),
  );
  const open = items.filter(({ inputs }) => inputs.some((path) => uncertain.has(path)));
  for (let first = 0; first < open.length; first += ITEMS_A_STUDY) {
    const some = open.slice(first, first + ITEMS_A_STUDY);
    const setups = some.flatMap(({ name, inputs }) =>
      PLACES.map(({ end, below }) => ({ label: `${name}, ${end}`, source: withKnown(only, inputs, below) })),
    );
    const changes = await changesOf(only, setups, place, perform);
    if (changes === undefined) continue;
    some.forEach(({ name }, i) => {
      const moved = changes.slice(i * PLACES.length, (i + 1) * PLACES.length);
      const [low, middle, high] = moved as [number | null, number | null, number | null];
      const moves = movesOf(moved, (k) => PLACES[k]!.weight);
      tell({ name, low, middle, high, moves });
    });
  }
}

/** How far the height moves on the average, m. @param weight  of each of the changes */
const movesOf = (changes: readonly (number | null)[], weight: (k: number) => number): number =>
  changes.reduce<number>((sum, change, k) => sum + weight(k) * Math.abs(change ?? NO_HEIGHT), 0);

/**
 * What it costs that a choice is assumed in one tub, on the same draws: each of the other cases whole.
 * @returns undefined where there is no other, or no height at the accepted risk to begin with
 * @throws ModelRangeError when a draw of one of the cases leaves what the model knows
 */
export async function choiceCost(
  source: Case,
  { name, others }: AssumedChoice,
  place: AssumedPlace,
  perform: PerformSetups,
): Promise<AssumedCost | undefined> {
  if (others.length === 0) return undefined;
  const own = source.tubs[place.tub]!;
  const only = (one: Case): Case => ({ ...one, tubs: one.tubs.filter((tub) => tub.name === own.name) });
  const setups = others.map((other, k) => ({ label: `${name}, ${k + 1}`, source: only(other.source) }));
  const changes = await changesOf(only(source), setups, place, perform);
  if (changes === undefined) return undefined;
  const found = changes.filter((change) => change !== null);
  return {
    name,
    low: Math.min(0, ...found),
    middle: 0,
    high: found.length < changes.length ? null : Math.max(0, ...found),
    moves: movesOf(changes, (k) => others[k]!.chance),
  };
}

/** By how much the height of a case with one tub changes with each setup, m; null where there is none then. */
async function changesOf(
  only: Case,
  setups: readonly StudySetup[],
  { topHeight, centres }: Omit<AssumedPlace, 'tub'>,
  perform: PerformSetups,
): Promise<(number | null)[] | undefined> {
  const all = [{ label: only.name, source: only }, ...setups];
  const study = openStudy(all);
  for (const draws of PLAIN_RUNS) {
    const sample = { draws, weightedBlocks: WEIGHTED_BLOCKS, centres };
    const figures = await figuresNear(study, sample, topHeight, only.accept.runRisk, perform(all));
    const heights = figures.map((rows) => rows.at(-1)![0]!.even?.height);
    const changes = changesNear(heights, topHeight);
    if (changes !== undefined) return changes;
  }
  return undefined;
}

/**
 * What heights differ by from the first of them, m; null where one is none of the pick's tub.
 * @returns undefined where the first is none itself: then the few draws do not tell what a difference would be of
 */
export function changesNear(
  heights: readonly (number | undefined)[],
  topHeight: number,
): (number | null)[] | undefined {
  const [before, ...after] = heights.map((height) =>
    height === undefined || height > topHeight + NO_HEIGHT ? undefined : height,
  );
  return before === undefined
    ? undefined
    : after.map((height) => (height === undefined ? null : height - before));
}
