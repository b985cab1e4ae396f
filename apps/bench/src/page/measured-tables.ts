import {
  CENTRE_MEASURED,
  MEASURED_GAP,
  MEASURED_HARD_GAP,
  type NumberColumn,
  TOP_MEASURED,
} from '@tubgap/evidence';
import { inchCell, readLength, wholeDegrees } from '@tubgap/units';
import { csvLines as table } from '../carried/csv-lines.ts';
import type { Mark, Measures } from '../carried/measures.ts';
import type { CheckRow } from './check-rows.ts';
import { lengthText, type Units } from './words.ts';

export const SIDES = ['left', 'right'] as const;

/** Whether anything stands in the fields. */
export const isEmpty = ({ gaps, checks, marks }: Measures): boolean =>
  marks.length === 0 &&
  [...Object.values(gaps), ...Object.values(checks)].every((text) => text.trim() === '');

/** A typed length, m; a number without a unit is in the page's. Undefined when it is none. */
export function typedLength(text: string, units: Units): number | undefined {
  return readLength(text.replace(',', '.'), units === 'inch' ? 'in' : 'mm');
}

/** Ranges of what is typed from the check sheet: those of its tables. */
const COLUMNS = {
  gap: MEASURED_GAP,
  'hard point': MEASURED_HARD_GAP,
  'top height': TOP_MEASURED,
  'centre forward': CENTRE_MEASURED,
} as const satisfies Record<CheckRow['place']['kind'], NumberColumn>;

/** What was typed for a place of the check sheet, m; why it cannot be; neither where nothing was typed. */
export function typedCheck(
  text: string,
  { kind }: CheckRow['place'],
  units: Units,
): { value?: number; problem?: string } {
  if (text.trim() === '') return {};
  const value = typedLength(text, units);
  if (value === undefined) return { problem: 'not a length' };
  const { low, high } = COLUMNS[kind];
  return value >= low && value <= high
    ? { value }
    : { problem: `cannot be: ${lengthText(low, 'up', units)} to ${lengthText(high, 'down', units)}` };
}

/** A whole number that was typed; undefined when it is none. */
const whole = (text: string): number | undefined =>
  /^[+-]?\d+$/.test(text.trim()) ? Number(text) : undefined;

/** What is still to be said of a mark before it counts for anything; undefined when it counts. */
export function markProblem(
  { touched, witness, angle, runs, thickness }: Mark,
  units: Units,
): string | undefined {
  const wanted = [
    ...(touched === undefined ? ['whether it was touched'] : []),
    ...(witness === undefined ? ['whether something was stuck there'] : []),
    ...(whole(angle) === undefined ? ['the angle in whole degrees'] : []),
    ...(whole(runs) === undefined ? ['the number of runs'] : []),
    ...(thickness.trim() !== '' && typedLength(thickness, units) === undefined
      ? ['a thickness that is a length']
      : []),
  ];
  if (wanted.length > 0) return `Not used yet: say ${wanted.join(', ')}.`;
  if (!touched && !witness) {
    return 'Not used: bare skin may be touched and show nothing. No mark says something only where chalk, tape or clay was stuck on that place.';
  }
  return undefined;
}

const markRow = (
  { tyre, angle, touched, witness, runs, thickness }: Mark,
  units: Units,
): (string | number)[] => [
  tyre,
  whole(angle)!,
  touched ? 'touched' : 'not touched',
  witness ? 'yes' : 'no',
  thickness.trim() === '' ? inchCell(0) : inchCell(typedLength(thickness, units)),
  whole(runs)!,
];

/** Tables of the check sheet with what was typed in and what passes; those alone in which something was typed. */
function checkTables(rows: readonly CheckRow[]): Record<string, string> {
  const typed = (kind: CheckRow['place']['kind']): boolean =>
    rows.some(({ place, measured }) => place.kind === kind && measured !== undefined);
  const of = (kind: CheckRow['place']['kind'], side: string): CheckRow | undefined =>
    rows.find((row) => row.place.kind === kind && row.side === side);
  const gaps = rows.flatMap(({ side, place, least, measured }) =>
    place.kind === 'gap' ? [[side, wholeDegrees(place.angle), inchCell(measured), inchCell(least)]] : [],
  );
  const points = rows.flatMap(({ side, place, least, measured }) =>
    place.kind === 'hard point' ? [[side, place.name, inchCell(measured), inchCell(least)]] : [],
  );
  const own = SIDES.map((side) => {
    const [top, centre] = [of('top height', side), of('centre forward', side)];
    return [
      side,
      inchCell(top?.least),
      inchCell(top?.measured),
      inchCell(centre?.least),
      inchCell(centre?.most),
      inchCell(centre?.measured),
    ];
  });
  return {
    ...(typed('gap') && {
      'check-sheet.csv': table([['side', 'angle_deg', 'measured_in', 'limit_in'], ...gaps]),
    }),
    ...(typed('hard point') && {
      'check-hard-points.csv': table([['side', 'hard_point', 'measured_in', 'limit_in'], ...points]),
    }),
    ...((typed('top height') || typed('centre forward')) && {
      'check-tub.csv': table([
        [
          'side',
          'top_least_in',
          'top_measured_in',
          'centre_least_in',
          'centre_most_in',
          'centre_measured_in',
        ],
        ...own,
      ]),
    }),
  };
}

/**
 * The tables that `tubgap learn` reads, of all that was typed and can be read, by file name.
 * @param rows  of the check sheet
 * @param built  the tub in the measured car, its inside top above the track and its centre ahead of the axle, m
 */
export function measuredTables(
  measures: Measures,
  rows: readonly CheckRow[],
  units: Units,
  built: { tub: string; topHeight: number; centre: number },
): Record<string, string> {
  const marks = measures.marks
    .filter((mark) => markProblem(mark, units) === undefined)
    .map((mark) => markRow(mark, units));
  return {
    'as-built.csv': table([
      ['tub', 'top_height_in', 'centre_forward_in'],
      [built.tub, inchCell(built.topHeight), inchCell(built.centre)],
    ]),
    ...checkTables(rows),
    ...(marks.length > 0 && {
      'marks.csv': table([['tyre', 'angle_deg', 'mark', 'witness', 'thickness_in', 'runs'], ...marks]),
    }),
  };
}
