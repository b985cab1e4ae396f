import { type Issue, issueAt, type Place, type Problem } from '../issue.ts';
import { type CaseText, readCaseText } from './case-text.ts';
import { LONGEST_READ, type Path, pathText } from './node-place.ts';
import { partsFound, placeIn, withValue } from './value-path.ts';

/** A value given on a command line in place of the file's. */
export interface Setting {
  /** As in messages: 'run.trapSpeed', 'tyres[0].coldPressure'; an entry of a list by its name too: 'tyres[tall-slick]'. */
  path: string;
  /**
   * As the file would write it: '240 mph', '{ law: normal, mean: 240 mph, sd: 3 mph, each: run }'.
   * With ~ in front, '~240 mph': the law that stands there, in the file or as a default, moved so that its middle (the
   * median) is this. A log-normal law is scaled, any other shifted with its ends; an exact value is replaced.
   */
  value: string;
}

/** A law that a command line moves. */
export interface Move {
  path: Path;
  /** The middle that it gets, as it was written: '240 mph'. */
  middle: string;
  /** Of the setting. */
  place: Place;
}

/** What issues call the command line. */
export const COMMAND_LINE = '--set';

/** What ~ stands in front of. Alone it is YAML for nothing. */
const MOVE = /^\s*~\s*(\S.*?)\s*$/s;
/** A value in its place, and what stands where in it. */
interface Placed {
  setting: Setting;
  path: Path;
  /** How many parts of the path the file has itself; the groups of the rest came with the value. */
  found: number;
  placeOf: CaseText['placeOf'];
}

const startsWith = (path: Path, start: Path) => start.every((part, index) => part === path[index]);

/** Whether a place came with a value: in it, or a group around it that the file has not. */
const cameWith = ({ path: set, found }: Placed, path: Path) =>
  startsWith(path, set) || (path.length > found && startsWith(set, path));

function placeOnCommandLine(
  { setting, path: start, placeOf }: Placed,
  path: Path,
  at: 'key' | 'value',
): Place {
  const rest = path.slice(start.length);
  const read = rest.length === 0 && at === 'key' ? String(path.at(-1)) : placeOf(rest, at).read;
  // The name in front only lets the rest begin with its point or bracket.
  const end = pathText(['-', ...rest]).slice(1);
  return { file: COMMAND_LINE, path: setting.path + end, ...(read === undefined ? {} : { read }) };
}

/** What one setting comes to: a value in its place, a law to move, or a fault. */
type Applied = { raw: unknown; placed: Placed } | { move: Move } | { issue: Issue };

function applied(raw: unknown, setting: Setting, path: Path): Applied {
  const place = { file: COMMAND_LINE, path: setting.path, read: setting.value.slice(0, LONGEST_READ) };
  const refuse = (problem: Problem) => ({ issue: issueAt(place, problem) });
  const middle = MOVE.exec(setting.value)?.[1];
  if (middle !== undefined) return { move: { path, middle, place } };
  const value = readCaseText(COMMAND_LINE, setting.value);
  const [fault] = value.ok ? value.value.issues : value.issues;
  if (!value.ok || fault) return refuse({ code: fault!.code, reason: fault!.message });
  const result = withValue(raw, path, value.value.raw);
  if (!('raw' in result)) return refuse(result);
  const placed = { setting, path, found: partsFound(raw, path), placeOf: value.value.placeOf };
  return { raw: result.raw, placed };
}

/**
 * The file's text with values of a command line in their places. A fault of such a value is placed at its setting.
 * @returns moves  settings that move a law; what law stands there is not known yet
 */
export function applySettings(
  file: CaseText,
  settings: readonly Setting[],
): { text: CaseText; moves: Move[] } {
  let { raw } = file;
  const issues = [...file.issues];
  const moves: Move[] = [];
  const placed: Placed[] = [];
  const taken = new Set<string>();
  for (const setting of settings) {
    const at = { file: COMMAND_LINE, path: setting.path };
    const path = placeIn(raw, setting.path);
    if ('reason' in path) issues.push(issueAt(at, path));
    else if (taken.has(pathText(path))) {
      issues.push(issueAt(at, { code: 'duplicate-name', reason: 'this is set twice' }));
    } else {
      taken.add(pathText(path));
      const result = applied(raw, setting, path);
      if ('issue' in result) issues.push(result.issue);
      else if ('move' in result) moves.push(result.move);
      else {
        placed.push(result.placed);
        ({ raw } = result);
      }
    }
  }
  const placeOf: CaseText['placeOf'] = (path, at = 'value') => {
    const set = placed.findLast((one) => cameWith(one, path));
    return set ? placeOnCommandLine(set, path, at) : file.placeOf(path, at);
  };
  return { text: { raw, issues, placeOf }, moves };
}
