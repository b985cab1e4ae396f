import {
  isAlias,
  isMap,
  isScalar,
  isSeq,
  LineCounter,
  type Node,
  type Pair,
  parseDocument,
  visit,
} from 'yaml';
import { type Issue, issueAt, type Place, type Problem } from './issue.ts';
import type { Path } from './schema-issue.ts';

/** Letters; a case is written by hand and is rarely longer than a few thousand. */
export const LARGEST_CASE = 200_000;

/** A YAML file as plain values, and where each of them stands. */
export interface CaseText {
  raw: unknown;
  /** Place of a field: its value, its name, or the nearest group around it when it is missing. */
  placeOf(path: Path, at?: 'key' | 'value'): Place;
}

/** "tyres[0].coldPressure" from its parts. */
export function pathText(path: Path): string {
  return path.reduce<string>((text, part) => {
    if (typeof part === 'number') return `${text}[${part}]`;
    return text === '' ? part : `${text}.${part}`;
  }, '');
}

const keyText = (pair: Pair) => (isScalar(pair.key) ? String(pair.key.value) : undefined);

/** Names that would reach into the machinery of the language instead of the case. */
const FORBIDDEN = new Set(['__proto__', 'constructor', 'prototype']);

const offsetOf = (node: Node | undefined) => node?.range?.[0] ?? 0;

interface Step {
  key: Node | undefined;
  value: Node | undefined;
}

function stepInto(node: Node | undefined, part: string | number): Step | undefined {
  if (isMap(node)) {
    const pair = node.items.find((item) => keyText(item) === String(part));
    return pair && { key: pair.key as Node, value: (pair.value ?? undefined) as Node | undefined };
  }
  if (isSeq(node) && typeof part === 'number') {
    const item = node.items[part] as Node | undefined;
    return item && { key: undefined, value: item };
  }
  return undefined;
}

/**
 * Reads YAML 1.2 without running anything that it may ask for: no custom tags, no merge keys, few aliases.
 * Faults of the syntax end it, since what stands where cannot be told any more.
 */
export function readCaseText(
  file: string,
  text: string,
): { ok: true; value: CaseText } | { ok: false; issues: Issue[] } {
  const refuse = (problem: Problem, line = 1, column = 1, read?: string) =>
    issueAt({ file, line, column, path: '', ...(read === undefined ? {} : { read }) }, problem);
  if (text.length > LARGEST_CASE) {
    const reason = `a case file may have ${LARGEST_CASE} letters at most, this one has ${text.length}`;
    const hint = 'Lists of tyres and tubs belong into the catalogues';
    return { ok: false, issues: [refuse({ code: 'file', reason, hint })] };
  }
  const lineCounter = new LineCounter();
  const document = parseDocument(text, { lineCounter, uniqueKeys: true, version: '1.2' });
  const placeAt = (offset: number) => {
    const { line, col } = lineCounter.linePos(offset);
    return { line: Math.max(1, line), column: Math.max(1, col) };
  };

  const faults = [...document.errors, ...document.warnings].map((fault) => {
    const { line, column } = placeAt(fault.pos[0]);
    const reason = (fault.message.split('\n')[0] ?? '').replace(/ at line \d+, column \d+:?$/, '');
    return refuse({ code: 'syntax', reason: `this is not sound YAML: ${reason}` }, line, column);
  });
  visit(document, {
    Pair(_, pair) {
      const name = keyText(pair);
      const offset = (pair.key as Node | null)?.range?.[0] ?? 0;
      const { line, column } = placeAt(offset);
      if (name === undefined) {
        faults.push(refuse({ code: 'syntax', reason: 'a field needs a plain name' }, line, column));
      } else if (FORBIDDEN.has(name)) {
        faults.push(
          refuse({ code: 'unknown-key', reason: 'a field cannot have this name' }, line, column, name),
        );
      }
    },
  });
  if (faults.length > 0) return { ok: false, issues: faults };

  let raw: unknown;
  try {
    raw = document.toJS({ maxAliasCount: 50 });
  } catch (error) {
    const reason = `the aliases (*name) cannot be followed: ${error instanceof Error ? error.message : 'unknown'}`;
    return { ok: false, issues: [refuse({ code: 'syntax', reason, hint: 'Write the values out' })] };
  }

  const resolved = (node: Node | undefined) => (isAlias(node) ? node.resolve(document) : node);
  const placeOf = (path: Path, at: 'key' | 'value' = 'value'): Place => {
    let here: Step = { key: undefined, value: document.contents ?? undefined };
    for (const part of path) {
      const next = stepInto(resolved(here.value), part);
      if (next === undefined)
        return { file, ...placeAt(offsetOf(here.key ?? here.value)), path: pathText(path) };
      here = next;
    }
    const node = at === 'key' || !isScalar(here.value) ? (here.key ?? here.value) : here.value;
    const read = at === 'key' || node === here.value ? sourceOf(node) : undefined;
    const place = { file, ...placeAt(offsetOf(node)), path: pathText(path) };
    return read === undefined ? place : { ...place, read };
  };
  const sourceOf = (node: Node | undefined): string | undefined => {
    if (!isScalar(node)) return undefined;
    const [start = 0, end = 0] = node.range ?? [];
    const line = (text.slice(start, end).split('\n')[0] ?? '').replace(/^(["'])(.*)\1$/, '$2').trim();
    return line === '' ? undefined : line.length > 60 ? `${line.slice(0, 57)}…` : line;
  };
  return { ok: true, value: { raw, placeOf } };
}
