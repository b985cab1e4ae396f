import { bookWords } from '@tubgap/casefile';
import {
  type CarGrowth,
  conflictText,
  type HeightTeaching,
  type ModelGrowth,
  type Teaching,
} from '@tubgap/evidence';
import { hundredths, mphText, oneIn, percentText, wholeText } from '@tubgap/units';
import type { LabelledText } from '../stop-words.ts';
import { type Due, dueWords } from './due.ts';
import type { FoundBook } from './finish-book.ts';
import { groundOf, PRIORS_FILE, tapeWords } from './priors-file.ts';
import type { Book } from './read-book.ts';

/** A tyre that stands apart more likely than this is named first. */
const APART = 0.5;
/** Below this chance nobody need look. */
export const WORTH_A_LOOK = 0.2;

/** Readings at odds that are named there. */
const MOST_AT_ODDS = 5;

/** Dues that are named where all else is told too. */
const MOST_DUE = 5;

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

const heightWords = ({ model, car, measure, share, before, after }: HeightTeaching): string =>
  `${measure}, on ${car ?? 'another new car'}: takes away ${percentText(share)} of what is not known of the height that the next car with ${model} needs (${hundredths(before)} as one standard deviation, then ${hundredths(after)})`;

/** What one more car of the shop, or tub of its builder, starts from apart from its tyres. */
const commonWords = ({ builder, cars, inputs }: FoundBook['priors']['common'][number]): string =>
  `${builder === undefined ? 'cars of the shop' : `tubs set out by ${builder}`} (${wholeText(cars)} seen): ${inputs.map(({ label, after }) => `${label} ${after}`).join(', ')}`;

const tapeText = (one: FoundBook['priors']['tapes'][number], { cars }: Book): string =>
  `${one.tape} reads ${tapeWords(one, cars[0]?.source.units ?? 'inch')} too much round a tyre; told here alone, for no case holds a tape: a car measured with it goes into the book, which takes that off`;

/** A reading that sits badly with what else is known. */
export function conflictWords(conflict: FoundBook['conflicts'][number]): string {
  const { reading, against } = conflictText(conflict);
  return `${conflict.car}: ${reading} is ${against}. Look at that reading again: unit, tyre, height of the tub`;
}

/** Models that the cars themselves do not bear out, each with by how much. */
const doubtful = ({ priors }: FoundBook): string[] =>
  priors.trust
    .filter(({ narrowed }) => !narrowed)
    .map(
      ({ model, cars, gain }) =>
        `${model} is not narrowed: its ${wholeText(cars)} cars are foretold worse from each other than by the program’s prior (by a factor of ${Math.exp(-gain).toPrecision(2)})`,
    );

/** A car that must not run before it is known what touched. */
const impossibleWords = ({ car, readings }: FoundBook['leftOut'][number]): string =>
  `${car} has a mark that nothing in its case can have made (${readings.join('; ')}): do not run it until the cause is found; it is no part of this`;

/** Why nothing is offered, with what to do. */
const notOffered = ({ tooRare }: FoundBook): string =>
  tooRare.length > 0
    ? `nothing is offered: a mark of ${tooRare.join(' and ')} is too rare for the runs that stand for all. Look at that entry again (height of the tub, runs, speed); if it is right, its case is not`
    : 'nothing is offered: the searches do not end at the same answer. Add readings, or try another --seed';

/** The three lines that are read first. */
export function leadWords(book: Book, found: FoundBook): [LabelledText, LabelledText, LabelledText] {
  const apart = standingApart(found, APART);
  const offered = found.priors.models.filter(({ inputs }) => inputs.length > 0).length;
  const [first] = found.growth;
  const impossible = found.leftOut.map(impossibleWords);
  return [
    {
      label: 'BOOK',
      text: `${bookWords(groundOf(book))}: ${
        found.priors.settled
          ? `priors of ${wholeText(offered)} tyre ${offered === 1 ? 'model' : 'models'} for the next car`
          : notOffered(found)
      }`,
    },
    { label: 'GROWTH', text: first === undefined ? 'of no tyre' : modelWords(first) },
    {
      label: 'LOOK AT',
      text:
        impossible.length + apart.length > 0
          ? [...impossible, ...apart.map(apartWords)].join('; ')
          : 'No car more likely than not stands apart from the others with its tyre',
    },
  ];
}

