import type { UncertainInput } from '@tubgap/casefile';
import {
  BLOCK,
  normalCumulative,
  normalQuantile,
  type SobolIndices,
  sobolIndices,
  tailInfluence,
} from '@tubgap/statistics';
import type { Centres } from '../importance/mixture.ts';
import { drawMixture } from '../importance/mixture.ts';
import { normalSpace, setDirection, targetOf } from '../importance/normal-space.ts';
import { partsOf, type Response, tyreResponse } from '../importance/response.ts';
import { createBlockRoom, drawBlock } from '../run-risk.ts';
import { type CaseSetup, isBernoulli } from '../setup.ts';

/** A figure with its 95 % interval. */
export interface Span {
  value: number;
  low: number;
  high: number;
}

/** What one input, or a group of them, has to do with the height needed and with touching. */
export interface Driver {
  tyre: string;
  label: string;
  group: string;
  /** Share of the variance of the required height: from it alone, and with all its interactions. */
  first: Span;
  total: Span;
  /** Kolmogorov distance between its law among touching runs and its law in general, 0 to 1. */
  tail: Span;
}

export interface DriverGroup {
  group: string;
  first: Span;
  total: Span;
}

export interface Drivers {
  drivers: Driver[];
  groups: DriverGroup[];
  /**
   * What to learn next, the most telling first: the first-order share of each input that somebody can measure. What is
   * fixed for the car is measured once; what is new every run is learned of logged runs.
   */
  measureNext: { label: string; each: 'car' | 'run'; share: number }[];
}

const POINTS = 256;
const REPEATS = 4;
const TAIL_BLOCKS = 16;
/** Heights beyond this above the pick count as this, m: past it a run touches, by how much says nothing. */
const BEYOND = 0.05;

const GROUPS = ['tyre', 'car', 'builder', 'day'] as const;

/** Sets chosen inputs of a response from probabilities, the others staying in the middle, and reads the heights. */
function modelOf(setup: CaseSetup, parts: readonly number[], response: Response, highest: number) {
  const space = normalSpace(setup);
  const normals = new Float64Array(BLOCK);
  return (u: Float64Array, n: number, out: Float64Array): void => {
    const d = parts.length;
    for (let from = 0; from < n; from += BLOCK) {
      const count = Math.min(BLOCK, n - from);
      parts.forEach((part, k) => {
        for (let i = 0; i < count; i++) normals[i] = normalQuantile(u[(from + i) * d + k]!);
        setDirection(space.directions[part]!, normals, count, response.columns);
      });
      const heights = response.evaluate(count);
      for (let i = 0; i < count; i++) out[from + i] = Math.min(highest, heights[i]!);
    }
  };
}

/**
 * What drives the height that a tyre needs in a tub, and what touching runs have in common at a height.
 * First-order and total indices speak of the whole spread of the required height. Of the touch itself such indices say
 * little when it is rare (nearly all of its variance is interaction), so a regional measure stands beside them: how far
 * the input's law among touching runs is from its law in general.
 * @param topHeight  m
 */
export function findDrivers(
  setup: CaseSetup,
  centres: Centres,
  seed: number,
  tyre: number,
  tub: number,
  topHeight: number,
): Drivers {
  const space = normalSpace(setup);
  const parts = partsOf(setup, space, tyre);
  const highest = topHeight + BEYOND;
  const partOf = (part: number) => targetOf(setup, space.directions[part]!, tyre)!;
  const inputOf = (part: number) => partOf(part).input;
  const run = (chosen: readonly number[], name: string, groups?: number[][]) =>
    sobolIndices(modelOf(setup, chosen, tyreResponse(setup, tyre, tub), highest), chosen.length, {
      seed: `${seed} ${name}`,
      points: POINTS,
      repeats: REPEATS,
      ...(groups === undefined ? {} : { groups }),
    });
  const whole = run(parts, 'drivers');
  const present = GROUPS.filter((group) => parts.some((part) => inputOf(part).group === group));
  const members = present.map((group) =>
    parts.flatMap((part, k) => (inputOf(part).group === group ? [k] : [])),
  );
  const grouped = run(parts, 'groups', members);
  const tails = tailDistances(setup, centres, seed, tyre, tub, topHeight, parts);
  const drivers = parts.map((part, k) => ({
    tyre: partOf(part).group === 'tyre' ? setup.tyres[partOf(part).tyre]!.name : '',
    label: inputOf(part).label,
    group: inputOf(part).group,
    first: indexOf(whole, k, 'first'),
    total: indexOf(whole, k, 'total'),
    tail: tails[k]!,
  }));
  // How well the tub will be set shows when it stands, and a toss is nobody's to measure.
  const isMeasured = (input: UncertainInput) =>
    input.group !== 'builder' && !isBernoulli(setup.tyres[tyre]!, input);
  return {
    drivers,
    groups: present.map((group, g) => ({
      group,
      first: indexOf(grouped, g, 'first'),
      total: indexOf(grouped, g, 'total'),
    })),
    measureNext: parts
      .map(inputOf)
      .flatMap((input, k) => {
        const share = Math.min(1, Math.max(0, drivers[k]!.first.value));
        return isMeasured(input) ? [{ label: input.label, each: input.each, share }] : [];
      })
      .sort((a, b) => b.share - a.share),
  };
}

/** One index of a group; 0 where all heights are equal and an index means nothing. */
function indexOf(found: SobolIndices | undefined, group: number, order: 'first' | 'total'): Span {
  return found?.groups[group]?.[order] ?? { value: 0, low: 0, high: 0 };
}

/** Distance of each input's law among touching runs from its law in general, from weighted draws. */
function tailDistances(
  setup: CaseSetup,
  centres: Centres,
  seed: number,
  tyre: number,
  tub: number,
  topHeight: number,
  parts: readonly number[],
): Span[] {
  const space = normalSpace(setup);
  const room = createBlockRoom(setup);
  const response = tyreResponse(setup, tyre, tub);
  const weights = new Float64Array(BLOCK);
  const touching: number[] = [];
  const places = parts.map((): number[] => []);
  drawBlock(setup, seed, 0, BLOCK, room);
  for (let block = 0; block < TAIL_BLOCKS; block++) {
    const normals = drawMixture(
      space,
      centres,
      () => true,
      seed,
      'tail/',
      block,
      BLOCK,
      { ...room, columns: response.columns },
      weights,
    );
    const heights = response.evaluate(BLOCK);
    for (let i = 0; i < BLOCK; i++) {
      if (!(heights[i]! > topHeight)) continue;
      touching.push(weights[i]!);
      parts.forEach((part, k) => {
        places[k]!.push(normalCumulative(normals[part]![i]!));
      });
    }
  }
  if (touching.length === 0) return parts.map(() => ({ value: 0, low: 0, high: 0 }));
  const weight = Float64Array.from(touching);
  const sum = touching.reduce((a, b) => a + b, 0);
  const effective = (sum * sum) / touching.reduce((a, b) => a + b * b, 0);
  // Half a standard error of a distribution function at its middle is the widest; 1.96 of them either side.
  const half = (1.96 * 0.5) / Math.sqrt(effective);
  return places.map((list) => {
    const { distance } = tailInfluence(Float64Array.from(list), weight);
    return { value: distance, low: Math.max(0, distance - half), high: Math.min(1, distance + half) };
  });
}
