import { wholeDegrees } from '@tubgap/units';
import type { CheckedPlace, CheckReading, Rejected } from './readings.ts';

/** What became of one value of the check sheet. */
export type Judgement =
  | 'pass'
  | 'fail'
  /** Nothing is written there. */
  | 'not measured'
  /** Measured, but the table says no limit. */
  | 'no limit'
  /** Written, but no value that can be: the row is left out of everything. */
  | 'unread';

/** One value of the check sheet against its limits; m. */
export interface CheckedValue {
  /** As the table names it; empty where a row could not be read. */
  side: string;
  place: CheckedPlace | undefined;
  /** Where it stands; line 0 where the table has no row for it. */
  file: string;
  line: number;
  measured: number | undefined;
  least: number | undefined;
  most: number | undefined;
  judgement: Judgement;
  /** By how much it is outside its limits, 0 or more. */
  outside: number;
}

/** The check sheet as a whole: fail where one value fails; pass only where every value is there and passes. */
export interface CheckVerdict {
  whole: 'pass' | 'fail' | 'incomplete';
  values: CheckedValue[];
}

/** Tables that the check sheet is typed back into. */
export const CHECK_FILES = {
  gap: 'check-sheet.csv',
  'hard point': 'check-hard-points.csv',
  'top height': 'check-tub.csv',
  'centre forward': 'check-tub.csv',
} as const satisfies Record<CheckedPlace['kind'], string>;

const SIDES = ['left', 'right'] as const;
/** Rounding of the last digits fails nobody, m. */
const SLACK = 1e-9;

/** How far a value is outside its limits, m; NaN where there are none to judge by. */
function outsideBy({ measured, least, most }: CheckReading): number {
  if (least === undefined && most === undefined) return Number.NaN;
  return Math.max(
    0,
    (least ?? Number.NEGATIVE_INFINITY) - measured!,
    measured! - (most ?? Number.POSITIVE_INFINITY),
  );
}

function judged(check: CheckReading): CheckedValue {
  const { side, place, file, line, measured, least, most } = check;
  const value = { side, place, file, line, measured, least, most };
  if (measured === undefined) return { ...value, judgement: 'not measured', outside: 0 };
  const outside = outsideBy(check);
  if (Number.isNaN(outside)) return { ...value, judgement: 'no limit', outside: 0 };
  return { ...value, judgement: outside > SLACK ? 'fail' : 'pass', outside };
}

const keyOf = (place: CheckedPlace): string =>
  place.kind === 'gap'
    ? `gap ${wholeDegrees(place.angle)}`
    : place.kind === 'hard point'
      ? `hard point ${place.name}`
      : place.kind;

/** The two sides of a car that the sheet asks for but its tables have no row of: not measured. */
function missing(checks: readonly CheckReading[], hardPoints: readonly string[]): CheckedValue[] {
  const places = new Map<string, CheckedPlace>();
  const asked: CheckedPlace[] = [
    ...checks.map(({ place }) => place),
    ...hardPoints.map((name): CheckedPlace => ({ kind: 'hard point', name })),
    { kind: 'top height' },
    { kind: 'centre forward' },
  ];
  for (const place of asked) places.set(keyOf(place), place);
  const there = new Set(checks.map(({ side, place }) => `${side.toLowerCase()} ${keyOf(place)}`));
  return [...places].flatMap(([key, place]) =>
    SIDES.filter((side) => !there.has(`${side} ${key}`)).map((side): CheckedValue => {
      const file = CHECK_FILES[place.kind];
      const none = { measured: undefined, least: undefined, most: undefined };
      return { side, place, file, line: 0, ...none, judgement: 'not measured', outside: 0 };
    }),
  );
}

/**
 * Holds every value of a filled check sheet against its limits, left and right: gaps to the tub and to hard points, the
 * top's height and the tub's centre. What the sheet asks for and nobody measured, or wrote so that it cannot be read,
 * keeps the whole from passing: everything passes, or the car does not run.
 * @param rejected    rows of all tables that were left out
 * @param hardPoints  names of those that the case has
 * @returns undefined where there is no check sheet at all
 */
export function judgeChecks(
  checks: readonly CheckReading[],
  rejected: readonly Rejected[],
  hardPoints: readonly string[],
): CheckVerdict | undefined {
  const files: readonly string[] = Object.values(CHECK_FILES);
  const read = new Set(checks.map(({ file, line }) => `${file}:${line}`));
  const unread = rejected.filter(({ file, line }) => files.includes(file) && !read.has(`${file}:${line}`));
  if (checks.length === 0 && unread.length === 0) return undefined;
  const values = [
    ...checks.map(judged),
    ...unread.map(({ file, line }): CheckedValue => {
      const none = { measured: undefined, least: undefined, most: undefined };
      return { side: '', place: undefined, file, line, ...none, judgement: 'unread', outside: 0 };
    }),
    ...missing(checks, hardPoints),
  ];
  const whole = values.some(({ judgement }) => judgement === 'fail')
    ? 'fail'
    : values.every(({ judgement }) => judgement === 'pass')
      ? 'pass'
      : 'incomplete';
  return { whole, values };
}
