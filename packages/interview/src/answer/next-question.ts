import { labelAt } from '@tubgap/casefile';
import type { AssumedCost } from '@tubgap/simulation';
import type { LengthUnits } from '@tubgap/units';
import { SIXTEENTH, shownChange } from '@tubgap/units';
import { inputWords } from '@tubgap/wording';
import { type Answered, pathParts } from '../call-answers.ts';
import { type PutQuestion, putQuestions } from '../put-questions.ts';
import { questionLabel } from '../question-label.ts';

/** Less than this an answer moves no tape, m. */
const NOTHING = SIXTEENTH / 2;

/** Of what is assumed all that moves the height as a tape shows it, the dearest first. */
export const costlyOf = (costs: readonly AssumedCost[]): AssumedCost[] =>
  costs.filter(({ moves }) => moves >= NOTHING).sort((a, b) => b.moves - a.moves);

/** The question whose answer would move the height most; undefined where none would. @param costs  of all that is asked for */
export function nextQuestion(
  costs: readonly AssumedCost[],
  answers: Answered,
): { put: PutQuestion; cost: AssumedCost } | undefined {
  const put = putQuestions(answers);
  for (const cost of costlyOf(costs)) {
    const its = put.find(({ id }) => id === cost.name);
    if (its) return { put: its, cost };
  }
  return undefined;
}

/** What an assumed thing is called in a list: by its question, else by its place in the case. */
export function costName({ name }: AssumedCost, answers: Answered): string {
  const put = putQuestions(answers).find(({ id }) => id === name);
  if (put) return questionLabel(put) ?? put.question.words;
  const label = inputWords(labelAt(pathParts(name)) ?? name);
  return label.charAt(0).toUpperCase() + label.slice(1);
}

/** A change of the height with its sign: '+3/16 in'. */
export const changeText = (metres: number | null, units: LengthUnits): string =>
  metres === null ? 'another tub' : shownChange(metres)[units];

/** What the answer to a question would do to the height, in words. */
export const moveWords = ({ low, high }: AssumedCost, units: LengthUnits): string => {
  const ends = [low, high].filter((end) => end !== null).sort((a, b) => b - a);
  const moves = ends.map((end) => changeText(end, units)).join(' to ');
  const isOther = ends.length < 2 ? 'ask for another tub' : '';
  return `could ${[moves && `move the height by ${moves}`, isOther].filter(Boolean).join(' or ')}`;
};
