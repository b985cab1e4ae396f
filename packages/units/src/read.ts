import { findUnit } from './quantity.ts';

/** A number as a regular expression: decimal, or with a fraction as on a tape. */
export const NUMBER = String.raw`[+-]?(?:\d+[ -]\d+\/\d+|\d+\/\d+|(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?)`;

const MEASURE = new RegExp(String.raw`^(${NUMBER})\s*([^\d\s.,/+-].*)?$`, 's');

/** A number without its unit: decimal, or inches and a fraction as a tape shows them ("39 1/4", "39-1/4", "3/8"). */
export function readNumber(text: string): number | undefined {
  const parts = /^([+-]?)(?:(\d+)[ -])?(\d+)\/(\d+)$/.exec(text);
  if (parts) {
    const [, sign, whole, above, below] = parts;
    // "39 5/4" is a slip: whole inches stand before what is left over.
    if (whole !== undefined && Number(above) >= Number(below)) return undefined;
    const size = Number(whole ?? 0) + Number(above) / Number(below);
    return Number.isFinite(size) ? (sign === '-' ? -size : size) : undefined;
  }
  const value = /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i.test(text) ? Number(text) : Number.NaN;
  return Number.isFinite(value) ? value : undefined;
}

/** A number as written, in its own unit. */
export interface Measure {
  number: number;
  /** As it was written; empty where there is none. */
  unit: string;
}

/** Number and unit of a text such as '39 1/4 in', or undefined when it is none; the unit may be one that is not known. */
export function parseMeasure(text: string): Measure | undefined {
  // A length on show has the true minus.
  const parts = MEASURE.exec(text.trim().replace(/^\u2212/, '-'));
  const number = parts?.[1] === undefined ? undefined : readNumber(parts[1]);
  return number === undefined ? undefined : { number, unit: parts?.[2]?.trim() ?? '' };
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
