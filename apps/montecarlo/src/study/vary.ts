import { type Measure, parseMeasure, wholeText } from '@tubgap/units';
import { bothWays } from './change.ts';
import { StudyFault } from './fault.ts';
import { listed } from './linked.ts';
import { measureText } from './measure.ts';

/** One input of a case over values, or several that move together. */
export interface Vary {
  /** A place of the case; several at commas, every entry of a list by [*]: 'tyres[*].coldPressure'. */
  path: string;
  /** As the case file would write them; with a sign in front changes of the case's own, '+1 psi', '-10 %'; '~' the case's own. */
  texts: string[];
  /** Where it was asked for, for messages: '--vary run.trapSpeed', 'sweep.yaml:3:5  run.trapSpeed:'. */
  place: string;
}

/** Values of one input at most. */
const MOST_VALUES = 1000;
const EXAMPLES =
  '"run.trapSpeed = 200 mph to 240 mph by 10 mph" or "tyres[0].coldPressure = 5 psi, 6 psi, 7 psi"';

const fault = (place: string, reason: string): StudyFault => new StudyFault([`${place}  ${reason}`]);

/** The one unit of a range; each number may leave it out where another has it. */
function rangeUnit(place: string, parts: Readonly<Record<'from' | 'to' | 'by', Measure>>): string {
  const units = Object.entries(parts).filter(([, { unit }]) => unit !== '');
  const unit = units[0]?.[1].unit ?? '';
  const other = units.find(([, part]) => part.unit !== unit);
  if (other === undefined) return unit;
  throw fault(
    place,
    `"${units[0]![0]}" is in ${unit}, "${other[0]}" in ${other[1].unit}; write the whole range in one unit.`,
  );
}

/**
 * Values of a range, both ends taken in where the step meets them, as a case file would write them.
 * @throws StudyFault that says what is wrong with it
 */
export function rangeTexts(place: string, from: string, to: string, by: string): string[] {
  const moves = from.startsWith('~') ? '~' : '';
  const read = (name: string, text: string): Measure => {
    const measure = parseMeasure(text.replace(/^~\s*/, ''));
    if (measure !== undefined) return measure;
    throw fault(place, `"${name}" reads "${text}"; a number and its unit are needed, as in ${EXAMPLES}.`);
  };
  const parts = { from: read('from', from), to: read('to', to), by: read('by', by) };
  const unit = rangeUnit(place, parts);
  const step = Math.abs(parts.by.number);
  const length = parts.to.number - parts.from.number;
  const signed = [from, to].some((end) => end.startsWith('+'));
  const text = (number: number): string =>
    `${signed && number > 1e-12 * Math.abs(parts.from.number) ? '+' : ''}${measureText(number, unit)}`;
  if (!(step > 0)) throw fault(place, `the step is ${text(0)}; it must be more than nothing.`);
  if (length === 0) throw fault(place, `the range begins and ends at ${text(parts.from.number)}.`);
  const count = Math.floor(Math.abs(length) / step + 1e-9) + 1;
  if (count === 1) {
    throw fault(
      place,
      `the step of ${text(step)} is longer than the range from ${text(parts.from.number)} to ${text(parts.to.number)}.`,
    );
  }
  if (count > MOST_VALUES) {
    throw fault(
      place,
      `${wholeText(count)} values of one input; ${wholeText(MOST_VALUES)} are the most. Take larger steps.`,
    );
  }
  const sign = Math.sign(length);
  return Array.from({ length: count }, (_, k) => moves + text(parts.from.number + sign * k * step));
}

/**
 * Reads what a command line asks to vary: 'path = from to to by step', or 'path = value, value, …'; '± 10 %' is both ways.
 * @param option  the option that it stands at, for messages
 * @throws StudyFault that says what is wrong with it
 */
export function readVary(words: string, option = '--vary'): Vary {
  const at = words.indexOf('=');
  const path = words.slice(0, at).trim();
  if (at <= 0 || path === '') {
    throw fault(`${option} "${words}"`, `a place of the case and its values are needed, as in ${EXAMPLES}.`);
  }
  const place = `${option} ${path}`;
  const values = words.slice(at + 1).trim();
  const range = /^([^,{]+?)\s+to\s+([^,{]+?)(?:\s+by\s+([^,{]+))?$/.exec(values);
  if (range?.[3] !== undefined)
    return { path, place, texts: rangeTexts(place, range[1]!, range[2]!, range[3]) };
  if (range) {
    throw fault(place, `"${values}" has no step; write it behind, as in "200 mph to 240 mph by 10 mph".`);
  }
  const texts = listed(values);
  if (texts.some((text) => text === '')) {
    throw fault(place, `reads "${values}"; a value is missing. Write it as in ${EXAMPLES}.`);
  }
  return { path, place, texts: withUnits(bothWays(texts)) };
}

/** Gives plain numbers of a list the unit that its last entry has: '5, 6, 7 psi'. */
function withUnits(texts: string[]): string[] {
  const last = parseMeasure(texts.at(-1)!.replace(/^~\s*/, ''));
  if (last === undefined || last.unit === '') return texts;
  return texts.map((text) => {
    const measure = parseMeasure(text.replace(/^~\s*/, ''));
    return measure?.unit === '' ? `${text} ${last.unit}` : text;
  });
}
