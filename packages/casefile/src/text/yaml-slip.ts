import type { ErrorCode } from 'yaml';
import type { TextFault } from './plain-yaml.ts';
import { type Slip, unpaired } from './unpaired.ts';

/** An error of the library: its code and the stretch of the text that it is about. */
export interface YamlError {
  code: ErrorCode;
  pos: readonly [number, number];
}

/** Where an error stands, with the line that it is on. */
interface Spot {
  text: string;
  from: number;
  to: number;
  /** The line without its ends, where it starts, and the blanks in front of it. */
  line: string;
  start: number;
  indent: number;
}

const isRemark = (line: string) => /^\s*(#|$)/.test(line);
const indentOf = (line: string) => line.length - line.trimStart().length;
const bare = (line: string) => `${line} #`.slice(0, `${line} #`.indexOf(' #')).trim();
const linesBefore = ({ text, start }: Spot) => text.slice(0, start).split('\n').slice(0, -1);

const blanks = (count: number) => (count === 1 ? '1 blank' : `${count} blanks`);

/** Where the groups that are open at a line begin: the deepest first, the last line of each. */
function groupsAbove(spot: Spot): { indent: number; number: number }[] {
  const open: { indent: number; number: number }[] = [];
  for (const [index, line] of [...linesBefore(spot).entries()].reverse()) {
    const indent = indentOf(line);
    if (isRemark(line) || indent >= (open.at(-1)?.indent ?? Number.POSITIVE_INFINITY)) continue;
    open.push({ indent, number: index + 1 });
  }
  return open;
}

/** A line that does not stand under those that it belongs with. */
function misaligned(spot: Spot): Slip {
  const { line, indent, start } = spot;
  const written = bare(line);
  const dash = /^-(?=[^\s-])/.exec(written);
  if (dash) {
    const hint = `Write - ${written.slice(1)}`;
    return { offset: start + indent, reason: 'a blank is missing behind the dash of a list', hint };
  }
  const reason = `this line begins ${blanks(indent)} in, under none of those that it could belong with`;
  const fitting = groupsAbove(spot);
  const [nearest] = fitting.toSorted((a, b) => Math.abs(a.indent - indent) - Math.abs(b.indent - indent));
  const hint =
    nearest === undefined
      ? 'Begin it at the left edge'
      : `Put ${blanks(nearest.indent)} in front of it to go on with line ${nearest.number}`;
  return { offset: start + indent, reason, hint };
}

/** A line that is no "name: value". */
function withoutColon({ line, start, indent }: Spot): Slip {
  const written = bare(line).replace(/^- +/, '');
  const offset = start + indent;
  const tight = /^([A-Za-z]\w*):(\S.*)$/.exec(written);
  if (tight) {
    const reason = 'a blank is missing behind the colon';
    return { offset, reason, hint: `Write ${tight[1]}: ${tight[2]}` };
  }
  const reason = 'a colon is missing behind the name of the field';
  const parts = /^([A-Za-z]\w*)(?:\s*=\s*|\s+(?=[\d.{["'+-]))(.+)$|^([A-Za-z]\w*)$/.exec(written);
  if (parts === null) {
    const hint = 'Write name: value, or put # in front of the line if it is a remark';
    return { offset, reason, hint };
  }
  return {
    offset,
    reason,
    hint: `Write ${parts[3] === undefined ? `${parts[1]}: ${parts[2]}` : `${parts[3]}:`}`,
  };
}

/** A colon where no name can stand in front of it: a second one in a line, or one on a line that is too far in. */
function nestedColon(spot: Spot): Slip {
  const { text, line, start, indent, to } = spot;
  const written = bare(line);
  if (/^-(\s|$)/.test(written) && spot.from <= start + indent) return misaligned(spot);
  if (/^[^:]*[{[]/.test(written)) return withoutColon(spot);
  const next =
    text
      .slice(start + line.length + 1)
      .split('\n')
      .find((one) => !isRemark(one)) ?? '';
  const value = /^(?:- +)?(\w+):\s+(.*)$/.exec(written);
  if (value && /:(\s|$)/.test(value[2]!)) {
    const quoted = value[2]!.includes('"') ? `'${value[2]}'` : `"${value[2]}"`;
    return {
      reason: 'a second colon stands in this line',
      hint: `Write ${value[1]}: ${quoted}, or a field a line`,
    };
  }
  if (value && indentOf(next) > indent) {
    const at = text.indexOf(next, start + line.length);
    return misaligned(spotAt(text, at + indentOf(next), to));
  }
  return misaligned(spot);
}

/** Signs that mean something to YAML at the beginning of a value. */
const VALUE_SIGN = /:\s+([|>*&!%@`?])/;

const startsWithSign = (sign: string): Slip => ({
  reason: `a value cannot begin with ${sign}`,
  hint: 'Take it out, or put the whole value in quotes',
});

/** Something that stands where nothing can. */
function unexpected(spot: Spot): Slip {
  const { text, line, from } = spot;
  const sign = VALUE_SIGN.exec(line)?.[1];
  if (sign !== undefined) return startsWithSign(sign);
  if (text[from] === ',')
    return { reason: 'nothing stands in front of this comma', hint: 'Take one comma out' };
  if (text[from] === '-') {
    const reason = 'a dash and a blank begin an entry of a list, which stands on a line of its own';
    return { reason, hint: 'Write a number below nothing without the blank: -1 in' };
  }
  if (/["']$/.test(text.slice(0, from).trimEnd())) {
    const hint = 'Put the closing quote behind all of the text, or take both quotes out';
    return { reason: 'text follows the closing quote', hint };
  }
  return UNREADABLE;
}

/** Something that is left out. */
function missing(spot: Spot): Slip {
  if (spot.text[spot.from] === '#') {
    return { reason: 'a remark begins with a blank and #', hint: 'Put a blank in front of the #' };
  }
  return /:(\s|$)/.test(bare(spot.line)) ? UNREADABLE : withoutColon(spot);
}

function commaMissing({ text, from, to }: Spot): Slip {
  const next = /\s([A-Za-z]\w*):\s/.exec(text.slice(from, to))?.[1];
  const hint =
    next === undefined ? 'Write { name: value, name: value }' : `Write a comma in front of ${next}:`;
  return { reason: 'a comma is missing between two fields inside { }', hint };
}

function tabbed({ text, start }: Spot): Slip {
  const lines = text
    .slice(start)
    .split('\n')
    .filter((line) => /^ *\t/.test(line));
  const more = lines.length > 1 ? `, and in front of ${lines.length - 1} more below` : '';
  const hint = 'Use blanks in place of tabs, two for each step further in';
  return { reason: `a tab stands in front of this line${more}`, hint };
}

function secondDocument({ text, from }: Spot): Slip {
  const marker = /^(---|\.\.\.)/gm;
  const markers = [...text.slice(0, from + 3).matchAll(marker)];
  const at = markers.at(-1);
  const reason = `a line of ${at?.[1] ?? '---'} ends the case, and more follows`;
  return { offset: at?.index ?? from, reason, hint: 'Take that line out' };
}

const UNREADABLE: Slip = {
  reason: 'this cannot be read',
  hint: 'Write name: value, one field a line, or put the value in quotes',
};
const SIGNS: Slip = {
  reason: 'the signs & and * have a meaning of their own at the beginning of a value',
  hint: 'Take them out, or put the whole value in quotes',
};
const always = (slip: Slip) => () => slip;

/** What each error of the library comes from, in a case that somebody wrote by hand. */
const SLIPS: Readonly<Record<ErrorCode, (spot: Spot) => Slip>> = {
  ALIAS_PROPS: always(SIGNS),
  BAD_ALIAS: always(SIGNS),
  BAD_COLLECTION_TYPE: always(UNREADABLE),
  BAD_DIRECTIVE: always({ reason: 'a line cannot begin with %', hint: 'Take the line out' }),
  BAD_DQ_ESCAPE: always({
    reason: 'a backward stroke inside double quotes means another letter',
    hint: 'Use single quotes, or / between folders',
  }),
  BAD_INDENT: misaligned,
  BAD_PROP_ORDER: always(SIGNS),
  BAD_SCALAR_START: ({ text, from }) => startsWithSign(text[from] ?? ''),
  BLOCK_AS_IMPLICIT_KEY: nestedColon,
  BLOCK_IN_FLOW: commaMissing,
  DUPLICATE_KEY: always({ reason: 'this field is given twice', hint: 'Take one of the two out' }),
  IMPOSSIBLE: always(UNREADABLE),
  KEY_OVER_1024_CHARS: always(UNREADABLE),
  MISSING_CHAR: missing,
  MULTILINE_IMPLICIT_KEY: withoutColon,
  MULTIPLE_ANCHORS: always(SIGNS),
  MULTIPLE_DOCS: secondDocument,
  MULTIPLE_TAGS: always(UNREADABLE),
  NON_STRING_KEY: always(UNREADABLE),
  RESOURCE_EXHAUSTION: always(UNREADABLE),
  TAB_AS_INDENT: tabbed,
  TAG_RESOLVE_FAILED: always(UNREADABLE),
  UNEXPECTED_TOKEN: unexpected,
};

function spotAt(text: string, from: number, to: number): Spot {
  const start = text.lastIndexOf('\n', from - 1) + 1;
  const end = text.indexOf('\n', from);
  const line = text.slice(start, end < 0 ? text.length : end).replace(/\r$/, '');
  return { text, from, to, line, start, indent: indentOf(line) };
}

/**
 * The first thing in a text that keeps it from being YAML, as the slip that it most likely is, with what to write. The
 * errors below it mostly follow from it, so that they are not told.
 */
export function yamlSlip(text: string, errors: readonly YamlError[]): TextFault | undefined {
  const [error] = [...errors].sort((a, b) => a.pos[0] - b.pos[0]);
  if (error === undefined) return undefined;
  const spot = spotAt(text, ...error.pos);
  const pair = unpaired(text);
  const {
    offset = spot.from,
    reason,
    hint,
  } = pair && pair.offset <= spot.from ? pair : SLIPS[error.code](spot);
  return { offset, problem: { code: 'syntax', reason, hint } };
}
