import { wholeText } from '@tubgap/units';
import type { BookInUse } from '../case.ts';

/** What a shop's priors rest on. */
type Ground = Pick<BookInUse, 'cars' | 'unmarkedRuns' | 'marks'>;

const counted = (count: number, one: string, more: string): string =>
  `${wholeText(count)} ${count === 1 ? one : more}`;

/** '7 cars, 212 runs without a mark, 3 marks': what a shop's priors rest on. */
export const bookWords = ({ cars, unmarkedRuns, marks }: Ground): string =>
  [
    counted(cars, 'car', 'cars'),
    counted(unmarkedRuns, 'run without a mark', 'runs without a mark'),
    counted(marks, 'mark', 'marks'),
  ].join(', ');

/** Inputs of the case's own that are named. */
const MOST_NAMED = 4;

/** Which of a case's figures start from the shop's book, what that rests on, and what stays the case's own. */
export function bookInUseWords(book: BookInUse): string {
  const { name, file, date, tyres, inputs, own } = book;
  const from = `${file} of the book ${name}${date === '' ? '' : `, up to ${date}`}: ${bookWords(book)}`;
  const given =
    inputs === 0
      ? 'nothing of this case starts from it'
      : `${counted(inputs, 'input', 'inputs')} of ${tyres.join(' and ')} ${inputs === 1 ? 'starts' : 'start'} from it, not measured on this car`;
  const named = own.slice(0, MOST_NAMED).join(', ');
  const more = own.length > MOST_NAMED ? ` and ${own.length - MOST_NAMED} more` : '';
  return `${from}; ${given}${own.length === 0 ? '' : `; the case's own stays: ${named}${more}`}`;
}
