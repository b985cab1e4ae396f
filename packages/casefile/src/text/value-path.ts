import type { Problem } from '../issue.ts';
import { didYouMean, nameList } from '../nearest-name.ts';
import { tyreInClass } from '../parts/class-name.ts';
import { type Path, pathText } from './node-place.ts';

type Group = Record<string, unknown>;
const isGroup = (value: unknown): value is Group =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** What stands in a group or a list; nothing of what the language adds to them. */
function inside(raw: unknown, part: string | number): unknown {
  if (typeof raw !== 'object' || raw === null || !Object.hasOwn(raw, part)) return undefined;
  return (raw as Record<string | number, unknown>)[part];
}

const WHOLE_PATH = /^[^.[\]]+(\.[^.[\]]+|\[[^[\]]+\])*$/;
const PATH_PART = /\[([^[\]]+)\]|[^.[\]]+/g;

/** Name of a list's entry: it is one, or holds one; a tyre's goes with its class. */
export function entryName(entry: unknown): string | undefined {
  const name = isGroup(entry) ? (entry.tyre ?? entry.tub ?? entry.name) : entry;
  const its = isGroup(entry) ? inside(entry.class, 'name') : undefined;
  const ofClass = typeof its === 'string' || typeof its === 'number' ? String(its) : undefined;
  return typeof name === 'string' || typeof name === 'number'
    ? tyreInClass(String(name), ofClass)
    : undefined;
}

/** Position in a list by number or, where the list has no such position, by name. */
function positionIn(list: readonly unknown[], text: string): number | Problem {
  const names = list.map(entryName);
  const position = /^\d+$/.test(text) && Number(text) < list.length ? Number(text) : names.indexOf(text);
  if (position >= 0) return position;
  const known = names.filter((name) => name !== undefined);
  const hint = didYouMean(text, known);
  const allowed = nameList([...list.keys()].map((index) => names[index] ?? String(index)));
  return {
    code: 'unknown-name',
    reason: `the list has no entry ${text}; it has ${allowed || 'none'}`,
    allowed,
    ...(hint ? { hint } : {}),
  };
}

/** The place that a path as text means in a file's plain values. */
export function placeIn(raw: unknown, text: string): Path | Problem {
  if (!WHOLE_PATH.test(text)) {
    const hint = 'Write it as messages do: run.trapSpeed or tyres[0].coldPressure';
    return { code: 'syntax', reason: 'this is no place of a case', hint };
  }
  const path: (string | number)[] = [];
  let here = raw;
  for (const [part, inBrackets] of text.matchAll(PATH_PART)) {
    if (inBrackets === undefined) {
      path.push(part);
      here = inside(here, part);
      continue;
    }
    if (!Array.isArray(here)) {
      return { code: 'unknown-name', reason: `${pathText(path)} is no list in this file` };
    }
    const position = positionIn(here, inBrackets.trim());
    if (typeof position !== 'number') return position;
    path.push(position);
    here = here[position];
  }
  return path;
}

/**
 * A copy with one value replaced, its groups made where there are none; the problem when a single value is in the way.
 * What aliases share stays as it is elsewhere.
 */
export function withValue(raw: unknown, path: Path, value: unknown, done = 0): { raw: unknown } | Problem {
  const part = path[done];
  if (part === undefined) return { raw: value };
  const below = withValue(inside(raw, part), path, value, done + 1);
  if (!('raw' in below)) return below;
  if (Array.isArray(raw) && typeof part === 'number') return { raw: raw.with(part, below.raw) };
  if (raw === undefined || raw === null || isGroup(raw)) {
    return { raw: { ...(raw ?? {}), [part]: below.raw } };
  }
  const what = Array.isArray(raw) ? 'a list' : 'a single value';
  return { code: 'wrong-type', reason: `${pathText(path.slice(0, done))} holds ${what}, no fields` };
}

/** How many parts of a path stand in the values already. */
export function partsFound(raw: unknown, path: Path): number {
  let here = raw;
  const missing = path.findIndex((part) => {
    here = inside(here, part);
    return here === undefined;
  });
  return missing < 0 ? path.length : missing;
}
