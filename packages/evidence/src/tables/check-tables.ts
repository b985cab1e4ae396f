import { INCH } from '@tubgap/units';
import {
  ANGLE,
  CENTRE_LEAST,
  CENTRE_MEASURED,
  CENTRE_MOST,
  GAP_LIMIT,
  LENGTH_SD,
  MEASURED_GAP,
  MEASURED_HARD_GAP,
  TOP_LEAST,
  TOP_MEASURED,
} from './columns.ts';
import { BUILT_MISSING, type HandTable, ofRow } from './hand-table.ts';

/** Error of a gap where the table gives none, m, one standard deviation. Prior: engineering judgement. */
export const USUAL_GAP_SD = 0.09 * INCH;

/** The tables of the check sheet: gaps to the tub, gaps to hard points, and the tub's own place. */
export const CHECK_TABLES: readonly HandTable[] = [
  {
    file: 'check-sheet.csv',
    words: ['side'],
    optionalWords: ['date'],
    columns: [ANGLE, MEASURED_GAP, GAP_LIMIT, LENGTH_SD],
    take: (row, file, { built }, into) => {
      const { words, numbers } = row;
      into.checks.push({
        ...ofRow(row, file),
        side: words.side!,
        place: { kind: 'gap', angle: numbers.angle! },
        measured: numbers.measured,
        least: numbers.limit,
        most: undefined,
      });
      // A blank of the sheet that nobody has measured yet.
      if (numbers.measured === undefined) return undefined;
      if (built === undefined) return BUILT_MISSING;
      into.gaps.push({
        ...ofRow(row, file),
        side: words.side!,
        angle: numbers.angle!,
        gap: numbers.measured,
        sd: numbers.sd ?? USUAL_GAP_SD,
        built,
      });
      return undefined;
    },
  },
  {
    file: 'check-hard-points.csv',
    words: ['side', 'hard_point'],
    optionalWords: ['date'],
    columns: [MEASURED_HARD_GAP, GAP_LIMIT],
    take: (row, file, _, into) => {
      const { words, numbers } = row;
      into.checks.push({
        ...ofRow(row, file),
        side: words.side!,
        place: { kind: 'hard point', name: words.hard_point! },
        measured: numbers.measured,
        least: numbers.limit,
        most: undefined,
      });
      return undefined;
    },
  },
  {
    file: 'check-tub.csv',
    words: ['side'],
    optionalWords: ['date'],
    columns: [TOP_MEASURED, TOP_LEAST, CENTRE_MEASURED, CENTRE_LEAST, CENTRE_MOST],
    take: (row, file, _, into) => {
      const { words, numbers } = row;
      const own = { ...ofRow(row, file), side: words.side! };
      into.checks.push(
        {
          ...own,
          place: { kind: 'top height' },
          measured: numbers.top_measured,
          least: numbers.top_least,
          most: undefined,
        },
        {
          ...own,
          place: { kind: 'centre forward' },
          measured: numbers.centre_measured,
          least: numbers.centre_least,
          most: numbers.centre_most,
        },
      );
      return undefined;
    },
  },
];
