import {
  type Case,
  exactLawWords,
  inputsOf,
  LEARNED_VERSION,
  type LearnedFile,
  type LearnedInput,
  learnedTyre,
} from '@tubgap/casefile';
import { CAR_INPUTS, TYRE_INPUTS } from '@tubgap/core';
import type { Direction } from '@tubgap/simulation';
import {
  chainDiagnostics,
  chainsOf,
  type NormalSummary,
  normalSummary,
  numberSource,
  quantile,
  sampleQuantile,
  type UpdatedLaw,
} from '@tubgap/statistics';
import { INCH, type LengthUnits, type QuantityKind, usualUnit } from '@tubgap/units';
import type { CarHeights } from './car-heights.ts';
import type { CarSpace } from './car-space.ts';
import type { Believed } from './posterior.ts';
import { ofTheBuild, wholeCars } from './whole-car.ts';

/** How well the chains agree, over all coordinates. */
export interface Agreement {
  worstRHat: number;
  leastEffectiveDraws: number;
}

/** Chains that differ more than this have not arrived, Vehtari et al. (2021) advise 1.01; draws for a tail. */
const LARGEST_R_HAT = 1.03;
const FEWEST_EFFECTIVE = 200;

/** R-hat and effective draws of some numbers, each given by its chains: the worst of them. */
export function agreementAmong(numbers: Iterable<readonly Float64Array[]>): Agreement & { settled: boolean } {
  let worstRHat = 1;
  let leastEffectiveDraws = Number.POSITIVE_INFINITY;
  for (const chains of numbers) {
    const { rHat, bulk, tail } = chainDiagnostics(chains);
    worstRHat = Math.max(worstRHat, rHat);
    leastEffectiveDraws = Math.min(leastEffectiveDraws, bulk, tail);
  }
  const settled = worstRHat <= LARGEST_R_HAT && leastEffectiveDraws >= FEWEST_EFFECTIVE;
  return { worstRHat, leastEffectiveDraws, settled };
}

/** R-hat and effective draws of every coordinate, the worst of them. */
export const agreementOf = ({ posterior, space }: Believed): Agreement & { settled: boolean } =>
  agreementAmong(
    Array.from({ length: space.dimension }, (_, k) => chainsOf(posterior, (point) => point[k]!)),
  );

/** A coordinate has moved when its middle or its spread differs by this much from where it started. */
const MOVED_MIDDLE = 0.15;
const MOVED_SPREAD = 0.1;
/** So has one that hangs together this closely with another that moved. */
const TOGETHER = 0.25;

/** Whether draws of a coordinate say something else than its prior. */
export const hasMoved = (draws: Float64Array): boolean => {
  const sorted = draws.slice().sort();
  const middle = sampleQuantile(sorted, 0.5);
  const spread = (sampleQuantile(sorted, 0.84) - sampleQuantile(sorted, 0.16)) / 2;
  return Math.abs(middle) > MOVED_MIDDLE || Math.abs(spread - 1) > MOVED_SPREAD;
};

function correlation(a: Float64Array, b: Float64Array): number {
  const mean = (x: Float64Array): number => x.reduce((sum, value) => sum + value, 0) / x.length;
  const [ma, mb] = [mean(a), mean(b)];
  let ab = 0;
  let aa = 0;
  let bb = 0;
  for (let i = 0; i < a.length; i++) {
    ab += (a[i]! - ma) * (b[i]! - mb);
    aa += (a[i]! - ma) ** 2;
    bb += (b[i]! - mb) ** 2;
  }
  return ab / Math.sqrt(aa * bb);
}

/** What was learned in short, and how it was checked against the draws themselves. */
export interface LearnedSummary {
  /** Indices of the space's directions that moved. */
  moved: number[];
  summary: NormalSummary;
  /** Factor by which the spreads were widened, so that no quantile of the height comes out lower than the draws'. */
  widened: number;
  /** Required height in a middling run at some quantiles, m: of the draws, and of the summary. */
  check: { quantile: number; draws: number; summary: number }[];
}

