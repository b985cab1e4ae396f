import { findUnit } from './quantity.ts';

/** The fractions of a tape that have a letter of their own. */
const FRACTION_LETTERS: Readonly<Record<string, string>> = {
  '½': '1/2',
  '¼': '1/4',
  '¾': '3/4',
  '⅛': '1/8',
  '⅜': '3/8',
  '⅝': '5/8',
  '⅞': '7/8',
};
const LETTERS = Object.keys(FRACTION_LETTERS).join('');

const DECIMAL = String.raw`(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?`;
const GROUPED = String.raw`[1-9]\d{0,2}(?:,\d{3})+(?:\.\d+)?`;
const TAPE = String.raw`\d+[ -]\d+\/\d+|\d+\/\d+`;

/** A number with a unit as a regular expression: decimal, thousands parted or not, or with a fraction as on a tape. */
const NUMBER = `[+-]?(?:${TAPE}|${GROUPED}|${DECIMAL})`;

/** The same with what word processors and phones make of it: fractions in one letter, dashes, blanks. */
export const TYPED_NUMBER = String.raw`[+\-−]?(?:\d*\s*[-–]?\s*[${LETTERS}]|\d+\s*[-–]\s*\d+[/⁄]0*[1-9]\d*|\d+\s+\d+[/⁄]0*[1-9]\d*|\d+[/⁄]0*[1-9]\d*|${GROUPED}|${DECIMAL})`;

const MEASURE = new RegExp(String.raw`^(${NUMBER})\s*([^\d\s.,/+-].*)?$`, 's');
// After the mark ' the inches may stand bare, after the word ft not: 1 ft2 is an area.
const INCHES = String.raw`-?\s*(?<inches>${TAPE}|\d+\.?\d*|\.\d+)\s*`;
const FEET_AND_INCHES = [
  new RegExp(String.raw`^(?<sign>[+-]?)(?<feet>\d+)\s*'\s*${INCHES}(?:"|in|inch|inches)?$`),
  new RegExp(String.raw`^(?<sign>[+-]?)(?<feet>\d+)\s*(?:ft|feet|foot)\s*${INCHES}(?:"|in|inch|inches)$`),
];
const MARKS: Readonly<Record<string, string>> = { '"': 'in', "'": 'ft' };

/** The same in the letters of a plain keyboard: straight marks of feet and inches, a hyphen, one blank before a fraction. */
export function plainLetters(text: string): string {
  return text
    .replace(/[\u00a0\u2000-\u200a\u202f]/g, ' ')
    .replace(/[’‘′]/g, "'")
    .replace(/[“”„″]|''/g, '"')
    .replace(/[‐‑–—−]/g, '-')
    .replace(/⁄/g, '/')
    .replace(new RegExp(`(\\d?)\\s*-?\\s*([${LETTERS}])`, 'g'), (all, digit: string, letter: string) =>
      digit === '' ? all.replace(letter, FRACTION_LETTERS[letter]!) : `${digit} ${FRACTION_LETTERS[letter]}`,
    )
    .replace(/(\d)(?:\s*-\s*|\s+)(?=\d+\/\d)/g, '$1 ');
}

/** A number without its unit: decimal, or inches and a fraction as a tape shows them ("39 1/4", "39-1/4", "3/8", "39¼"). */
export function readNumber(text: string): number | undefined {
  // The cells of a log are read here by the hundred thousand: nearly all are plain decimals.
  if (/^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i.test(text)) {
    const value = Number(text);
    return Number.isFinite(value) ? value : undefined;
  }
  const parts = /^([+-]?)(?:(\d+) )?(\d+)\/(\d+)$/.exec(plainLetters(text));
  if (parts === null) return undefined;
  const [, sign, whole, above, below] = parts;
  // "39 5/4" is a slip: whole inches stand before what is left over.
  if (whole !== undefined && Number(above) >= Number(below)) return undefined;
  const size = Number(whole ?? 0) + Number(above) / Number(below);
  return Number.isFinite(size) ? (sign === '-' ? -size : size) : undefined;
}

/** A number as written, in its own unit. */
export interface Measure {
  number: number;
  /** As it was written, but in or ft for the marks " and '; empty where there is none. */
  unit: string;
}

/**
 * Number and unit of a text such as '39 1/4 in', '39¼"', 3'3", 3 ft 3 1/2 in or '3,400 lb', or undefined when it is none;
 * the unit may be one that is not known. A comma parts thousands only: three digits stand behind it and no nought before.
 */
export function parseMeasure(text: string): Measure | undefined {
  const plain = plainLetters(text.trim());
  const feet = FEET_AND_INCHES.map((form) => form.exec(plain)).find((found) => found !== null)?.groups;
  if (feet !== undefined) {
    const inches = readNumber(feet.inches!);
    // As 39 5/4: whole feet stand before what is left over.
    if (inches === undefined || inches >= 12) return undefined;
    const number = 12 * Number(feet.feet) + inches;
    return { number: feet.sign === '-' ? -number : number, unit: 'in' };
  }
  const parts = MEASURE.exec(plain);
  const number = parts?.[1] === undefined ? undefined : readNumber(parts[1].replaceAll(',', ''));
  const unit = parts?.[2]?.trim() ?? '';
  return number === undefined ? undefined : { number, unit: MARKS[unit] ?? unit };
}

/**
 * A length as written, m; undefined when it is none.
 * @param bare  unit of a number that stands without one; left out: such a number is no length
 */
export function readLength(text: string, bare?: 'in' | 'mm'): number | undefined {
  const measure = parseMeasure(text);
  const unit = measure && findUnit('length', measure.unit === '' ? (bare ?? '') : measure.unit);
  return unit && measure.number * unit.factor;
}

const MONTHS = ['jan', 'feb', 'mar', 'apr', 'may', 'jun', 'jul', 'aug', 'sep', 'oct', 'nov', 'dec'];

/**
 * The fraction that a spreadsheet has taken for a date: '7/8' for '8-Jul' (month first) and for '7-Aug' (day first),
 * undefined for anything else. Of the two readings it is the one below 1.
 */
export function fractionOfDate(text: string): string | undefined {
  const plain = plainLetters(text.trim()).toLowerCase();
  const parts =
    /^(?<day>\d{1,2})[- .]*(?<month>[a-z]{3})[a-z]*\.?(?:[- .]+\d{2,4})?$/.exec(plain) ??
    /^(?<month>[a-z]{3})[a-z]*[- .]*(?<day>\d{1,2})$/.exec(plain) ??
    /^\d{4}-(?<month>\d{2})-(?<day>\d{2})(?:[ t]00:00(?::00)?)?$/.exec(plain);
  if (!parts?.groups) return undefined;
  const { day, month } = parts.groups;
  const number = /^\d/.test(month!) ? Number(month) : MONTHS.indexOf(month!) + 1;
  const first = Number(day);
  if (number < 1 || number > 12 || first < 1 || first > 31) return undefined;
  return `${Math.min(first, number)}/${Math.max(first, number)}`;
}
