import { figuresIn, type LengthUnits, wholeDegrees } from '@tubgap/units';
import type { CheckedValue, CheckVerdict, Judgement } from './check-verdict.ts';

/** 'gap at 15°, left', 'top height, right', or the line that could not be read. */
export function checkedPlaceText({ place, side, file, line }: CheckedValue): string {
  if (place === undefined) return line > 0 ? `${file}:${line}` : file;
  const what =
    place.kind === 'gap'
      ? `gap at ${wholeDegrees(place.angle)}°`
      : place.kind === 'hard point'
        ? `gap to ${place.name}`
        : place.kind === 'top height'
          ? 'top height'
          : 'centre ahead of the axle';
  return `${what}, ${side}`;
}

function limitText({ least, most }: CheckedValue, length: (metres: number) => string): string {
  if (least === undefined && most === undefined) return 'the table gives no limit';
  if (most === undefined) return `passes at ${length(least!)} and over`;
  if (least === undefined) return `passes at ${length(most)} and under`;
  return `passes from ${length(least)} to ${length(most)}`;
}

/** One value of the check sheet in words: 'gap at 15°, left: 5.5 in, passes at 5.7829 in and over: FAIL by 0.2829 in'. */
export function checkedText(value: CheckedValue, units?: LengthUnits): string {
  const length = (metres: number): string => figuresIn(units).exact(metres, 'length');
  const where = value.line > 0 ? ` (${value.file}:${value.line})` : '';
  const place = checkedPlaceText(value);
  switch (value.judgement) {
    case 'pass':
      return `${place}: ${length(value.measured!)}, ${limitText(value, length)}: PASS`;
    case 'fail':
      return `${place}: ${length(value.measured!)}, ${limitText(value, length)}: FAIL by ${length(value.outside)}${where}`;
    case 'no limit':
      return `${place}: ${length(value.measured!)}, not judged: ${limitText(value, length)}${where}`;
    case 'not measured':
      return `${place}: not measured${where}`;
    case 'unread':
      return `${place}: cannot be read`;
  }
}

/** Places that are named one by one. */
const MOST_NAMED = 12;

function named(values: readonly CheckedValue[]): string {
  const more = values.length - MOST_NAMED;
  return [...values.slice(0, MOST_NAMED).map(checkedPlaceText), ...(more > 0 ? [`${more} more`] : [])].join(
    '; ',
  );
}

const WAITING = {
  'not measured': 'not measured',
  unread: 'cannot be read',
  'no limit':
    'not judged, for their table gives no limit (type the values back into the tables of the results folder)',
} as const satisfies Partial<Record<Judgement, string>>;

/** The whole check sheet in one sentence: PASS, FAIL or what is still to be measured. */
export function checkSummary({ whole, values }: CheckVerdict): string {
  const of = (judgement: Judgement): CheckedValue[] =>
    values.filter((value) => value.judgement === judgement);
  if (whole === 'pass') return `PASS: all ${values.length} values of the check sheet are within their limits`;
  const waiting = (Object.keys(WAITING) as (keyof typeof WAITING)[]).flatMap((judgement) => {
    const found = of(judgement);
    return found.length === 0 ? [] : [`${found.length} ${WAITING[judgement]}: ${named(found)}`];
  });
  const rest = `${of('pass').length} of ${values.length} pass${waiting.map((words) => `; ${words}`).join('')}`;
  const failed = of('fail');
  return failed.length > 0
    ? `FAIL: ${named(failed)}. ${rest}`
    : `NOT PASSED YET: ${rest}. Everything passes, or the car does not run`;
}