const CHECKED = [0.5, 0.95, 0.99] as const;
/** Lower than the draws by more than this, m, and the summary is widened: half a sixteenth of an inch. */
const LOWER = INCH / 32;
const WIDER = 1.04;
const MOST_WIDENINGS = 12;

/** Points of the space as the summary has them: moved coordinates joined, the rest as the priors have them. */
function summaryPoints(
  { moved, summary }: Pick<LearnedSummary, 'moved' | 'summary'>,
  widened: number,
  dimension: number,
  count: number,
  seed: number,
): Float64Array[] {
  const { normal } = numberSource(seed, 'learn/summary');
  return Array.from({ length: count }, () => {
    const own = Float64Array.from({ length: dimension }, () => normal());
    const point = own.slice();
    moved.forEach((d, i) => {
      const z = summary.factor[i]!.reduce((sum, share, k) => sum + share * own[moved[k]!]!, 0);
      const { middle, below, above } = summary.coordinates[i]!;
      point[d] = middle + widened * (z < 0 ? below : above) * z;
    });
    return point;
  });
}

/** How draws are put in short. */
export interface InShort {
  /** What is left as the priors have it. */
  isAnew: (direction: Direction) => boolean;
  /** Inputs hang together among those of one block alone. */
  blockOf: (direction: Direction) => string;
}

const OF_ONE_CAR: InShort = { isAnew: ofTheBuild, blockOf: () => '' };

/** Several coordinates in short, those of one block joined and the blocks each by itself. */
function summaryOf(columns: readonly Float64Array[], blocks: readonly string[]): NormalSummary {
  const coordinates: NormalSummary['coordinates'] = [];
  const factor = columns.map(() => new Float64Array(columns.length));
  for (const name of new Set(blocks)) {
    const own = blocks.flatMap((block, i) => (block === name ? [i] : []));
    const found = normalSummary(own.map((i) => columns[i]!));
    own.forEach((i, row) => {
      coordinates[i] = found.coordinates[row]!;
      own.forEach((k, column) => {
        factor[i]![k] = found.factor[row]![column]!;
      });
    });
  }
  return { coordinates, factor };
}

/** What was put in short of some directions alone, which must hang together with no others. */
export function partOf(
  { moved, summary, ...rest }: LearnedSummary,
  isIn: (direction: number) => boolean,
): LearnedSummary {
  const own = moved.flatMap((d, i) => (isIn(d) ? [i] : []));
  return {
    ...rest,
    moved: own.map((i) => moved[i]!),
    summary: {
      coordinates: own.map((i) => summary.coordinates[i]!),
      factor: own.map((i) => Float64Array.from(own, (k) => summary.factor[i]![k]!)),
    },
  };
}

/** Puts the draws in short and holds the short form against them by the height that a middling run needs. */
export function summarise(
  believed: Believed,
  whole: CarSpace,
  heights: CarHeights,
  seed: number,
  { isAnew, blockOf }: InShort = OF_ONE_CAR,
): LearnedSummary {
  const { space, points } = believed;
  const columns = space.directions.map((_, d) => Float64Array.from(points, (point) => point[d]!));
  const blocks = space.directions.map(blockOf);
  const alone = columns.map((column, d) => !isAnew(space.directions[d]!) && hasMoved(column));
  const moved = columns.flatMap((column, d) => {
    const joined = columns.some(
      (other, k) =>
        k !== d && blocks[k] === blocks[d] && alone[k]! && Math.abs(correlation(column, other)) > TOGETHER,
    );
    return alone[d]! || (joined && !isAnew(space.directions[d]!)) ? [d] : [];
  });
  const summary = summaryOf(
    moved.map((d) => columns[d]!),
    moved.map((d) => blocks[d]!),
  );
  const count = points.length;
  const heightsOf = (cars: readonly Float64Array[]): Float64Array =>
    heights.middling(whole, wholeCars(whole, space, cars, seed, count, isAnew)).sort();
  const own = heightsOf(points);
  let widened = 1;
  for (let tries = 0; ; tries++) {
    const short = heightsOf(summaryPoints({ moved, summary }, widened, space.dimension, count, seed));
    const check = CHECKED.map((q) => ({
      quantile: q,
      draws: sampleQuantile(own, q),
      summary: sampleQuantile(short, q),
    }));
    const low = check.some((row) => row.quantile > 0.5 && row.summary < row.draws - LOWER);
    if (!low || tries === MOST_WIDENINGS) return { moved, summary, widened, check };
    widened *= WIDER;
  }
}