/** What else was found, by what it is of. */
export function foundGroups(
  book: Book,
  found: FoundBook,
  due: readonly Due[],
): { label: string; texts: string[] }[] {
  const { priors, growth, forecasts, reliability, teachings, learned, conflicts } = found;
  const marked = forecasts.filter(({ happened }) => happened).length;
  const foretold = forecasts.reduce((sum, { chance }) => sum + chance, 0);
  const { worstRHat, leastEffectiveDraws, chains } = priors.sampling;
  const apart = [...priors.models, ...priors.constructions].flatMap(({ inputs }) => inputs)[0]?.apart;
  const groups = [
    { label: 'Growth', texts: growth.slice(1).map(modelWords) },
    {
      label: 'Foretold',
      texts: priors.gains.map(
        ({ car, tyre, gain }) =>
          `${car} with ${tyre}: from the other cars ${gain >= 0 ? `${Math.exp(gain).toPrecision(2)} times likelier` : `${Math.exp(-gain).toPrecision(2)} times less likely`} than by the program’s prior`,
      ),
    },
    { label: 'Not narrowed', texts: doubtful(found) },
    {
      label: 'Marks',
      texts:
        forecasts.length === 0
          ? []
          : [
              `${wholeText(marked)} of ${wholeText(forecasts.length)} entries of runs left one; foretold from the other cars: ${foretold.toPrecision(2)}; ${wholeText(reliability.length)} kinds of forecast in reliability.csv`,
            ],
    },
    {
      label: 'At odds',
      texts: [
        ...conflicts.slice(0, MOST_AT_ODDS).map(conflictWords),
        ...(conflicts.length > MOST_AT_ODDS
          ? [`and ${conflicts.length - MOST_AT_ODDS} more in conflicts.csv`]
          : []),
      ],
    },
    {
      label: 'In common',
      texts: [...priors.common.map(commonWords), ...priors.tapes.map((one) => tapeText(one, book))],
    },
    {
      label: 'Measure next',
      texts: [
        ...found.heightTeachings.slice(0, 3).map(heightWords),
        ...teachings.slice(0, 3).map(teachingWords),
      ],
    },
    {
      label: 'Due',
      texts: [
        ...due.slice(0, MOST_DUE).map((one) => `${one.car}: ${dueWords(one)}`),
        ...(due.length > MOST_DUE ? [`and ${due.length - MOST_DUE} more in due.csv`] : []),
      ],
    },
    {
      label: 'How sure',
      texts: [
        `${wholeText(chains)} searches, each from a start of its own; at least ${wholeText(Math.round(leastEffectiveDraws))} effective draws of all that cars share and of the run that decides a height (R-hat ${worstRHat.toFixed(3)}, 1 at best)`,
        ...(apart === undefined
          ? []
          : [
              `${oneIn(apart)} new cars has a tyre that stands apart, as is assumed: of it nothing is known but the program’s own prior`,
            ]),
      ],
    },
    {
      label: 'Use it',
      texts: priors.settled
        ? [
            `a new car: copy ${PRIORS_FILE} into its folder and write "book: ${PRIORS_FILE}" into its case`,
            learned.length === 0
              ? 'no car of the book learned anything of its own'
              : `a car of the book (${learned.map(({ car }) => car).join(', ')}): copy its file from learned/ as learned.yaml and write "learned: learned.yaml"; never both`,
          ]
        : [],
    },
    { label: 'Left out', texts: book.unreadable.map(({ car, why }) => `${car}: ${why}`) },
  ];
  return groups.filter(({ texts }) => texts.length > 0);
}
