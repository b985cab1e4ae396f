import { type LengthUnits, unitsOfMost } from '@tubgap/units';
import { type Answered, answerTo } from './call-answers.ts';
import { putQuestions } from './put-questions.ts';

/** The units of a call that chose none: those in which most of it is told. Sizes as printed say nothing. */
export function toldUnits(answers: Answered): LengthUnits {
  const told = putQuestions(answers).flatMap(({ question, id }) => {
    const text = answerTo(answers, id);
    return question.kind === 'quantity' && typeof text === 'string' ? [text] : [];
  });
  return unitsOfMost(told);
}