/** Where a file of measurements comes from, as a learned file keeps it. */
export type Origin = LearnedFile['evidence'][number];

/** '16.854 in (16.846 to 16.866)': median, and the range that holds nine in ten, with digits enough to tell them apart. */
export function lawRange(
  law: UpdatedLaw | UpdatedLaw['from'],
  kind: QuantityKind,
  units: LengthUnits,
): string {
  const unit = usualUnit(kind, units);
  const [low, middle, high] = [0.05, 0.5, 0.95].map(
    (u) => (quantile(law, u) - unit.offset) / unit.factor,
  ) as [number, number, number];
  const decimals = Math.max(0, Math.min(8, Math.ceil(-Math.log10((high - low) / 10))));
  const text = (value: number): string => value.toFixed(decimals);
  return `${`${text(middle)} ${unit.name}`.trim()} (${text(low)} to ${text(high)})`;
}

/** What was learned of a case's inputs, as files keep it. @param source  as it was before anything was learned */
export function learnedInputs(
  source: Case,
  space: CarSpace,
  { moved, summary, widened }: LearnedSummary,
): LearnedInput[] {
  return moved.map((d, i): LearnedInput => {
    const { group, index, tyre } = space.directions[d]!.targets[0]!;
    const which =
      group === 'car'
        ? { input: CAR_INPUTS[index]! }
        : { tyre: source.tyres[tyre]!.name, input: TYRE_INPUTS[index]! };
    const found = inputsOf(source, which);
    const { middle, below, above } = summary.coordinates[i]!;
    const [first] = found;
    const from = first!.input.law as UpdatedLaw['from'];
    const spread = { below: below * widened, above: above * widened };
    return {
      ...which,
      label: first!.input.label,
      startedFrom: found.map(({ class: of, input }) => ({
        ...(of === undefined ? {} : { class: of }),
        law: exactLawWords(input.law),
      })),
      before: lawRange(from, first!.input.kind, source.units),
      after: lawRange({ kind: 'updated', from, middle, ...spread }, first!.input.kind, source.units),
      middle: short(middle),
      spreadBelow: short(spread.below),
      spreadAbove: short(spread.above),
      together: Array.from(summary.factor[i]!.subarray(0, i + 1), short),
    };
  });
}

/** The learned file of a case. @param source  as it was before anything was learned */
export function learnedFile(
  source: Case,
  believed: Believed,
  summary: LearnedSummary,
  agreement: Agreement,
  evidence: readonly Origin[],
  madeBy: string,
  seed: number,
): LearnedFile {
  const { space, posterior } = believed;
  const spoken = (name: string): boolean =>
    believed.parts.some(({ streams }) => [...streams].some((stream) => stream.startsWith(`tyre/${name}/`)));
  return {
    format: 'tubgap learned',
    version: LEARNED_VERSION,
    caution:
      "Tyre contact at speed can kill. Holds for this car and these tyres only; the sanctioning body's rules, the tyre maker's limits and a qualified chassis builder come first.",
    madeBy,
    case: source.name,
    invented: source.invented,
    seed,
    evidence: [...evidence],
    sampling: {
      method: 'elliptical slice sampling about a fitted normal law',
      chains: posterior.chains.length,
      draws: posterior.draws,
      worstRHat: Number(agreement.worstRHat.toFixed(4)),
      leastEffectiveDraws: Math.round(agreement.leastEffectiveDraws),
      widened: Number(summary.widened.toFixed(4)),
    },
    tyres: source.tyres
      .filter(({ tyre }, i, all) => all.findIndex((other) => other.tyre === tyre) === i && spoken(tyre))
      .map(learnedTyre),
    inputs: learnedInputs(source, space, summary),
  };
}

/** A number of a file, with no more digits than say something. */
export const short = (value: number): number => Number(value.toPrecision(8));
