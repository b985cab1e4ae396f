import {
  type Case,
  COMMAND_LINE,
  type Issue,
  issueLines,
  labelAt,
  placeIn,
  readCaseText,
  type Setting,
  type UncertainInput,
} from '@tubgap/casefile';
import { middleValue, type StudySetup } from '@tubgap/simulation';
import { parseMeasure } from '@tubgap/units';
import type { ReadCase } from '../options.ts';
import { StudyFault } from './fault.ts';
import { fromSi, inUnit } from './measure.ts';
import type { Mode } from './mode.ts';
import type { Vary } from './vary.ts';

/** One input of a sweep with what its values mean. */
export interface VariedInput extends Vary {
  label: string;
  /** The settings that its values come to. */
  settings: readonly Setting[];
  /** The case with each of its values, all others its own. */
  sources: readonly Case[];
  values: number[] | null;
  unit: string;
  own: number | null;
  /** The case's input that it is, when it is one as a whole. */
  input: UncertainInput | undefined;
}

const allInputs = (source: Case): UncertainInput[] => [
  ...Object.values(source.car),
  ...source.tyres.flatMap(({ inputs, car }) => [...Object.values(inputs), ...Object.values(car ?? {})]),
];

/** Issues of a case with a value of the input in it: what is wrong with that is wrong at the option that gave it. */
const issuesAt = (issues: readonly Issue[], path: string, place: string): Issue[] =>
  issues.map((issue) =>
    issue.file === COMMAND_LINE && issue.path.startsWith(path)
      ? { ...issue, file: `${place}${issue.path.slice(path.length)}`, path: '' }
      : issue,
  );

type Place = readonly (string | number)[];

/** The place of a case that a path means: its parts, list entries by their position. */
function placeOf(text: string, path: string): Place {
  const read = readCaseText('case', text);
  const place = read.ok ? placeIn(read.value.raw, path) : [];
  return Array.isArray(place) ? place : [];
}

/** The same as issues and inputs write it: 'tyres[0].coldPressure'. */
const placeText = (place: Place): string =>
  place.reduce<string>((sum, part) => {
    if (typeof part === 'number') return `${sum}[${part}]`;
    return sum === '' ? part : `${sum}.${part}`;
  }, '');

/** What is varied, in words, with the tyre that it belongs to. */
function labelOf(source: Case, place: Place, path: string, input: UncertainInput | undefined): string {
  const label = input?.label ?? labelAt(place) ?? path;
  const tyre = place[0] === 'tyres' && typeof place[1] === 'number' ? source.tyres[place[1]] : undefined;
  return tyre === undefined || label === path ? label : `${label}, ${tyre.name}`;
}

/** What stands at a place of the case file itself. */
function writtenAt(text: string, path: string): string | undefined {
  const read = readCaseText('case', text);
  if (!read.ok) return undefined;
  const place = placeIn(read.value.raw, path);
  if (!Array.isArray(place)) return undefined;
  return read.value.placeOf(place).read;
}

/**
 * What the values of a varied input mean in a case. A plain number moves the middle of the law that stands there, so
 * that its spread stays; where no law stands, and for anything else that is written, the value itself is put there.
 * @throws StudyFault with everything that is wrong with its values
 */
export function variedInput(
  { text, source, again }: ReadCase,
  set: readonly Setting[],
  vary: Vary,
): VariedInput {
  const { path, texts, place } = vary;
  const measures = texts.map((value) => parseMeasure(value.replace(/^~\s*/, '')));
  const numbers = measures.every((measure) => measure !== undefined);
  const as = (moved: boolean): Setting[] =>
    texts.map((value) => ({
      path,
      value: moved && parseMeasure(value) !== undefined ? `~${value}` : value,
    }));
  const tried = (
    settings: readonly Setting[],
  ): { settings: readonly Setting[]; faults: string[]; sources: Case[] } => {
    const found = settings.map((setting) => again([...set, setting]));
    const faults = found.flatMap((one) => (one.ok ? [] : issueLines(issuesAt(one.issues, path, place))));
    return {
      settings,
      faults: [...new Set(faults)],
      sources: found.flatMap((one) => (one.ok ? [one.source] : [])),
    };
  };
  const moved = tried(as(true));
  const taken = moved.faults.length === 0 ? moved : tried(as(false));
  if (taken.faults.length > 0) throw new StudyFault(taken.faults);
  // Some values can be the middle of the law that stands here, so all must be.
  if (taken !== moved && moved.sources.length > 0) throw new StudyFault(moved.faults);
  const own = placeOf(text, path);
  const input = allInputs(source).find((one) => one.path === placeText(own));
  const unit = numbers ? measures[0]!.unit : '';
  const values = numbers ? measures.map((measure) => inUnit(measure!, unit)) : [];
  const written = input === undefined ? writtenAt(text, path) : undefined;
  const measured = written === undefined ? undefined : parseMeasure(written);
  const middle =
    input === undefined ? measured && inUnit(measured, unit) : fromSi(middleValue(input), input.kind, unit);
  return {
    ...vary,
    label: labelOf(source, own, path, input),
    settings: taken.settings,
    sources: taken.sources,
    values: numbers && values.every((value) => value !== undefined) ? (values as number[]) : null,
    unit,
    own: numbers ? (middle ?? null) : null,
    input,
  };
}

/** Which value of each input a point has; null: the case's own. */
export type PointAt = (number | null)[];

/** Number of points of a sweep, the case as it stands not counted. */
export const pointCount = (mode: Mode, lengths: readonly number[]): number =>
  mode === 'grid' ? lengths.reduce((product, n) => product * n, 1) : lengths.reduce((sum, n) => sum + n, 0);

/** The points of a sweep: every combination, the last input changing fastest, or each input alone. */
export function pointsOf(mode: Mode, lengths: readonly number[]): PointAt[] {
  if (lengths.length === 0) return [];
  if (mode === 'one at a time') {
    return lengths.flatMap((n, input) =>
      Array.from({ length: n }, (_, value) => lengths.map((_n, i) => (i === input ? value : null))),
    );
  }
  return lengths.reduce<PointAt[]>(
    (points, n) => points.flatMap((at) => Array.from({ length: n }, (_, value) => [...at, value])),
    [[]],
  );
}

/** The setup of a point. @throws StudyFault when its values do not go together */
export function pointSetup(
  { again }: ReadCase,
  set: readonly Setting[],
  inputs: readonly VariedInput[],
  at: PointAt,
): StudySetup {
  const settings = inputs.flatMap(({ settings: own }, i) => {
    const value = at[i];
    return value === null || value === undefined ? [] : [own[value]!];
  });
  const label = settings.map(({ path, value }) => `${path} = ${value}`).join(', ');
  const opened = again([...set, ...settings]);
  if (!opened.ok) throw new StudyFault([`With ${label}:`, ...opened.lines]);
  return { label: label === '' ? 'the case as it stands' : label, source: opened.source };
}
