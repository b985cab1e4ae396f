import type { Fault } from '@tubgap/casefile';
import type { LengthUnits } from '@tubgap/units';
import { type Answers, readAnswers } from './answers.ts';
import { type Answered, answerTo, withAnswer } from './call-answers.ts';
import { pathText } from './case-draft.ts';
import { putQuestions } from './put-questions.ts';
import type { Question } from './questions.ts';
import { type InterviewedCase, toCase } from './to-case.ts';

/** What a call's answers come to so far. */
export interface ReadCall {
  answers: Answered;
  /** All answers, those that are still missing among the needed ones filled in: for what each was understood as. */
  read: Answers | undefined;
  /** What is wrong, by the name of the answer. */
  faults: Readonly<Record<string, string>>;
  /** Names of the needed answers that are missing. */
  missing: readonly string[];
  /** Names of answers that count only with another beside them, which is not there yet. */
  waiting: readonly string[];
  /** The case of what can be read; undefined while a needed answer is missing. */
  interviewed: InterviewedCase | undefined;
}

/** A number, a fraction among it, that says no unit. */
const BARE = /^[+-]?[\d.,/\s-]*\d$/;
const UNIT = /\d\s*([a-z%/]+)$/i;

/** How an answer may be typed. */
export const exampleOf = ({ example, metric }: Question, units: LengthUnits): string | undefined =>
  units === 'mm' ? (metric ?? example) : example;

/** The unit in which a question's example is told; undefined where it has none. */
const usualUnit = (question: Question, units: LengthUnits): string | undefined =>
  question.kind === 'quantity' ? UNIT.exec(exampleOf(question, units) ?? '')?.[1] : undefined;

/** An answer with the usual unit behind a bare number: for whoever is shown what became of it. */
export function withUnit(question: Question, text: string, units: LengthUnits): string {
  const unit = usualUnit(question, units);
  return unit !== undefined && BARE.test(text.trim()) ? `${text.trim()} ${unit}` : text;
}

/** Answers with the usual unit behind every bare number. */
export const withUsualUnits = (answers: Answered, units: LengthUnits): Answered =>
  putQuestions(answers).reduce((whole, { question, id }) => {
    const text = answerTo(whole, id);
    return typeof text === 'string' ? withAnswer(whole, id, withUnit(question, text, units)) : whole;
  }, answers);

/** Stand in for what is needed and missing, so that the rest can be read; nothing of them is shown. */
const STAND_INS: Readonly<Record<string, string>> = {
  'tyres[].size': '28x10.5-15',
  'tyres[].build': 'bias slick',
  speed: '150 mph',
};

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

/** Answers that mean something together only, each with what stands in for it while the other is read. */
const TOGETHER: readonly Readonly<Record<string, string>>[] = [
  { 'downforce.force': '500 lbf', 'downforce.at': '150 mph' },
  { 'existing.diameter': '42 in', 'existing.topHeight': '40 in' },
];

/** Groups of which some but not all is there. */
const halvesOf = (answers: Answered): readonly Readonly<Record<string, string>>[] =>
  TOGETHER.filter((group) => {
    const blanks = Object.keys(group).filter((id) => isBlank(answers, id));
    return blanks.length > 0 && blanks.length < Object.keys(group).length;
  });

const withOtherHalves = (answers: Answered): Answered =>
  halvesOf(answers)
    .flatMap((group) => Object.entries(group))
    .filter(([id]) => isBlank(answers, id))
    .reduce((whole, [id, text]) => withAnswer(whole, id, text), answers);

/** Takes away what waits for another answer, the rest of its group with it. */
function withoutHalves(answers: Answered): { answers: Answered; waiting: string[] } {
  const halves = TOGETHER.map((group) => Object.keys(group)).filter((ids) =>
    ids.some((id) => isBlank(answers, id)),
  );
  const waiting = halves.flatMap((ids) => ids.filter((id) => !isBlank(answers, id)));
  const left = Object.entries(answers).filter(([name]) => !halves.some(([id]) => id!.startsWith(`${name}.`)));
  return { answers: Object.fromEntries(left), waiting };
}

const faultWords = ({ problem: { reason, hint } }: Fault): string =>
  [reason, hint].filter(Boolean).join('. ');

/** Reads a call answer by answer. What cannot be read is told and left out, so that one slip takes no answer away. */
export function readCall(typed: Answered): ReadCall {
  let answers = typed;
  const faults: Record<string, string> = {};
  const first = readAnswers(withStandIns(withOtherHalves(answers)));
  for (const fault of first.ok ? [] : first.faults) {
    const id = pathText(fault.path);
    faults[id] = faultWords(fault);
    answers = withAnswer(answers, id, undefined);
  }
  const whole = withoutHalves(answers);
  answers = whole.answers;
  const read = readAnswers(withStandIns(answers));
  const missing = missingIn(answers);
  return {
    answers,
    read: read.ok ? read.value : undefined,
    faults,
    missing,
    waiting: whole.waiting,
    interviewed: read.ok && missing.length === 0 ? toCase(read.value) : undefined,
  };
}
