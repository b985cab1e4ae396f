import type { Case, Setting } from '@tubgap/casefile';
import type { StudyOf } from '@tubgap/results';
import {
  type CellFigures,
  caseSetup,
  openStudy,
  ROUND_BLOCKS,
  type StudySetup,
  weightedBlocks,
} from '@tubgap/simulation';
import { BLOCK } from '@tubgap/statistics';
import { readLength, wholeText } from '@tubgap/units';
import { coresText, durationText } from '../duration.ts';
import type { ReadCase } from '../options.ts';
import { compareSetups, type Effort, wholeHeights, withTubs } from './compare-setups.ts';
import { StudyFault } from './fault.ts';
import type { Mode } from './mode.ts';
import { newCautions } from './new-cautions.ts';
import { cellOf, chosenOf, commonOf, type StudyRuns } from './record.ts';
import { blocksBeside, blockTimes, studySeconds } from './study-time.ts';
import { type PointAt, pointCount, pointSetup, pointsOf } from './sweep-points.ts';
import { type VariedInput, variedInput } from './varied-input.ts';
import type { Vary } from './vary.ts';

/** Points of one sweep at most: run as a whole, and run in shards. */
const MOST_POINTS = 1000;
export const MOST_SHARD_POINTS = 10_000;
/** What one simulation answers for all its values: named in a sweep like an input, but nothing is run again for it. */
const TUB = 'tub';
const TYRE = 'tyre';
const TUBS = 'tubs';
const TOP_HEIGHT = 'topHeight';
export const FREE = [TUB, TYRE, TOP_HEIGHT];

/** A sweep as it was asked for. */
export interface SweepAsked {
  read: ReadCase;
  set: readonly Setting[];
  varies: readonly Vary[];
  mode: Mode;
}

/** Indices of the names asked for; all where nothing is asked. */
export function shownOf(names: readonly string[], vary: Vary | undefined, what: string): number[] {
  if (vary === undefined) return [...names.keys()];
  return vary.texts.map((name) => {
    const index = names.indexOf(name);
    if (index >= 0) return index;
    throw new StudyFault([`${vary.place}  the case has no ${what} "${name}"; it has ${names.join(', ')}.`]);
  });
}

function heightsOf(vary: Vary | undefined): number[] {
  return (vary?.texts ?? []).map((text) => {
    const height = readLength(text);
    if (height !== undefined && height > 0.3 && height < 3) return height;
    throw new StudyFault([
      `${vary!.place}  read "${text}"; a height above the track from 12 in to 118 in is needed, with its unit.`,
    ]);
  });
}

/**
 * The case with the tubs asked for: those that only its catalogue has stand behind its own.
 * @throws StudyFault when the catalogue has none of that name
 */
export function withAskedTubs(
  { read, set }: Pick<SweepAsked, 'read' | 'set'>,
  vary: Vary | undefined,
): { read: ReadCase; set: readonly Setting[] } {
  const known = new Set(read.source.tubs.map(({ name }) => name));
  const more = vary?.texts.filter((name) => !known.has(name)) ?? [];
  if (more.length === 0) return { read, set };
  const tubs: Setting = { path: TUBS, value: JSON.stringify([...known, ...more]) };
  const others = set.filter(({ path }) => path !== TUBS);
  const found = read.again([...others, tubs]);
  if (!found.ok) return { read, set };
  found.source.simulation = read.source.simulation;
  return { read: { ...read, source: found.source }, set: [...others, tubs] };
}

/** That as many values of every input are given where they go together. */
function asManyOfEach(mode: Mode, wanted: readonly Vary[]): void {
  const [first] = wanted;
  const other = wanted.find(({ texts }) => texts.length !== first!.texts.length);
  if (mode !== 'points' || other === undefined) return;
  throw new StudyFault([
    `${other.place}  has ${other.texts.length} values, ${first!.path} ${first!.texts.length}; points take one of each.`,
  ]);
}

/** That a place is asked for once, and a tub by its name. */
export function noneTwice(varies: readonly Vary[]): void {
  const twice = varies.find((vary, i) => varies.findIndex(({ path }) => path === vary.path) < i);
  if (twice !== undefined) throw new StudyFault([`${twice.place}  is varied twice; keep one of the two.`]);
  const tub = varies.find(({ path }) => path === TUBS || /^tubs\[[^\]]*\]$/.test(path));
  if (tub === undefined) return;
  throw new StudyFault([
    `${tub.place}  one run answers every tub: name them side by side, as in "tub = ${tub.texts.join(', ')}".`,
  ]);
}

/** Says of tyres whose class has a law of its own in place of the varied one. */
export function classNotes(source: Case, inputs: readonly VariedInput[]): string[] {
  const each = inputs.flatMap(({ inputs: all }) => all);
  return each.flatMap((input) => {
    const { label } = input;
    const name = Object.entries(source.car).find(([, own]) => own === input)?.[0];
    if (name === undefined) return [];
    return source.tyres.flatMap((tyre) => {
      const own = Object.entries(tyre.car ?? {}).find(([of]) => of === name)?.[1];
      return own === undefined || each.includes(own)
        ? []
        : [
            `${tyre.name} has a ${label} of its own (${own.path}), which stays; vary that as well to see it move.`,
          ];
    });
  });
}

/** Says that the axle's height is not that of another build tyre. */
export const buildNotes = (source: Case, inputs: readonly VariedInput[]): string[] =>
  caseSetup(source).axleHeight !== undefined &&
  inputs.some(({ settings }) => settings.some((some) => some.some(({ path }) => path === 'build.tyre')))
    ? [
        'build.axleHeight stays as the case has it with every build tyre; a tyre that stands otherwise moves the axle, so measure it with that one before you build.',
      ]
    : [];

