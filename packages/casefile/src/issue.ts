import { wholeText } from '@tubgap/units';

/** A control letter, line ends among them; a text for people holds none. */
export const CONTROL = /\p{Cc}/u;

/** What is wrong, by kind. A program may act on the code; a person reads the message. */
export type IssueCode =
  | 'file'
  | 'syntax'
  | 'missing'
  | 'unknown-key'
  | 'unknown-name'
  | 'duplicate-name'
  | 'wrong-type'
  | 'not-a-number'
  | 'missing-unit'
  | 'unknown-unit'
  | 'bare-tolerance'
  | 'out-of-range'
  | 'law'
  | 'contradiction'
  | 'skipped'
  | 'taken-as-exact'
  | 'measured-apart';

/** A fault before its place is known: what is wrong, what would be right, what to do. */
export interface Problem {
  code: IssueCode;
  /** A clause: what is wrong or what is expected, allowed values included. */
  reason: string;
  /** The allowed values alone: '3 psi to 15 psi', 'car or run'. */
  allowed?: string;
  /** The likeliest mend, a sentence. */
  hint?: string;
}

/** A fault with its place in a file. */
export interface Issue {
  severity: 'error' | 'warning';
  code: IssueCode;
  /** As the caller named it; '--set' for a value given on a command line, which has no line and no column. */
  file: string;
  /** From 1. */
  line?: number;
  /** From 1. */
  column?: number;
  /** Place in the file's structure: 'suspension.wheelRate', 'tyres[0].coldPressure'; a column's name in a table. */
  path: string;
  read?: string;
  allowed?: string;
  hint?: string;
  message: string;
}

/** A place in a file, and what stands there. */
export interface Place {
  file: string;
  line?: number;
  column?: number;
  path: string;
  read?: string;
}

/** A value, or every reason why there is none. `issues` holds at least one error. Files are named as the caller did. */
export type Read<T> = { ok: true; value: T; warnings: Issue[] } | { ok: false; issues: Issue[] };

/** Joins a problem to its place and puts the message into words. */
export function issueAt(place: Place, problem: Problem, severity: Issue['severity'] = 'error'): Issue {
  const { code, reason, allowed, hint } = problem;
  const read = place.read === undefined ? '' : `read "${place.read}"; `;
  const mend = hint === undefined ? '' : `. ${hint}`;
  return {
    severity,
    code,
    ...place,
    ...(allowed === undefined ? {} : { allowed }),
    ...(hint === undefined ? {} : { hint }),
    message: `${read}${reason}${mend}`,
  };
}

/**
 * One issue as one line of text.
 * @example '--set run.trapSpeed  read "240"; the unit is missing: …'
 * @example 'case.yaml:14:17  tyres[0].coldPressure: read "65 psi"; … Did you mean 6.5 psi?'
 */
export function issueText(issue: Issue): string {
  const warning = issue.severity === 'warning' ? 'warning: ' : '';
  if (issue.line === undefined) {
    const place = issue.path === '' ? issue.file : `${issue.file} ${issue.path}`;
    return seen(`${place}  ${warning}${issue.message}`);
  }
  const path = issue.path === '' ? '' : `${issue.path}: `;
  return seen(`${issue.file}:${issue.line}:${issue.column}  ${warning}${path}${issue.message}`);
}

/** Letters that a terminal would obey in place of showing them, as marks of their place: nothing read may steer it. */
const seen = (line: string): string => line.replace(new RegExp(CONTROL, 'gu'), '\ufffd');

/** Lines of issues that are told at most: who mends these is told the next. */
const MOST_LINES = 50;

/** Issues as lines of text, in the order given; past the fiftieth only how many more there are. */
export function issueLines(issues: readonly Issue[]): string[] {
  const lines = issues.slice(0, MOST_LINES).map(issueText);
  const more = issues.length - lines.length;
  return more === 0 ? lines : [...lines, `and ${wholeText(more)} more, told when these are mended`];
}

/** Issues of the command line, then file by file in the order given, each in the order of its lines. */
export function inLineOrder(issues: readonly Issue[], files: readonly string[]): Issue[] {
  const rank = (issue: Issue) => files.indexOf(issue.file);
  return [...issues].sort(
    (a, b) => rank(a) - rank(b) || (a.line ?? 0) - (b.line ?? 0) || (a.column ?? 0) - (b.column ?? 0),
  );
}
