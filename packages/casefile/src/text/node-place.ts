import { type Document, isAlias, isMap, isScalar, isSeq, type LineCounter, type Node, type Pair } from 'yaml';
import type { Place } from '../issue.ts';

/** A field by the names and list positions that lead to it. */
export type Path = readonly (string | number)[];

/** "tyres[0].coldPressure" from its parts. */
export function pathText(path: Path): string {
  return path.reduce<string>((text, part) => {
    if (typeof part === 'number') return `${text}[${part}]`;
    return text === '' ? part : `${text}.${part}`;
  }, '');
}

/** Name of a field; undefined for a name that is itself a list or a group. */
export function keyText(pair: Pair): string | undefined {
  return isScalar(pair.key) ? String(pair.key.value) : undefined;
}

/** Line and column of a position in the text, from 1; the top of an empty file. */
export function lineAndColumn(counter: LineCounter, offset: number): { line: number; column: number } {
  const { line, col } = counter.linePos(offset);
  return { line: Math.max(1, line), column: Math.max(1, col) };
}

interface Step {
  key: Node | undefined;
  value: Node | undefined;
}

function stepInto(node: Node | undefined, part: string | number): Step | undefined {
  if (isMap(node)) {
    const pair = node.items.findLast((item) => keyText(item) === String(part));
    return pair && { key: pair.key as Node, value: (pair.value ?? undefined) as Node | undefined };
  }
  if (isSeq(node) && typeof part === 'number') {
    const item = node.items[part] as Node | undefined;
    return item && { key: undefined, value: item };
  }
  return undefined;
}

/** Letters of what was read that a message repeats. */
export const LONGEST_READ = 60;

function writtenText(node: Node, source: string): string {
  const [start = 0, end = 0] = node.range ?? [];
  const line = (source.slice(start, end).split('\n')[0] ?? '').trim().replace(/^(["'])(.*)\1$/, '$2');
  return line.length > LONGEST_READ ? `${line.slice(0, LONGEST_READ - 1)}…` : line;
}

/** What the places of a file are found in. */
export interface Located {
  file: string;
  source: string;
  document: Document;
  counter: LineCounter;
}

/**
 * Place of a field and what stands there: a single value; the name in front of a group or list; the nearest group
 * around a field that is missing.
 */
export function placeOf(where: Located, path: Path, at: 'key' | 'value'): Place {
  const { file, source, document, counter } = where;
  const place = (node: Node | undefined, read: Node | undefined): Place => {
    const text = isScalar(read) ? writtenText(read, source) : '';
    const position = lineAndColumn(counter, node?.range?.[0] ?? 0);
    return { file, ...position, path: pathText(path), ...(text === '' ? {} : { read: text }) };
  };
  let here: Step = { key: undefined, value: document.contents ?? undefined };
  for (const part of path) {
    const group = isAlias(here.value) ? here.value.resolve(document) : here.value;
    const next = stepInto(group, part);
    if (next === undefined) return place(here.key ?? here.value, undefined);
    here = next;
  }
  if (at === 'key') return place(here.key ?? here.value, here.key);
  return isScalar(here.value) ? place(here.value, here.value) : place(here.key ?? here.value, undefined);
}