/** A sweep made out: what is run, and what its record says of it before anything was run. */
export interface SweepPlan {
  /** The case as it stands, with all of its tubs and those asked for. */
  whole: Case;
  /** The same with the tubs asked for alone. */
  base: StudySetup;
  /** Which value of each input each further point has. */
  ats: PointAt[];
  inputs: VariedInput[];
  setupAt: (at: PointAt) => StudySetup;
  /** Further heights at which risks are compared, m. */
  heights: number[];
  /** The record of the sweep, given the top heights of the case as it stands and the runs of every point. */
  record: (own: readonly (number | undefined)[], sample: StudyRuns) => Omit<StudyOf<'sweep'>, 'points'>;
}

/**
 * Makes out a sweep.
 * @param most  points that it may have
 * @throws StudyFault when what is asked for cannot be
 */
export function planSweep(asked: SweepAsked, effort: Effort, most = MOST_POINTS): SweepPlan {
  const { varies, mode } = asked;
  noneTwice(varies);
  const free = (name: string): Vary | undefined => varies.find(({ path }) => path === name);
  const { read, set } = withAskedTubs(asked, free(TUB));
  const tubs = shownOf(
    read.source.tubs.map(({ name }) => name),
    free(TUB),
    'tub',
  );
  const names = tubs.map((t) => read.source.tubs[t]!.name);
  const source = withTubs(read.source, names);
  const tyres = shownOf(
    source.tyres.map(({ name }) => name),
    free(TYRE),
    'tyre',
  );
  const heights = heightsOf(free(TOP_HEIGHT));
  const wanted = varies.filter(({ path }) => !FREE.includes(path));
  asManyOfEach(mode, wanted);
  const count = pointCount(
    mode,
    wanted.map(({ texts }) => texts.length),
  );
  if (count > most) throw tooMany(asked, wanted, count, effort, most);

  const inputs = wanted.map((vary) => variedInput(read, set, vary));
  const ats = pointsOf(
    mode,
    inputs.map(({ texts }) => texts.length),
  );
  const values = inputs.flatMap(({ label, texts, sources }) =>
    sources.map((one, i) => ({ label: `${label} ${texts[i]!.replace(/^~\s*(?=.)/, '')}`, source: one })),
  );
  const notes = [
    ...classNotes(source, inputs),
    ...buildNotes(source, inputs),
    ...newCautions(source, values),
  ];
  return {
    whole: read.source,
    base: { label: 'the case as it stands', source },
    ats,
    inputs,
    setupAt: (at) => {
      const setup = pointSetup(read, set, inputs, at);
      return { ...setup, source: withTubs(setup.source, names) };
    },
    heights,
    record: (own, sample) => ({
      ...commonOf(
        { source, settings: set, sample, cars: effort.seasons ? source.simulation.cars : null, notes },
        own,
      ),
      kind: 'sweep',
      mode,
      varied: inputs.map(({ path, label, texts, values, unit, own: middle }) => ({
        path,
        label,
        texts,
        values,
        unit,
        own: middle,
      })),
      shown: { tyres, heights },
    }),
  };
}

/** One point as the record keeps it. */
export const pointRecord = (
  at: PointAt,
  { source }: StudySetup,
  { source: base }: StudySetup,
  figures: readonly (readonly CellFigures[])[],
): StudyOf<'sweep'>['points'][number] => ({
  at,
  chosen: chosenOf(source, wholeHeights(figures)),
  figures: figures.map((row) => row.map(cellOf)),
  ...namesOf(source, base),
});

/** Names of a point's tyres, where one was swapped. */
function namesOf(source: Case, base: Case): { tyres?: string[] } {
  const names = source.tyres.map(({ name }) => name);
  return names.every((name, i) => name === base.tyres[i]!.name) ? {} : { tyres: names };
}

/** Runs a sweep. @throws StudyFault when what is asked for cannot be; RangeError when the model does not know it */
export async function runSweep(asked: SweepAsked, effort: Effort): Promise<StudyOf<'sweep'>> {
  const plan = planSweep(asked, effort);
  const setups = [plan.base, ...plan.ats.map(plan.setupAt)];
  const { figures, base } = await compareSetups(plan.whole, setups, plan.heights, effort);
  return {
    ...plan.record(wholeHeights(figures[0]!), base),
    points: [plan.inputs.map(() => null), ...plan.ats].map((at, p) =>
      pointRecord(at, setups[p]!, plan.base, figures[p]!),
    ),
  };
}

/** That a sweep is too long, with what it would take and what would be short enough. */
function tooMany(
  { mode, read: { source } }: SweepAsked,
  wanted: readonly Vary[],
  count: number,
  { draws, workers, seasons }: Effort,
  most: number,
): StudyFault {
  const lengths = wanted.map(({ texts }) => texts.length);
  const alone = pointCount('one at a time', lengths);
  const times = blockTimes(openStudy([{ label: source.name, source }]));
  const runs = draws ?? ROUND_BLOCKS * BLOCK;
  const time = durationText(
    studySeconds(
      times,
      { draws: runs, weightedBlocks: weightedBlocks(source) },
      count,
      blocksBeside(source, seasons),
    ) / workers,
  );
  const shorter =
    mode === 'grid' && wanted.length > 1 && alone <= MOST_POINTS
      ? `, or vary one at a time (--mode one-at-a-time: ${alone} points)`
      : '';
  return new StudyFault([
    `${lengths.join(' x ')} values are ${wholeText(count)} points; ${wholeText(most)} are the most in one sweep${most < MOST_SHARD_POINTS ? ` (${wholeText(MOST_SHARD_POINTS)} in shards, see --shards)` : ''}.`,
    `They would take about ${time} on ${coresText(workers)}. Take larger steps${shorter}.`,
  ]);
}
