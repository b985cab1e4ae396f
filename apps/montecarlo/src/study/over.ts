import { parseMeasure, wholeText } from '@tubgap/units';
import { StudyFault } from './fault.ts';
import { inUnit } from './measure.ts';
import { rangeTexts, readVary, type Vary } from './vary.ts';

const OPTION = '--over';
const EXAMPLE = '"tyres[*].coldPressure = 6..9 psi", or with its steps "6..9 psi by 0.25 psi"';

/** Steps that a range is taken in, where none are named: not more than these, of sizes that are easily set. */
const MOST_STEPS = 32;
/** Values of a range with steps of its own at most. */
const MOST_VALUES = 200;

/** What nobody looks over: what is accepted is the shop's to say, and the simulation is no part of the car. */
const NOT_SOUGHT = /^(accept|simulation|tubs|tub|tyre|topHeight)\b/;

const fault = (place: string, reason: string): StudyFault => new StudyFault([`${place}  ${reason}`]);

/** The smallest step of 1, 2 or 5 in some decimal place, in inches from a sixteenth up, that a length is few times of. */
export function easyStep(length: number, unit: string): number {
  const enough = Math.abs(length) / MOST_STEPS;
  if (unit === 'in') return Math.max(1 / 16, 2 ** Math.ceil(Math.log2(enough) - 1e-9));
  const decade = 10 ** Math.floor(Math.log10(enough) + 1e-9);
  return decade * ([1, 2, 5, 10].find((times) => times * decade >= enough * (1 - 1e-9)) ?? 10);
}

/** Both ends in rising order, each with its sign. */
function rising(place: string, from: string, to: string): { ends: [string, string]; step: string } {
  const [one, other] = [from, to].map((text) => parseMeasure(text.replace(/^~\s*/, '')));
  if (one === undefined || other === undefined) {
    throw fault(place, `reads "${from}" to "${to}"; numbers and their unit are needed, as in ${EXAMPLE}.`);
  }
  const unit = other.unit || one.unit;
  const ends: [string, string] = one.number <= other.number ? [from, to] : [to, from];
  return { ends, step: `${easyStep(other.number - one.number, unit)} ${unit}`.trim() };
}

/** A text with the unit that another one has, where it has none. */
const withUnitOf = (text: string, other: string): string => {
  const [own, beside] = [parseMeasure(text), parseMeasure(other)];
  return own?.unit === '' && beside !== undefined ? `${text} ${beside.unit}`.trim() : text;
};

/**
 * Reads a range that is looked over: 'path = from..to', both ends taken in, in steps that are named behind 'by' or found; or
 * a list of values, as a sweep takes them.
 * @throws StudyFault that says what is wrong with it
 */
export function readOver(words: string): Vary {
  const at = words.indexOf('=');
  const path = words.slice(0, Math.max(0, at)).trim();
  if (path === '') {
    throw fault(`${OPTION} "${words}"`, `a place of the case and its range are needed, as in ${EXAMPLE}.`);
  }
  const place = `${OPTION} ${path}`;
  if (NOT_SOUGHT.test(path)) {
    throw fault(
      place,
      'is not to be looked over: name tubs by --tub and a height by --height; what is accepted is set in the case, or by --set.',
    );
  }
  const range = /^([^,{]+?)\s*(?:\.\.|\bto\b)\s*([^,{]+?)(?:\s+by\s+([^,{]+))?$/.exec(
    words.slice(at + 1).trim(),
  );
  if (range === null) return readVary(words, OPTION);
  const { ends, step } = rising(place, range[1]!, range[2]!);
  const [from, to] = [withUnitOf(ends[0], ends[1]), withUnitOf(ends[1], ends[0])];
  if (parseMeasure(from)?.number === parseMeasure(to)?.number) return { path, place, texts: [from] };
  const texts = rangeTexts(place, from, to, range[3] ?? step);
  const last = [texts.at(-1)!, to].map((text) => parseMeasure(text.replace(/^~\s*/, ''))!);
  const isMet = Math.abs((inUnit(last[0]!, last[1]!.unit) ?? Number.NaN) - last[1]!.number) < 1e-9;
  const all = isMet ? texts : [...texts, to];
  if (all.length > MOST_VALUES) {
    throw fault(
      place,
      `${wholeText(all.length)} values; ${MOST_VALUES} are the most of a range. Take larger steps.`,
    );
  }
  // A nought with a sign is a change by nothing: without one that says so these would be values.
  const isChange = range.slice(1, 3).some((end) => end!.startsWith('+'));
  const isTold = all.some((text) => text.startsWith('+'));
  const changed = (text: string): string => (parseMeasure(text)?.number === 0 ? `+${text}` : text);
  return { path, place, texts: isChange && !isTold ? all.map(changed) : all };
}
