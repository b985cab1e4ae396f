import { findUnit, type QuantityKind } from '@tubgap/units';
import type { NewEntry } from './history-row.ts';

/** A text as one word of a command line, by any shell alike; undefined where shells would make different things of it. */
function wordOf(text: string): string | undefined {
  if (/^[\w./+-]+$/.test(text)) return text;
  return /["$`\\!%^\p{Cc}]/u.test(text) ? undefined : `"${text}"`;
}

const measured = (value: number, kind: QuantityKind, unit: string): string =>
  `${Number((value / findUnit(kind, unit)!.factor).toPrecision(10))} ${unit}`;

/**
 * The command that enters the same in a book, for whoever sits at the shop's computer; undefined where a text has signs that a
 * shell takes for its own.
 * @param folder  of the book
 * @param car  its name in the book
 */
export function enterLine(
  folder: string,
  car: string,
  { date, kind, words, numbers }: NewEntry,
): string | undefined {
  const { runs, speed_low: low, speed_high: high, top_height: top, centre_forward: centre } = numbers;
  const speeds = [low ?? high, high ?? low].flatMap((one) =>
    one === undefined ? [] : [measured(one, 'speed', 'mph')],
  );
  const length = (value: number | undefined): string | undefined =>
    value === undefined ? undefined : measured(value, 'length', 'in');
  const options: readonly (readonly [string, string | undefined])[] = [
    ['--entry', kind],
    ['--date', date],
    ['--tyre', words.tyre],
    ['--batch', words.batch],
    ['--tub', words.tub],
    ['--top', length(top)],
    ['--centre', length(centre)],
    ['--runs', runs === undefined ? undefined : String(runs)],
    ['--speed', speeds.length === 0 ? undefined : [...new Set(speeds)].join(' to ')],
    ['--mark', words.mark],
    ['--angle', numbers.angle === undefined ? undefined : measured(numbers.angle, 'angle', 'deg')],
    ['--gap', length(numbers.measured)],
    ['--note', words.note],
  ];
  const told = options.flatMap(([name, text]) => (text === undefined ? [] : [name, wordOf(text)]));
  const all = ['tubgap', 'book', 'enter', wordOf(folder), wordOf(car), ...told];
  return all.includes(undefined) ? undefined : all.join(' ');
}
