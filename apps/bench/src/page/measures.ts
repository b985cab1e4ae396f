import { findUnit, readNumber } from '@tubgap/casefile';
import { GAP_ANGLES, INCH } from '@tubgap/simulation';
import type { BenchState } from './bench-state.ts';
import type { Units } from './words.ts';

/** A mark, or none, that was looked for after some runs: on the tub's skin or on a witness stuck to it. */
export interface Mark {
  /** Degrees from straight up, ahead positive. */
  angle: string;
  touched: boolean;
  runs: string;
  /** Of the witness, as typed; empty: the skin itself. */
  thickness: string;
}

/** What was typed in at the car, as it was typed. */
export interface Measures {
  /** By side and angle: 'left 15'. */
  gaps: Readonly<Record<string, string>>;
  marks: readonly Mark[];
}

export const SIDES = ['left', 'right'] as const;
export const NO_MEASURES: Measures = { gaps: {}, marks: [] };

/** A typed length, m; a number without a unit is in the page's. Undefined when it is none. */
export function typedLength(text: string, units: Units): number | undefined {
  const parts = /^([+-]?[\d./ -]*\d)\s*(in|mm|cm)?$/.exec(text.trim().replace(',', '.'));
  const number = readNumber(parts?.[1] ?? '');
  const unit = findUnit('length', parts?.[2] ?? (units === 'inch' ? 'in' : 'mm'));
  return number === undefined || unit === undefined ? undefined : number * unit.factor;
}

const inches = (metres: number): string => (metres / INCH).toFixed(4);
const plain = (name: string): string => (/[",\n]/.test(name) ? `"${name.replaceAll('"', '""')}"` : name);
const rows = (lines: readonly (readonly (string | number)[])[]): string =>
  `${lines.map((line) => line.map((cell) => plain(String(cell))).join(',')).join('\n')}\n`;

/** A whole number that was typed; undefined when it is none. */
const whole = (text: string): number | undefined =>
  /^[+-]?\d+$/.test(text.trim()) ? Number(text) : undefined;

/** The tables that `tubgap learn` reads, of all that was typed and can be read, by file name. */
export function measuredTables(
  state: BenchState,
  place: { tub: string; tyre: string; centre: number; topHeight: number },
): Record<string, string> {
  const { units, measures } = state;
  const gaps = SIDES.flatMap((side) =>
    GAP_ANGLES.flatMap((angle) => {
      const gap = typedLength(measures.gaps[`${side} ${angle}`] ?? '', units);
      return gap === undefined ? [] : [[side, angle, inches(gap)]];
    }),
  );
  const marks = measures.marks.flatMap(({ angle, touched, runs, thickness }) => {
    const [degrees, count] = [whole(angle), whole(runs)];
    const thick = thickness.trim() === '' ? 0 : typedLength(thickness, units);
    if (degrees === undefined || count === undefined || thick === undefined) return [];
    return [[place.tyre, degrees, touched ? 'touched' : 'not touched', inches(thick), count]];
  });
  const built = [
    ['tub', 'top_height_in', 'centre_forward_in'],
    [place.tub, inches(place.topHeight), inches(place.centre)],
  ];
  return {
    'as-built.csv': rows(built),
    ...(gaps.length > 0 && { 'check-sheet.csv': rows([['side', 'angle_deg', 'measured_in'], ...gaps]) }),
    ...(marks.length > 0 && {
      'marks.csv': rows([['tyre', 'angle_deg', 'mark', 'thickness_in', 'runs'], ...marks]),
    }),
  };
}
