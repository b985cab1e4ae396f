import { type Answered, answerTo, QUESTIONS, tyresOf, withAnswer } from '@tubgap/interview';
import { flagOf } from './question-options.ts';
import type { GivenAnswer } from './verbs.ts';

/** Name of the answer that an option gives where the last tyre so far is one of several, or the only one. */
function idOf(flag: string, tyres: number): string {
  const ids = QUESTIONS.map(({ id }) => id).filter((id) => flagOf(id) === flag);
  const ofTyre = ids.find((id) => id.startsWith('tyres[]'));
  const ofCar = ids.find((id) => !id.startsWith('tyres[]'));
  const id = tyres > 1 ? (ofTyre ?? ofCar) : (ofCar ?? ofTyre);
  return id!.replace('[]', `[${tyres - 1}]`);
}

/**
 * Answers of options, in their order: a further --tyre begins a further tyre, and what a tyre is asked for belongs to the
 * last one that was begun.
 */
export function answersOf(given: readonly GivenAnswer[]): Answered {
  let answers: Answered = { tyres: [{}] };
  for (const { flag, text } of given) {
    const count = tyresOf(answers).length;
    const id = idOf(flag, count);
    const begins = id.endsWith('].size') && answerTo(answers, id) !== undefined;
    answers = withAnswer(answers, begins ? idOf(flag, count + 1) : id, text);
  }
  return answers;
}
