import { bookInUseWords } from '@tubgap/casefile';
import { limitsOf, type Result } from '@tubgap/results';
import { angleHeading, angleWords, chanceText, noneOf, wholeText } from '@tubgap/units';
import { BOUND, carsLikeThis, comesClose, inputWords, isOfFewCars } from '@tubgap/wording';
import { figuresOf } from '../figures-of.ts';
import { decidingPoints } from '../hard-points/hard-sight.ts';
import { moveWords } from '../hard-points/hard-words.ts';
import { chosenTub, isSetHigher } from '../sheets/chosen-tub.ts';
import { gapsToSee } from '../sheets/side-drawing.ts';
import { limitingGap } from '../tables.ts';
import { choiceWords } from '../tub-choice.ts';
import { measuresOf, percent } from './measures.ts';
import { WORTH_NAMING } from './outlook-part.ts';

type Risks = NonNullable<Result['asSetOut']>;
type Risk = Result['risks'][number][number][number];

/** A piece of a sentence; the strong ones are what a reader in a hurry needs. */
export type Piece = string | { strong: string };

/** One line of the decision: what it is about, and the sentence. */
export interface DecisionRow {
  name: string;
  pieces: readonly Piece[];
}

/** The decision in words, for the page and for the picture alike. */
export interface Decision {
  headline: string;
  place: string;
  /** What decides: to be seen before anything else. */
  rows: readonly DecisionRow[];
  /** What else is said of the tub and why it is this one. */
  more: readonly DecisionRow[];
}

/** What must stand beside every number that someone may cut metal by. */
export const CAUTION = {
  strong: 'Tyre contact at speed can kill.',
  rest:
    'A model’s figures, not your car’s. The sanctioning body’s rules, the tyre maker’s limits and a qualified chassis ' +
    'builder come first. Check the gaps before the car runs, look for marks after the first runs, and stop when you find one.',
};

/** A risk for a reader without statistics: what to expect, how often it surely is at the most, what was accepted. */
function riskPieces(risk: Risk, event: string, what: string, accepted?: number): Piece[] {
  const expected =
    risk.estimate === 0
      ? `${noneOf(risk.events, event)} ${what}`
      : `${chanceText(risk.estimate)} ${event}s ${what}`;
  return boundPieces(expected, risk, accepted);
}

/** What to expect, then how often it surely is at the most, and what was accepted. */
function boundPieces(expected: string, { high }: Risk, accepted?: number): Piece[] {
  const limit = accepted === undefined ? [] : [` (accepted: ${chanceText(accepted)})`];
  return [`${expected}, ${BOUND} `, { strong: chanceText(high) }, ...limit];
}

/** Risk of a run: of leaving less than the reserve, and of real contact; one row where nothing is to be kept. */
function runRows(result: Result, height: Risks): DecisionRow[] {
  const { reserve, runRisk } = limitsOf(result, height.limitingTyre);
  const touches = 'really touches';
  if (reserve === 0) {
    return [{ name: 'Contact', pieces: riskPieces(height.contactRisk, 'run', touches, runRisk) }];
  }
  return [
    {
      name: 'Too close',
      pieces: riskPieces(height.runRisk, 'run', comesClose(reserve, result.case.units), runRisk),
    },
    { name: 'Contact', pieces: riskPieces(height.contactRisk, 'run', touches) },
  ];
}

/** Risk of a season: of few cars and these often, or of any season alike. */
function seasonPieces(result: Result, risks: Risks): Piece[] {
  const { accept, tyres } = result;
  const { reserve } = limitsOf(result, risks.limitingTyre);
  const runs = wholeText(tyres.reduce((sum, tyre) => sum + tyre.runsPerSeason, 0));
  const close = reserve === 0 ? 'touches' : 'gets too close';
  const { seasonRisk } = risks;
  if (!isOfFewCars(risks, tyres)) {
    const has = reserve === 0 ? 'has such a run' : close;
    return riskPieces(seasonRisk, 'season', `of ${runs} runs ${has}`, accept.seasonRisk);
  }
  const told = `${carsLikeThis(seasonRisk.estimate)} ${close} in its season of ${runs} runs, and then often`;
  return boundPieces(told, seasonRisk, accept.seasonRisk);
}

