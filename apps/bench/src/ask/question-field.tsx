import { exampleOf, type Question, type Typed, withUnit } from '@tubgap/interview';
import { useEffect, useRef, useState } from 'preact/hooks';
import type { Units } from '../page/words.ts';

interface Props {
  question: Question;
  /** Name of the answer: 'tyres[0].size'. */
  id: string;
  /** Which tyre it is asked of, where there are several: 'second tyre'. */
  of?: string | undefined;
  answer: Typed | undefined;
  units: Units;
  understood: string;
  fault: string | undefined;
  /** It is the one to ask next: why. */
  next?: string | undefined;
  onAnswer: (answer: Typed | undefined) => void;
}

/** How long typing rests before it counts as an answer, ms. */
const REST = 150;

const fieldId = (id: string): string => `ask-${id.replaceAll(/[.[\]]+/g, '-')}`;

/** Leads to the field of a question. */
export function goToQuestion(id: string): void {
  const field = document.getElementById(fieldId(id));
  const place = field instanceof HTMLInputElement ? field : field?.querySelector('input');
  place?.focus();
  field?.scrollIntoView({ block: 'center' });
}

/** Answers by buttons, one of them pressed at most. */
function Choices({ question, id, answer, onAnswer }: Props) {
  return (
    <div class="choices">
      {question.choices!.map(({ value, words }) => (
        <label key={value} class="choice">
          <input
            type="radio"
            name={fieldId(id)}
            checked={answer === value}
            onChange={() => onAnswer(value)}
          />
          <span>{words}</span>
        </label>
      ))}
      {question.required !== true && (
        <label class="choice unsure">
          <input type="radio" name={fieldId(id)} checked={answer === null} onChange={() => onAnswer(null)} />
          <span>don’t know</span>
        </label>
      )}
    </div>
  );
}

/** An answer that is typed. */
function Text({ question, id, answer, fault, units, onAnswer }: Props) {
  const [typed, setTyped] = useState(answer ?? '');
  // What came from this field already: only an answer from elsewhere may change what is being typed.
  const told = useRef(answer);
  const tell = (text: string | null): void => {
    const next = text !== null && text.trim() === '' ? undefined : text;
    if (next === told.current) return;
    told.current = next;
    onAnswer(next);
  };
  useEffect(() => {
    if (answer === told.current) return;
    told.current = answer;
    setTyped(answer ?? '');
  }, [answer]);
  useEffect(() => {
    if (typed === (told.current ?? '')) return;
    const timer = setTimeout(() => tell(typed), REST);
    return () => clearTimeout(timer);
  }, [typed]);
  const own = fieldId(id);
  return (
    <div class="typed">
      <input
        id={own}
        type="text"
        inputMode={question.kind === 'time' ? 'decimal' : 'text'}
        autocomplete="off"
        autocapitalize="off"
        spellcheck={false}
        placeholder={exampleOf(question, units)}
        value={typed}
        aria-invalid={fault !== undefined}
        aria-describedby={`${own}-about ${own}-read`}
        onInput={(event) => setTyped(event.currentTarget.value)}
        onBlur={() => {
          // Later: what is being pressed must not move away from under the finger.
          setTimeout(() => setTyped((text) => withUnit(question, text, units)), REST);
        }}
      />
      {question.required !== true && question.kind !== 'text' && (
        <button
          type="button"
          class="unknown"
          aria-pressed={answer === null}
          aria-label={`${question.words} Don’t know`}
          onClick={() => {
            setTyped('');
            tell(answer === null ? '' : null);
          }}
        >
          don’t know
        </button>
      )}
    </div>
  );
}

/** One question: its words, its field, and under it what was understood, or what is wrong. */
export function QuestionField(props: Props) {
  const { question, id, of, fault, understood, next, answer } = props;
  const own = fieldId(id);
  const { words, about } = question;
  const heading = (
    <>
      {of && <span class="of">{of}: </span>}
      {words}
    </>
  );
  const under = (
    <>
      {about && (
        <p class="note" id={`${own}-about`}>
          {about}
        </p>
      )}
      {next && <p class="next">{next}</p>}
      {question.choices ? <Choices {...props} /> : <Text {...props} />}
      <p
        class={fault === undefined ? `understood ${question.kind}` : 'fault'}
        id={`${own}-read`}
        role="status"
      >
        {fault ?? (answer === null ? 'Taken as is usual for such a car.' : understood)}
      </p>
    </>
  );
  return question.choices ? (
    <fieldset class={`question${next ? ' asked-next' : ''}`} id={own}>
      <legend>{heading}</legend>
      {under}
    </fieldset>
  ) : (
    <div class={`question${next ? ' asked-next' : ''}`}>
      <label for={own}>{heading}</label>
      {under}
    </div>
  );
}
