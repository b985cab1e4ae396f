import { type Answered, tyresOf } from './call-answers.ts';
import { QUESTIONS, type Question } from './questions.ts';

/** A question as it is put: of a tyre once for each. */
export interface PutQuestion {
  question: Question;
  /** 'tyres[1].size' */
  id: string;
  /** Undefined for a question of the car. */
  tyre: number | undefined;
}

/** What is told of another tyre alone is told of the car for the first. */
const OF_ANOTHER: readonly string[] = ['tyres[].speed', 'tyres[].sixtyFoot', 'tyres[].elapsed'];

/** Every question, those of a tyre for each tyre. */
export const putQuestions = (answers: Answered): PutQuestion[] =>
  QUESTIONS.flatMap((question): PutQuestion[] => {
    const { id } = question;
    if (!id.startsWith('tyres[]')) return [{ question, id, tyre: undefined }];
    return tyresOf(answers).flatMap((_, tyre) =>
      tyre === 0 && OF_ANOTHER.includes(id)
        ? []
        : [{ question, id: id.replace('tyres[]', `tyres[${tyre}]`), tyre }],
    );
  });
