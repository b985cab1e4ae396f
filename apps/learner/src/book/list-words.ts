import { wholeText } from '@tubgap/units';
import { BLANK, type Block, figureTable, line, row, strongRow } from '@tubgap/wording';
import { countsIn, countsOf } from './counts.ts';
import { type Due, dueWords } from './due.ts';
import type { Book } from './read-book.ts';

/** Dues that are told at most, the most pressing ones. */
const MOST_DUE = 30;

const counted = (n: number, one: string): string => `${wholeText(n)} ${one}${n === 1 ? '' : 's'}`;

/** A book's cars and what is due, for a terminal: three lines to read out first. */
export function listWords({ folder, book, cars, unreadable }: Book, due: readonly Due[]): Block[] {
  const { readings, unmarkedRuns, marks, newest } = countsIn(cars);
  const pressing = due.filter(({ kind }) => kind === 'unreadable' || kind === 'mark');
  const rows = cars.map((car): string[] => {
    const counts = countsOf(car);
    return [
      car.name,
      car.source.tyres.map(({ name }) => name).join(', '),
      wholeText(counts.readings),
      wholeText(counts.unmarkedRuns),
      wholeText(counts.marks),
      counts.newest || '–',
      wholeText(due.filter((one) => one.car === car.name).length),
    ];
  });
  const told = due.slice(0, MOST_DUE);
  return [
    strongRow(
      'BOOK',
      `${book.name}: ${counted(cars.length, 'car')}${
        unreadable.length === 0 ? '' : `, ${wholeText(unreadable.length)} more cannot be read`
      }${book.invented ? ' [an invented shop]' : ''}`,
    ),
    strongRow(
      'SEEN',
      `${counted(readings, 'reading')}, ${counted(unmarkedRuns, 'run')} without a mark, ${counted(marks, 'mark')}${
        newest === '' ? '' : `; newest of ${newest}`
      }`,
    ),
    strongRow(
      'DUE',
      due.length === 0
        ? 'nothing'
        : `${counted(due.length, 'thing')}${pressing.length === 0 ? '' : `, ${wholeText(pressing.length)} of them first: marks and cars that cannot be read`}`,
    ),
    BLANK,
    ...(rows.length === 0
      ? [row('Cars', `none yet. Add one: tubgap book add ${folder} mycar.yaml`)]
      : [figureTable(['car', 'tyres', 'readings', 'unmarked runs', 'marks', 'newest', 'due'], rows)]),
    BLANK,
    ...told.map((one, i) => row(i === 0 ? 'Due' : '', `${one.car}: ${dueWords(one)}`)),
    ...(due.length > told.length ? [line(`  and ${wholeText(due.length - told.length)} more`)] : []),
  ];
}
