import { bookWords } from '@tubgap/casefile';
import type { CarGrowth, ModelGrowth, Teaching } from '@tubgap/evidence';
import { hundredths, mphText, percentText, wholeText } from '@tubgap/units';
import type { LabelledText } from '../stop-words.ts';
import { type Due, dueWords } from './due.ts';
import type { FoundBook } from './finish-book.ts';
import { groundOf, PRIORS_FILE } from './priors-file.ts';
import type { Book } from './read-book.ts';

/** A tyre that stands apart more likely than this is named first. */
const APART = 0.5;
/** Below this chance nobody need look. */
export const WORTH_A_LOOK = 0.2;

/** Index of the last speed of a curve up to one. */
const upTo = ({ speeds }: ModelGrowth, speed: number): number =>
  Math.max(
    0,
    speeds.findLastIndex((one) => one <= speed + 1e-9),
  );

/** '1.58 in (1.32 to 1.90), before 1.41 in (0.87 to 2.00)': growth of a model's new tyre at the finish. */
export function modelWords(growth: ModelGrowth): string {
  const at = upTo(growth, growth.finish);
  const range = ({ low, middle, high }: ModelGrowth['after']): string =>
    `${hundredths(middle[at]!)} (${hundredths(low[at]!)} to ${hundredths(high[at]!)})`;
  return `${growth.model} at ${mphText(growth.speeds[at]!)} grows ${range(growth.after)}, by the program’s prior ${range(growth.before)}`;
}

/** Growth of a car's own tyre in words. */
export const carGrowthWords = ({ speed, low, middle, high }: CarGrowth): string =>
  `${hundredths(middle)} at ${mphText(speed)} (${hundredths(low)} to ${hundredths(high)})`;

/** Cars whose tyre may not be of its model, the likeliest first. */
export const standingApart = ({ apart }: FoundBook, least = WORTH_A_LOOK): FoundBook['apart'] =>
  apart.filter(({ chance }) => chance >= least).sort((a, b) => b.chance - a.chance);

export const apartWords = ({ car, tyre, chance }: FoundBook['apart'][number]): string =>
  `${car} stands apart with ${tyre} (${percentText(chance)} likely): look for a wrong tape or unit, a wrong case, or another tyre`;

const teachingWords = ({ model, car, share }: Teaching): string =>
  `${car === undefined ? `a car that is not in the book yet, with ${model}` : `${car}, ${model}`}: takes away up to ${percentText(share)} of what is not known of how ${model}s grow`;

/** Models that the cars themselves do not bear out, each with by how much. */
const doubtful = ({ priors }: FoundBook): string[] =>
  priors.trust
    .filter(({ narrowed }) => !narrowed)
    .map(
      ({ model, cars, gain }) =>
        `${model} is not narrowed: its ${wholeText(cars)} cars are foretold worse from each other than by the program’s prior (by a factor of ${Math.exp(-gain).toPrecision(2)})`,
    );

/** The three lines that are read first. */
export function leadWords(book: Book, found: FoundBook): [LabelledText, LabelledText, LabelledText] {
  const apart = standingApart(found, APART);
  const offered = found.priors.models.filter(({ inputs }) => inputs.length > 0).length;
  const [first] = found.growth;
  return [
    {
      label: 'BOOK',
      text: `${bookWords(groundOf(book))}: ${
        found.priors.settled
          ? `priors of ${wholeText(offered)} tyre ${offered === 1 ? 'model' : 'models'} for the next car`
          : 'nothing is offered, for the searches do not end at the same answer; add readings, or try another --seed'
      }`,
    },
    { label: 'GROWTH', text: first === undefined ? 'of no tyre' : modelWords(first) },
    {
      label: 'LOOK AT',
      text:
        apart.length > 0
          ? apart.map(apartWords).join('; ')
          : 'no car more likely than not stands apart from the others with its tyre',
    },
  ];
}

/** What else was found, a row each. */
export function foundRows(book: Book, found: FoundBook, due: readonly Due[]): LabelledText[] {
  const { priors, growth, forecasts, reliability, teachings, learned } = found;
  const marked = forecasts.filter(({ happened }) => happened).length;
  const foretold = forecasts.reduce((sum, { chance }) => sum + chance, 0);
  const row = (label: string, texts: readonly string[]): LabelledText[] =>
    texts.map((text, i) => ({ label: i === 0 ? label : '', text }));
  const { worstRHat, leastEffectiveDraws, chains } = priors.sampling;
  return [
    ...row('Growth', growth.slice(1).map(modelWords)),
    ...row(
      'Foretold',
      priors.gains.map(
        ({ car, tyre, gain }) =>
          `${car} with ${tyre}: from the other cars ${gain >= 0 ? `${Math.exp(gain).toPrecision(2)} times likelier` : `${Math.exp(-gain).toPrecision(2)} times less likely`} than by the program’s prior`,
      ),
    ),
    ...row('Not narrowed', doubtful(found)),
    ...(forecasts.length === 0
      ? []
      : row('Marks', [
          `${wholeText(marked)} of ${wholeText(forecasts.length)} entries of runs left one; foretold from the other cars: ${foretold.toPrecision(2)}; ${wholeText(reliability.length)} kinds of forecast in reliability.csv`,
        ])),
    ...row('Measure next', teachings.slice(0, 3).map(teachingWords)),
    ...row(
      'Due',
      due.slice(0, 5).map((one) => `${one.car}: ${dueWords(one)}`),
    ),
    ...(due.length > 5 ? [{ label: '', text: `and ${due.length - 5} more in due.csv` }] : []),
    {
      label: 'How sure',
      text: `${wholeText(chains)} searches, each from a start of its own; at least ${wholeText(Math.round(leastEffectiveDraws))} effective draws of all that cars share and of the run that decides a height (R-hat ${worstRHat.toFixed(3)}, 1 at best)`,
    },
    ...(priors.settled
      ? [
          {
            label: 'Use it',
            text: `a new car: copy ${PRIORS_FILE} into its folder and write "book: ${PRIORS_FILE}" into its case. ${
              learned.length === 0
                ? 'No car of the book learned anything of its own'
                : `A car of the book (${learned.map(({ car }) => car).join(', ')}): copy its file from learned/ as learned.yaml and write "learned: learned.yaml"; never both`
            }`,
          },
        ]
      : []),
    ...row(
      'Left out',
      book.unreadable.map(({ car, why }) => `${car}: ${why}`),
    ),
  ];
}
