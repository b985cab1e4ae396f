import {
  type Answered,
  answerTo,
  type PutQuestion,
  putQuestions,
  type ReadCall,
  type Typed,
  tyresOf,
  understoodWords,
  withAnswer,
} from '@tubgap/interview';
import type { Units } from '../page/words.ts';
import { withoutTyre, withTyre } from './ask-state.ts';
import { QuestionField } from './question-field.tsx';

interface QuestionProps {
  answers: Answered;
  read: ReadCall;
  units: Units;
  /** The one to ask next, by the name of its answer, and why. */
  next?: { id: string; words: string } | undefined;
  /** Changes the answers as they stand then: a field that is left and a button that is pressed come at once. */
  onAnswers: (change: (answers: Answered) => Answered) => void;
}

const TYRES = ['first tyre', 'second tyre', 'third tyre', 'fourth tyre', 'fifth tyre', 'sixth tyre'];

/** Fields of some questions. */
function Fields({
  put,
  answers,
  read,
  units,
  next,
  onAnswers,
}: QuestionProps & { put: readonly PutQuestion[] }) {
  const several = tyresOf(answers).length > 1;
  const set = (id: string, answer: Typed | undefined): void =>
    onAnswers((before) => withAnswer(before, id, answer));
  return (
    <>
      {put.map(({ question, id, tyre }) => (
        <QuestionField
          key={id}
          question={question}
          id={id}
          of={several && tyre !== undefined ? TYRES[tyre] : undefined}
          answer={answerTo(answers, id)}
          units={units}
          understood={understoodWords(read, id, tyre)}
          fault={read.faults[id]}
          next={next?.id === id ? next.words : undefined}
          onAnswer={(answer) => set(id, answer)}
        />
      ))}
    </>
  );
}

const isExisting = ({ id }: PutQuestion): boolean => id.startsWith('existing');

/** The questions that an answer needs. */
export function FirstQuestions(props: QuestionProps) {
  const put = putQuestions(props.answers).filter(
    ({ question, tyre }) => question.required && (tyre === undefined || tyre === 0),
  );
  return <Fields {...props} put={put} />;
}

/** All others: of the car, of every further tyre, and of a tub that is in the car. */
export function MoreQuestions(props: QuestionProps) {
  const { answers, onAnswers } = props;
  const put = putQuestions(answers);
  const ofCar = put.filter(
    (one) => !isExisting(one) && (one.tyre ?? 0) === 0 && one.question.required !== true,
  );
  return (
    <>
      <Fields {...props} put={ofCar} />
      {tyresOf(answers).map((_, tyre) =>
        tyre === 0 ? null : (
          <section key={tyre} class="other-tyre" aria-label={TYRES[tyre]}>
            <h3>The {TYRES[tyre]}, or class</h3>
            <Fields {...props} put={put.filter((one) => one.tyre === tyre)} />
            <button type="button" onClick={() => onAnswers((before) => withoutTyre(before, tyre))}>
              Take the {TYRES[tyre]} away
            </button>
          </section>
        ),
      )}
      <button
        type="button"
        disabled={tyresOf(answers).length >= TYRES.length}
        onClick={() => onAnswers(withTyre)}
      >
        A second tyre or class
      </button>
      <details class="existing">
        <summary>A tub that is in the car already</summary>
        <Fields {...props} put={put.filter(isExisting)} />
      </details>
    </>
  );
}