/** Assumed inputs that are named beside the decision. */
const MOST_NAMED = 3;

/** How much is assumed, and what of it makes most of the doubt: to be measured before metal is cut. */
function assumedPieces(result: Result): Piece[] {
  const assumed = result.inputs.filter((input) => input.source === 'assumed');
  const telling = (result.measureNext ?? [])
    .filter(({ label, share }) => share >= WORTH_NAMING && assumed.some((input) => input.label === label))
    .slice(0, MOST_NAMED);
  const count = `${assumed.length} of ${result.inputs.length} inputs, not measured on this car`;
  if (telling.length === 0) return [count];
  return [
    `${count}. Most of the doubt: `,
    ...telling.flatMap(({ label, share }, i): Piece[] => [
      i > 0 ? '; ' : '',
      { strong: inputWords(label) },
      ` ${percent(share)}`,
    ]),
  ];
}

const choiceRow = ({ label, text }: ReturnType<typeof choiceWords>[number]): DecisionRow => ({
  name: label,
  pieces: [`${text}.`],
});

/** The decision on the tub to build; undefined when there is none. */
export function decisionOf(result: Result): Decision | undefined {
  const { alongBoth } = figuresOf(result);
  const { length, other, both, pressure } = measuresOf(result);
  const chosen = chosenTub(result);
  if (chosen === undefined) return undefined;
  const { index, tub, height, setOut, asSetOut } = chosen;
  const isHigher = isSetHigher(chosen);
  const gap = limitingGap(result, index);
  const { build } = result;
  const choices = choiceWords(result);
  const seen = gapsToSee(result, chosen).flatMap(({ angle, gap: see }, i): Piece[] => [
    `${i > 0 ? ' · ' : ''}${angleHeading(angle)} `,
    { strong: length(see, 'up') },
  ]);
  const tight = gap === undefined ? '' : `, ${gap.tightestMoment}, ${angleWords(gap.tightestAngle)}`;
  return {
    headline: `Build ${tub.name}, top at ${length(setOut, 'up')}`,
    place:
      `(${other(setOut, 'up')}) as set out, ${isHigher ? `${both(height.topHeight, 'up')} at the least` : 'the least that will do'}: inside of the tub ` +
      `above the track, car standing on ${build.tyre} at ${pressure(build.pressure)}.` +
      (isHigher ? ' The risks are first those as set out.' : ''),
    rows: [
      { name: 'Gap to see', pieces: [...seen, ', or more, standing still'] },
      ...runRows(result, asSetOut),
      {
        name: 'Season',
        pieces: seasonPieces(result, asSetOut),
      },
      { name: 'Tightest', pieces: [`${height.limitingTyre}${tight}`] },
      ...decidingPoints(result).map((sight) => ({
        name: 'Hard point',
        pieces: [`${moveWords(result, sight)}.`],
      })),
      ...choices.filter(({ decides }) => decides).map(choiceRow),
      { name: 'Assumed', pieces: assumedPieces(result) },
      ...(result.book === undefined
        ? []
        : [{ name: "Shop's book", pieces: [`${bookInUseWords(result.book)}.`] }]),
    ],
    more: [
      {
        name: 'Tub',
        pieces: [`${both(tub.diameter, 'down')} inside, centre ${alongBoth(tub.centreForward)}`],
      },
      ...(isHigher
        ? [
            {
              name: 'At least',
              pieces: [
                `${length(height.topHeight, 'up')}: ${BOUND} `,
                { strong: chanceText(height.runRisk.high) },
                ` runs too close, ${chanceText(height.contactRisk.high)} in contact, ${chanceText(height.seasonRisk.high)} seasons`,
              ],
            },
          ]
        : []),
      ...choices.filter(({ decides }) => !decides).map(choiceRow),
    ],
  };
}
