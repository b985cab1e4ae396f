import { type Document, LineCounter, type Node, type Pair, parseDocument, visit } from 'yaml';
import { type Issue, issueAt, type Place } from '../issue.ts';
import { keyText, lineAndColumn, type Path, placeOf } from './node-place.ts';
import { beyondPlain, type TextFault } from './plain-yaml.ts';
import { yamlSlip } from './yaml-slip.ts';

/** Letters; a case is written by hand and is rarely longer than a few thousand. */
export const LARGEST_CASE = 200_000;

/** A YAML file as plain values, and where each of them stands. */
export interface CaseText {
  raw: unknown;
  /** Fields whose name is at fault; the rest of the file can still be judged. */
  issues: Issue[];
  placeOf(path: Path, at?: 'key' | 'value'): Place;
}

/** Fields that are given twice or whose name cannot be one. */
function nameFaults(document: Document, lineOf: (node: Node) => number): TextFault[] {
  const faults: TextFault[] = [];
  visit(document, {
    Map(_, map) {
      const first = new Map<string, Node>();
      for (const pair of map.items as Pair<Node>[]) {
        const offset = pair.key?.range?.[0] ?? 0;
        const name = keyText(pair);
        const earlier = name === undefined ? undefined : first.get(name);
        if (name === '<<') {
          const reason = 'fields are not merged into a group (<<)';
          faults.push({
            offset,
            read: name,
            problem: { code: 'syntax', reason, hint: 'Write the fields out' },
          });
        } else if (name === undefined) {
          faults.push({ offset, problem: { code: 'syntax', reason: 'a field needs a plain name' } });
        } else if (earlier !== undefined) {
          const reason = `this field is already given on line ${lineOf(earlier)}`;
          const hint = 'Take one of the two out';
          faults.push({ offset, read: name, problem: { code: 'duplicate-name', reason, hint } });
        } else first.set(name, pair.key);
      }
    },
  });
  return faults;
}

/** Parses without trust: whatever the library throws, for a thousand open brackets or bad aliases, is a fault too. */
function parsed(
  text: string,
  counter: LineCounter,
): TextFault[] | { document: Document; raw: unknown; names: TextFault[] } {
  const beyond = beyondPlain(text);
  if (beyond !== undefined) {
    // The counter is filled by the parser, which must not see this text: the place is counted here.
    counter.addNewLine(0);
    for (let at = text.indexOf('\n'); at >= 0; at = text.indexOf('\n', at + 1)) counter.addNewLine(at + 1);
    return [beyond];
  }
  try {
    const options = { lineCounter: counter, uniqueKeys: false, version: '1.2', prettyErrors: false } as const;
    const document = parseDocument(text, options);
    const slip = yamlSlip(text, [...document.errors, ...document.warnings]);
    if (slip !== undefined) return [slip];
    const lineOf = (node: Node) => lineAndColumn(counter, node.range?.[0] ?? 0).line;
    const names = nameFaults(document, lineOf);
    if (names.some(({ problem }) => problem.code === 'syntax')) return names;
    return { document, raw: document.toJS({ maxAliasCount: 50 }), names };
  } catch (error) {
    const reason =
      error instanceof ReferenceError ? 'its aliases (*name) cannot be followed' : 'it is nested too deep';
    return [{ offset: 0, problem: { code: 'syntax', reason, hint: 'Write the values out' } }];
  }
}

/**
 * Reads YAML 1.2 without running anything that it may ask for: no custom tags, no merge keys, few aliases.
 * Faults of the syntax end it, since what stands where cannot be told any more.
 */
export function readCaseText(
  file: string,
  text: string,
): { ok: true; value: CaseText } | { ok: false; issues: Issue[] } {
  const counter = new LineCounter();
  const issueOf = ({ offset, read, problem }: TextFault): Issue => {
    const position = lineAndColumn(counter, offset);
    return issueAt({ file, ...position, path: '', ...(read === undefined ? {} : { read }) }, problem);
  };
  if (text.length > LARGEST_CASE) {
    const reason = `a case file may have ${LARGEST_CASE} letters at most, this one has ${text.length}`;
    const hint = 'Lists of tyres and tubs belong in the catalogues';
    return { ok: false, issues: [issueOf({ offset: 0, problem: { code: 'file', reason, hint } })] };
  }
  const result = parsed(text, counter);
  if (Array.isArray(result)) return { ok: false, issues: result.map(issueOf) };
  const { document, raw, names } = result;
  const where = { file, source: text, document, counter };
  return {
    ok: true,
    value: {
      raw,
      issues: names.map(issueOf),
      placeOf: (path, at = 'value') => placeOf(where, path, at),
    },
  };
}
