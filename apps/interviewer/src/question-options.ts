import { QUESTIONS, type Question } from '@tubgap/interview/questions';

/** Flags that a question's name would not give. */
const OWN: Readonly<Record<string, string>> = { 'tyres[].size': '--tyre', 'downforce.force': '--downforce' };

/** The option that answers a question, by the name of its answer: '--sixty-foot' of 'sixtyFoot' and of 'tyres[1].sixtyFoot'. */
export function flagOf(id: string): string {
  const place = id.replace(/\[\d+\]/, '[]');
  const words = place.replace('tyres[].', '').replaceAll('.', '-');
  return OWN[place] ?? `--${words.replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`)}`;
}

/** An option for an answer. */
export interface QuestionOption {
  /** '--axle-height <quantity>' */
  flags: string;
  words: string;
}

const wordsOf = ({ words, about, choices, example, required, kind }: Question): string => {
  const values = choices?.map(({ value }) => value).join(', ');
  const known =
    values === undefined ? [] : [kind === 'choice' ? `one of: ${values}` : `${values}, or a length`];
  const such = values !== undefined || example === undefined ? [] : [`such as "${example}"`];
  return [words, about, ...known, ...such, required && 'must be known']
    .filter(Boolean)
    .join('; ')
    .replace('?;', '?');
};

/** An option for every question, in the questions' order; two that are told by one are one. */
export const QUESTION_OPTIONS: readonly QuestionOption[] = QUESTIONS.filter(
  ({ id }, i) => QUESTIONS.findIndex((other) => flagOf(other.id) === flagOf(id)) === i,
).map((question) => ({ flags: `${flagOf(question.id)} <${question.kind}>`, words: wordsOf(question) }));
