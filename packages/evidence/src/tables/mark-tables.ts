import type { AsBuilt, RunsReading } from '../readings.ts';
import { ANGLE, CENTRE_FORWARD, RUNS, SPEED_HIGH, SPEED_LOW, THICKNESS, TOP_THEN } from './columns.ts';
import { BUILT_MISSING, type HandTable, ofRow, ofTyre, type TableContext, tubUnknown } from './hand-table.ts';
import type { MeasuredRow } from './measured-table.ts';
import { quoted } from './table-text.ts';

const TOUCHED: ReadonlyMap<string, boolean> = new Map([
  ['touched', true],
  ['rub', true],
  ['rubbed', true],
  ['marked', true],
  ['yes', true],
  ['not touched', false],
  ['untouched', false],
  ['clean', false],
  ['no touch', false],
  ['no', false],
]);

/** Whether runs left a mark: the words of a touch, and those of a look over the whole tub. */
export const MARKED: ReadonlyMap<string, boolean> = new Map([
  ...TOUCHED,
  ['mark', true],
  ['none', false],
  ['no mark', false],
  ['unmarked', false],
]);

/** Whether something was stuck on the place that would show a touch; nobody who writes nothing says so. */
const WITNESS: ReadonlyMap<string, boolean> = new Map([
  ['', false],
  ['no', false],
  ['none', false],
  ['yes', true],
  ['chalk', true],
  ['tape', true],
  ['clay', true],
  ['paint', true],
  ['grease', true],
]);

/** Bare skin may be touched and show nothing, so that no mark on it says nothing. */
const NO_WITNESS =
  'no mark says nothing where nothing was stuck that would show one; where chalk, tape or clay was on that place, write yes under witness';

/**
 * Runs with the tub in the car, and whether the whole tub showed a new mark after them. The row may say how the tub stood
 * then; one that does not means the tub as built.
 * @returns the reading, or why there is none
 */
export function runsOf(
  row: MeasuredRow,
  file: string,
  built: AsBuilt | undefined,
): Omit<RunsReading, 'tyre'> | string {
  const { words, numbers } = row;
  const marked = MARKED.get(words.mark!.toLowerCase());
  if (marked === undefined) return `mark ${quoted(words.mark!)} is not known; write mark or none`;
  const { speed_low: low = numbers.speed_high, speed_high: high = low } = numbers;
  if (low !== undefined && high !== undefined && low > high)
    return 'the slower speed (speed_low) is above the faster one (speed_high)';
  if (built === undefined) return BUILT_MISSING;
  return {
    ...ofRow(row, file),
    runs: numbers.runs!,
    speeds: low === undefined || high === undefined ? undefined : { low, high },
    marked,
    built,
  };
}

/** Where the tub stood in the runs of a row: the row's own word, or else the tub as built. */
function builtOfRow(
  { words, numbers }: MeasuredRow,
  { built, tubs }: TableContext,
): AsBuilt | string | undefined {
  const tub = words.tub ? words.tub : built?.tub;
  const topHeight = numbers.top_height ?? (tub === built?.tub ? built?.topHeight : undefined);
  if (tub === undefined || topHeight === undefined) return undefined;
  if (!tubs.includes(tub)) return tubUnknown(tub, tubs);
  const centreForward = numbers.centre_forward ?? (tub === built?.tub ? built?.centreForward : undefined);
  return { tub, topHeight, centreForward };
}

/** Marks at places of the tub, and runs after which the whole of it was looked at. */
export const MARK_TABLES: readonly HandTable[] = [
  {
    file: 'marks.csv',
    words: ['tyre', 'mark'],
    optionalWords: ['date', 'witness'],
    columns: [ANGLE, RUNS, THICKNESS],
    take: ofTyre((reading, { words, numbers }, { built }, into) => {
      const touched = TOUCHED.get(words.mark!.toLowerCase());
      if (touched === undefined)
        return `mark ${quoted(words.mark!)} is not known; write touched or not touched`;
      const witness = WITNESS.get((words.witness ?? '').toLowerCase());
      if (witness === undefined) {
        return `witness ${quoted(words.witness!)} is not known; write yes (or chalk, tape, clay, paint) or no`;
      }
      if (!touched && !witness) return NO_WITNESS;
      if (built === undefined) return BUILT_MISSING;
      into.marks.push({
        ...reading,
        angle: numbers.angle!,
        touched,
        thickness: numbers.thickness ?? 0,
        runs: numbers.runs!,
        built,
      });
      return undefined;
    }),
  },
  {
    file: 'runs.csv',
    words: ['tyre', 'mark'],
    optionalWords: ['date', 'tub'],
    columns: [RUNS, SPEED_LOW, SPEED_HIGH, TOP_THEN, CENTRE_FORWARD],
    take: ofTyre(({ tyre }, row, context, into) => {
      const place = builtOfRow(row, context);
      const read = typeof place === 'string' ? place : runsOf(row, 'runs.csv', place);
      if (typeof read === 'string') return read;
      into.runs.push({ ...read, tyre });
      return undefined;
    }),
  },
];
