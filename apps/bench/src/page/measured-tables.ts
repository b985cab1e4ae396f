import { findUnit, readNumber } from '@tubgap/casefile';
import { GAP_ANGLES, INCH } from '@tubgap/simulation';
import type { Measures } from '../carried/measures.ts';
import type { Units } from './words.ts';

export const SIDES = ['left', 'right'] as const;

/** Whether anything stands in the fields. */
export const isEmpty = ({ gaps, marks }: Measures): boolean =>
  marks.length === 0 && Object.values(gaps).every((text) => text.trim() === '');

/** A typed length, m; a number without a unit is in the page's. Undefined when it is none. */
export function typedLength(text: string, units: Units): number | undefined {
  const parts = /^([+-]?[\d./ -]*\d)\s*(in|mm|cm)?$/.exec(text.trim().replace(',', '.'));
  const number = readNumber(parts?.[1] ?? '');
  const unit = findUnit('length', parts?.[2] ?? (units === 'inch' ? 'in' : 'mm'));
  return number === undefined || unit === undefined ? undefined : number * unit.factor;
}

const quoted = (name: string): string => (/[",\n]/.test(name) ? `"${name.replaceAll('"', '""')}"` : name);
const table = (lines: readonly (readonly (string | number)[])[]): string =>
  `${lines.map((line) => line.map((cell) => quoted(String(cell))).join(',')).join('\n')}\n`;

const inches = (metres: number): string => (metres / INCH).toFixed(4);

/** A whole number that was typed; undefined when it is none. */
const whole = (text: string): number | undefined =>
  /^[+-]?\d+$/.test(text.trim()) ? Number(text) : undefined;

/**
 * The tables that `tubgap learn` reads, of all that was typed and can be read, by file name.
 * @param built  the tub in the measured car, its inside top above the track and its centre ahead of the axle, m
 */
export function measuredTables(
  measures: Measures,
  units: Units,
  built: { tub: string; topHeight: number; centre: number },
): Record<string, string> {
  const gaps = SIDES.flatMap((side) =>
    GAP_ANGLES.flatMap((angle) => {
      const gap = typedLength(measures.gaps[`${side} ${angle}`] ?? '', units);
      return gap === undefined ? [] : [[side, angle, inches(gap)]];
    }),
  );
  const marks = measures.marks.flatMap(({ tyre, angle, touched, runs, thickness }) => {
    const [degrees, count] = [whole(angle), whole(runs)];
    const thick = thickness.trim() === '' ? 0 : typedLength(thickness, units);
    if (degrees === undefined || count === undefined || thick === undefined) return [];
    return [[tyre, degrees, touched ? 'touched' : 'not touched', inches(thick), count]];
  });
  return {
    'as-built.csv': table([
      ['tub', 'top_height_in', 'centre_forward_in'],
      [built.tub, inches(built.topHeight), inches(built.centre)],
    ]),
    ...(gaps.length > 0 && { 'check-sheet.csv': table([['side', 'angle_deg', 'measured_in'], ...gaps]) }),
    ...(marks.length > 0 && {
      'marks.csv': table([['tyre', 'angle_deg', 'mark', 'thickness_in', 'runs'], ...marks]),
    }),
  };
}
