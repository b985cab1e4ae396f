import { type Answered, answerTo, putQuestions, questionLabel, tyresOf } from '@tubgap/interview';

/** The car as told, row by row. */
export function toldRows(answers: Answered): { id: string; label: string; text: string }[] {
  const several = tyresOf(answers).length > 1;
  return putQuestions(answers).flatMap((put) => {
    const { question, id, tyre } = put;
    const label = questionLabel(put);
    const text = answerTo(answers, id);
    if (label === undefined || typeof text !== 'string' || text.trim() === '') return [];
    const words = question.choices?.find(({ value }) => value === text)?.words ?? text;
    return [{ id, label: several && tyre !== undefined ? `${label} ${tyre + 1}` : label, text: words }];
  });
}
