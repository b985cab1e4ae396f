import { type Answers, type InterviewedCase, type Question, readAnswers, toCase } from '@tubgap/interview';
import { putQuestions } from '../worker/assumed-items.ts';
import { type Answered, answerTo, withAnswer } from './ask-state.ts';

/** What a call's answers come to so far. */
export interface ReadCall {
  /** With the units that were left out. */
  answers: Answered;
  /** All answers, those that are still missing among the needed ones filled in: for what each field was understood as. */
  read: Answers | undefined;
  /** What is wrong, by the name of the answer. */
  faults: Readonly<Record<string, string>>;
  /** Names of the needed answers that are missing. */
  missing: readonly string[];
  /** Names of answers that count only with another beside them, which is not there yet. */
  waiting: readonly string[];
  /** The case; undefined while an answer is missing or cannot be read. */
  interviewed: InterviewedCase | undefined;
}

/** A number, a fraction among it, that says no unit. */
const BARE = /^[+-]?[\d.,/\s-]*\d$/;
const UNIT = /\d\s*([a-z%/]+)$/i;

/** The unit in which a question's example is told; undefined where it has none. */
const usualUnit = ({ kind, example }: Question): string | undefined =>
  kind === 'quantity' ? UNIT.exec(example ?? '')?.[1] : undefined;

/** An answer with the usual unit behind a bare number, as it is shown once the field is left. */
export function withUnit(question: Question, text: string): string {
  const unit = usualUnit(question);
  return unit !== undefined && BARE.test(text.trim()) ? `${text.trim()} ${unit}` : text;
}

/** Stand in for what is needed and missing, so that the rest can be read; nothing of them is shown. */
const STAND_INS: Readonly<Record<string, string>> = {
  'tyres[].size': '28x10.5-15',
  'tyres[].build': 'bias slick',
  speed: '150 mph',
};

type Fault = Extract<ReturnType<typeof readAnswers>, { ok: false }>['faults'][number];

/** 'tyres[0].size' of a fault. */
const idOfFault = ({ path }: Fault): string =>
  path
    .map((part, i) => (typeof part === 'number' ? `[${part}]` : i === 0 ? part : `.${String(part)}`))
    .join('');

const isBlank = (answers: Answered, id: string): boolean => (answerTo(answers, id) ?? '').trim() === '';

/** Needed answers that are not there: a tyre's size may be its rollout. */
const missingIn = (answers: Answered): string[] =>
  putQuestions(answers)
    .filter(({ question, id, tyre }) => {
      const taped = question.id === 'tyres[].size' && !isBlank(answers, `tyres[${tyre}].rollout`);
      return question.required === true && isBlank(answers, id) && !taped;
    })
    .map(({ id }) => id);

const withStandIns = (answers: Answered): Answered =>
  missingIn(answers).reduce(
    (whole, id) => withAnswer(whole, id, STAND_INS[id.replace(/\[\d+\]/, '[]')]),
    answers,
  );

/** Answers that mean something together only. */
const TOGETHER = [
  ['downforce.force', 'downforce.at'],
  ['existing.diameter', 'existing.topHeight'],
] as const;

/** Takes away what waits for another answer, the rest of its group with it. */
function withoutHalves(answers: Answered): { answers: Answered; waiting: string[] } {
  const halves = TOGETHER.filter((ids) => ids.some((id) => isBlank(answers, id)));
  const waiting = halves.flatMap((ids) => ids.filter((id) => !isBlank(answers, id)));
  const left = Object.entries(answers).filter(([name]) => !halves.some(([id]) => id.startsWith(`${name}.`)));
  return { answers: Object.fromEntries(left), waiting };
}

/** Reads a call field by field. What cannot be read is told and left out, so that one slip takes no answer away. */
export function readCall(typed: Answered): ReadCall {
  let answers = typed;
  for (const { question, id } of putQuestions(typed)) {
    const text = answerTo(answers, id);
    if (typeof text === 'string') answers = withAnswer(answers, id, withUnit(question, text));
  }
  const whole = withoutHalves(answers);
  const { waiting } = whole;
  answers = whole.answers;
  const faults: Record<string, string> = {};
  let read = readAnswers(withStandIns(answers));
  if (!read.ok) {
    for (const fault of read.faults) {
      const id = idOfFault(fault);
      const { reason, hint } = fault.problem;
      faults[id] = [reason, hint].filter(Boolean).join('. ');
      answers = withAnswer(answers, id, undefined);
    }
    answers = withoutHalves(answers).answers;
    read = readAnswers(withStandIns(answers));
  }
  const missing = missingIn(answers);
  return {
    answers,
    read: read.ok ? read.value : undefined,
    faults,
    missing,
    waiting,
    interviewed: read.ok && missing.length === 0 ? toCase(read.value) : undefined,
  };
}
