import { readFileSync } from 'node:fs';
import { type CaseText, issueText, readCaseText } from '@tubgap/casefile';
import { AS_IN_CASE, bothWays } from './change.ts';
import { StudyFault } from './fault.ts';
import { type Mode, readMode } from './mode.ts';
import { rangeTexts, readVary, type Vary } from './vary.ts';

/** Name of a sweep's own file in its folder. */
export const SWEEP_FILE = 'sweep.yaml';

/** What a sweep file asks for. */
export interface SweepFile {
  mode: Mode | undefined;
  varies: Vary[];
}

type Group = Record<string, unknown>;
const isGroup = (raw: unknown): raw is Group =>
  typeof raw === 'object' && raw !== null && !Array.isArray(raw);

const isNames = (raw: unknown): raw is string[] =>
  Array.isArray(raw) && raw.length > 0 && raw.every((one) => typeof one === 'string');

const EXAMPLE = '{ vary: run.trapSpeed, from: 200 mph, to: 240 mph, by: 10 mph }';

/** A value of the file as a case file would write it; nothing is the case's own. */
function textOf(raw: unknown): string {
  if (raw === null) return AS_IN_CASE;
  return typeof raw === 'object' ? JSON.stringify(raw) : String(raw);
}

function entry(text: CaseText, path: readonly (string | number)[], raw: unknown): Vary {
  const { file, line, column } = text.placeOf(path);
  const at = `${file}:${line}:${column} `;
  if (typeof raw === 'string') return { ...readVary(raw, at), place: at };
  const named = isGroup(raw) && isNames(raw.vary) ? raw.vary.join(', ') : isGroup(raw) ? raw.vary : undefined;
  if (!isGroup(raw) || typeof named !== 'string') {
    throw new StudyFault([`${at} names nothing to vary; write ${EXAMPLE}.`]);
  }
  const { vary: _, from, to, by, values, ...rest } = raw;
  // The sign in front of +1 is no part of its number, but says that it is a change.
  const textAt = (one: unknown, ...place: (string | number)[]): string =>
    typeof one === 'number' ? (text.placeOf([...path, ...place]).read ?? String(one)) : textOf(one);
  const unknown = Object.keys(rest)[0];
  if (unknown !== undefined) {
    throw new StudyFault([
      `${at} "${unknown}" is not known here; allowed are vary, from, to, by and values.`,
    ]);
  }
  const place = `${at} ${named}:`;
  if (Array.isArray(values) && values.length > 0 && from === undefined) {
    return { path: named, place, texts: bothWays(values.map((one, i) => textAt(one, 'values', i))) };
  }
  if (values !== undefined || from === undefined || to === undefined || by === undefined) {
    throw new StudyFault([`${place} needs from, to and by, or a list of values, as in ${EXAMPLE}.`]);
  }
  const texts = rangeTexts(place, textAt(from, 'from'), textAt(to, 'to'), textAt(by, 'by'));
  return { path: named, place, texts };
}

/**
 * Reads a sweep file: `mode` and, under `sweep`, a list of what to vary.
 * @throws StudyFault with file, line and column
 */
export function readSweepFile(file: string): SweepFile {
  let written: string;
  try {
    written = readFileSync(file, 'utf8');
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    throw new StudyFault([`${file}: cannot be read (${code}). Give the path of a sweep file.`]);
  }
  const read = readCaseText(file, written);
  const issues = read.ok ? read.value.issues : read.issues;
  if (!read.ok || issues.length > 0) throw new StudyFault(issues.map(issueText));
  const text = read.value;
  const { raw } = text;
  if (!isGroup(raw) || !Array.isArray(raw.sweep) || raw.sweep.length === 0) {
    throw new StudyFault([`${file}:1:1  holds no sweep; write "sweep:" and below it "- ${EXAMPLE}".`]);
  }
  const unknown = Object.keys(raw).find((name) => name !== 'sweep' && name !== 'mode');
  if (unknown !== undefined) {
    const { line, column } = text.placeOf([unknown], 'key');
    throw new StudyFault([
      `${file}:${line}:${column}  "${unknown}" is not known here; allowed are mode and sweep.`,
    ]);
  }
  const mode = raw.mode === undefined ? undefined : readMode(textOf(raw.mode));
  if (raw.mode !== undefined && mode === undefined) {
    const { line, column } = text.placeOf(['mode']);
    throw new StudyFault([
      `${file}:${line}:${column}  mode: read "${textOf(raw.mode)}"; allowed are grid, one at a time and points.`,
    ]);
  }
  return { mode, varies: raw.sweep.map((one, i) => entry(text, ['sweep', i], one)) };
}

/** The same sweep as a file, so that a folder alone repeats it. */
export function sweepFileText(mode: Mode, varies: readonly Pick<Vary, 'path' | 'texts'>[]): string {
  const list = varies.map(
    ({ path, texts }) =>
      `  - vary: ${JSON.stringify(path)}\n    values: [${texts.map((text) => JSON.stringify(text)).join(', ')}]\n`,
  );
  return `mode: ${mode}\nsweep:\n${list.join('')}`;
}
