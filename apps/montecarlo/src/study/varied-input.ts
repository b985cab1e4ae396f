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
import { middleValue } from '@tubgap/simulation';
import { type Measure, parseMeasure } from '@tubgap/units';
import type { ReadCase } from '../options.ts';
import { AS_IN_CASE, areChanges, changedText } from './change.ts';
import { StudyFault } from './fault.ts';
import { linkedPaths } from './linked.ts';
import { fromSi, inUnit } from './measure.ts';
import { isTyreName, swapSettings, swapsFirst } from './swap.ts';
import type { Vary } from './vary.ts';

/** One input of a sweep, or several that move together, with what its values mean. */
export interface VariedInput extends Vary {
  label: string;
  /** The settings that each of its values comes to. */
  settings: readonly (readonly Setting[])[];
  /** The case with each of its values, all others its own. */
  sources: readonly Case[];
  /** As numbers of `unit`, changes as changes. */
  values: number[] | null;
  unit: string;
  /** The case's own value in that unit; of changes 0; null where it is not known or differs between linked inputs. */
  own: number | null;
  /** The case's inputs that it is, as far as it is inputs as wholes. */
  inputs: readonly UncertainInput[];
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
  if (isTyreName(place)) return `tyre in place of ${source.tyres[place[1] as number]!.name}`;
  if (placeText(place) === 'build.tyre') return 'build tyre';
  const tyre = place[0] === 'tyres' && typeof place[1] === 'number' ? source.tyres[place[1]] : undefined;
  return tyre === undefined || label === path ? label : `${label}, ${tyre.name}`;
}

/** What stands at a place of the case: as a setting gives it, else as the file has it. */
function writtenAt(text: string, set: readonly Setting[], place: Place): string | undefined {
  const given = set.findLast(({ path }) => placeText(placeOf(text, path)) === placeText(place));
  if (given !== undefined) return given.value.replace(/^~\s*/, '');
  const read = readCaseText('case', text);
  return read.ok && place.length > 0 ? read.value.placeOf(place).read : undefined;
}

/** One of the places that a varied input moves. */
interface Moved {
  path: string;
  place: Place;
  input: UncertainInput | undefined;
  written: Measure | undefined;
  /** What each value comes to there; none: nothing is changed. */
  settings: readonly (readonly Setting[])[];
  sources: readonly Case[];
}

/**
 * What values mean at one place. A plain number moves the middle of the law that stands there, so that its spread stays;
 * where no law stands, and for anything else that is written, the value itself is put there.
 * @throws StudyFault with everything that is wrong with its values
 */
function movedAt(
  { text, source, again }: ReadCase,
  set: readonly Setting[],
  path: string,
  texts: readonly string[],
  changes: boolean,
  place: string,
): Moved {
  const own = placeOf(text, path);
  const input = allInputs(source).find((one) => one.path === placeText(own));
  const standing = writtenAt(text, set, own);
  const written = standing === undefined ? undefined : parseMeasure(standing);
  const values = texts.map((value) => {
    if (value === AS_IN_CASE) return undefined;
    return changes ? changedText(value, { path, input, written }, place) : value;
  });
  const as = (moved: boolean): Setting[][] =>
    values.map((value) => {
      if (value === undefined) return [];
      if (isTyreName(own)) return swapSettings(text, own[1] as number, value, place);
      return [{ path, value: moved && parseMeasure(value) !== undefined ? `~${value}` : value }];
    });
  const tried = (settings: readonly Setting[][]) => {
    const found = settings.map((some) => again(swapsFirst([...set, ...some])));
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
  if (taken !== moved && moved.sources.length > values.filter((value) => value === undefined).length) {
    throw new StudyFault(moved.faults);
  }
  return { path, place: own, input, written, settings: taken.settings, sources: taken.sources };
}

/** What several places that move together are called. */
function linkedLabel(source: Case, path: string, moved: readonly Moved[]): string {
  const names = moved.map(({ place, path: one, input }) => labelOf(source, place, one, input));
  const bare = moved.map(({ place, path: one, input }) => input?.label ?? labelAt(place) ?? one);
  return path.startsWith('tyres[*]') && new Set(bare).size === 1
    ? `${bare[0]}, every tyre`
    : names.join(' and ');
}

/** The case's own value of an input in a unit. */
const ownIn = ({ input, written }: Moved, unit: string): number | undefined =>
  input === undefined ? written && inUnit(written, unit) : fromSi(middleValue(input), input.kind, unit);

/**
 * What the values of an entry of a sweep mean in a case, at each of the places that it moves.
 * @throws StudyFault with everything that is wrong with its values
 */
export function variedInput(read: ReadCase, set: readonly Setting[], vary: Vary): VariedInput {
  const { path, texts, place } = vary;
  const changes = areChanges(texts, place);
  const paths = linkedPaths(read.text, path, place);
  const moved = paths.map((one) =>
    movedAt(read, set, one, texts, changes, paths.length > 1 ? `${place} (${one})` : place),
  );
  const settings = texts.map((_, v) => moved.flatMap(({ settings: own }) => own[v]!));
  const measures = texts.flatMap((text) =>
    text === AS_IN_CASE ? [] : [parseMeasure(text.replace(/^~\s*/, ''))],
  );
  const numbers = measures.length > 0 && measures.every((measure) => measure !== undefined);
  const unit = numbers ? measures[0]!.unit : '';
  const owns = numbers && !changes ? moved.map((one) => ownIn(one, unit)) : [];
  const same = owns.every((one) => one === owns[0]) ? (owns[0] ?? null) : null;
  const own = numbers && changes ? 0 : same;
  const values = texts.map((text) =>
    text === AS_IN_CASE
      ? (own ?? undefined)
      : numbers
        ? inUnit(parseMeasure(text.replace(/^~\s*/, ''))!, unit)
        : undefined,
  );
  const label = linkedLabel(read.source, path, moved);
  return {
    ...vary,
    label: changes ? `change of ${label}` : label,
    settings,
    sources:
      moved.length === 1 ? moved[0]!.sources : settings.map((some) => openedWith(read, set, some, place)),
    values: numbers && values.every((value) => value !== undefined) ? (values as number[]) : null,
    unit,
    own,
    inputs: moved.flatMap(({ input }) => input ?? []),
  };
}

/** The case with linked values. @throws StudyFault when they do not go together */
function openedWith(
  { again }: ReadCase,
  set: readonly Setting[],
  some: readonly Setting[],
  place: string,
): Case {
  const found = again(swapsFirst([...set, ...some]));
  if (found.ok) return found.source;
  throw new StudyFault([`${place}  together:`, ...found.lines]);
}
