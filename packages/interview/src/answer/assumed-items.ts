import { type Case, everyInput } from '@tubgap/casefile';
import type { AssumedItem } from '@tubgap/simulation';
import { type Answered, answerTo } from '../call-answers.ts';
import { putQuestions } from '../put-questions.ts';
import type { InterviewedCase } from '../to-case.ts';

/** 'tyres[1].mass' as the questions' places have it: 'tyres[].mass'. */
const ofAnyTyre = (path: string): string => path.replaceAll(/\[\d+\]/g, '[]');

const isAnswered = (answers: Answered, id: string): boolean => typeof answerTo(answers, id) === 'string';

/**
 * What is assumed of a car, so that each can be costed: for every question without an answer the inputs that its answer
 * would tell, and every other assumed input that is fixed for the car by itself, by its place in the case. An input counts
 * with the first question that would tell it; one that a choice has narrowed stays open to the question of its figure. The
 * kind of car is costed by itself (`otherKinds`), for it changes more than inputs.
 */
export function assumedItems(
  source: Case,
  { assumed }: InterviewedCase,
  answers: Answered,
): { asked: AssumedItem[]; rest: AssumedItem[] } {
  const put = putQuestions(answers);
  const narrowed = new Set(
    put.flatMap(({ question, id }) =>
      question.kind === 'choice' && isAnswered(answers, id) ? question.fills : [],
    ),
  );
  const isAssumed = new Set(assumed.map(({ path }) => path));
  const open = everyInput(source).filter(({ path }) => isAssumed.has(path) || narrowed.has(ofAnyTyre(path)));
  const covered = new Set<string>();
  const asked = put
    .filter(({ id, question }) => !isAnswered(answers, id) && question.kind !== 'size' && id !== 'kind')
    .flatMap(({ question, id, tyre }): AssumedItem[] => {
      const inputs = open
        .map(({ path }) => path)
        .filter(
          (path) =>
            !covered.has(path) &&
            question.fills.includes(ofAnyTyre(path)) &&
            (tyre === undefined || path.startsWith(`tyres[${tyre}]`)),
        );
      for (const path of inputs) covered.add(path);
      return inputs.length === 0 ? [] : [{ name: id, inputs }];
    });
  const rest = open.filter(({ path, each }) => each === 'car' && !covered.has(path));
  return { asked, rest: rest.map(({ path }) => ({ name: path, inputs: [path] })) };
}
