import type { Readable, Writable } from 'node:stream';
import { confirm, intro, isCancel, log, select, text } from '@clack/prompts';
import {
  type Answered,
  answerTo,
  exampleOf,
  MOST_TYRES,
  type PutQuestion,
  putQuestions,
  readCall,
  type Typed,
  toldUnits,
  tyresOf,
  understoodWords,
  withAnswer,
  withUnit,
} from '@tubgap/interview';

/** Where questions are put and answered; left out: the terminal of this process. */
interface Terminal {
  input?: Readable;
  output?: Writable;
}

/** Thrown where the questions are stopped by hand. */
class Stopped extends Error {}

function unlessStopped<Value>(value: Value): Exclude<Value, symbol> {
  if (isCancel(value)) throw new Stopped();
  return value as Exclude<Value, symbol>;
}

const DO_NOT_KNOW = /^(?:\?|-|don['’]?t know|not known|unknown)$/i;

const isBlank = (typed: string | undefined): boolean =>
  typed === undefined || typed.trim() === '' || DO_NOT_KNOW.test(typed.trim());

/** A question with its word more. */
const messageOf = ({ question: { words, about, kind, choices } }: PutQuestion): string => {
  const known = kind === 'distance' ? `${choices!.map(({ value }) => value).join(', ')}, or a length` : '';
  const more = [about, known].filter(Boolean).join('; ');
  return more === '' ? words : `${words} ${more}`;
};

/** Puts one question until its answer is understood. Blank, or "don't know", is null where that is an answer. */
async function put(one: PutQuestion, answers: Answered, needed: boolean, terminal: Terminal): Promise<Typed> {
  const { question, id } = one;
  const message = messageOf(one);
  const units = toldUnits(answers);
  const example = exampleOf(question, units);
  if (question.kind === 'choice') {
    const options = question.choices!.map(({ value, words }) => ({ value, label: words }));
    const open = needed ? [] : [{ value: '', label: "don't know" }];
    const initial = needed ? {} : { initialValue: '' };
    const chosen = await select({ message, options: [...options, ...open], ...initial, ...terminal });
    return unlessStopped(chosen) || null;
  }
  const typed = await text({
    message,
    placeholder: [example && `such as ${example}`, needed ? '' : "Enter: don't know"]
      .filter(Boolean)
      .join('; '),
    validate(value) {
      if (isBlank(value)) return needed ? 'Nothing can be worked out without it.' : undefined;
      return readCall(withAnswer(answers, id, withUnit(question, value!, units))).faults[id];
    },
    ...terminal,
  });
  const answer = unlessStopped(typed);
  return isBlank(answer) ? null : withUnit(question, answer, units);
}

/** Whether an answer of a group is needed because of another one of it. */
const isNeeded = ({ question, id }: PutQuestion): boolean =>
  question.required === true || /^existing\.(?:diameter|topHeight)$|^downforce\.at$/.test(id);

/** Whether a question would be idle after what was answered. */
const isIdle = ({ id }: PutQuestion, answers: Answered): boolean =>
  (id === 'downforce.at' && typeof answerTo(answers, 'downforce.force') !== 'string') ||
  (id === 'downforce.force' && answerTo(answers, 'wing') === 'none') ||
  (id.endsWith('].widthIs') && readCall(answers).read?.tyres[0]?.size?.form === 'metric');

async function putAgain(one: PutQuestion, before: Answered, terminal: Terminal): Promise<Answered> {
  const { id, tyre } = one;
  const answer = await put(one, before, isNeeded(one), terminal);
  const answers = withAnswer(before, id, answer);
  // What a size comes to is known with the build.
  const of = id.replace(/\.build$/, '.size');
  const words = answer === null ? 'not known' : understoodWords(readCall(answers), of, tyre);
  if (words !== '') log.info(words, terminal);
  return answers;
}

/** Puts questions one after the other, leaving out what is answered. */
async function putAll(
  choose: (one: PutQuestion) => boolean,
  before: Answered,
  terminal: Terminal,
): Promise<Answered> {
  let answers = before;
  for (const one of putQuestions(before).filter(choose)) {
    if (answerTo(answers, one.id) === undefined && !isIdle(one, answers)) {
      answers = await putAgain(one, answers, terminal);
    }
  }
  return answers;
}

const isOfTub = ({ id }: PutQuestion): boolean => id.startsWith('existing.');
const isTitle = ({ id }: PutQuestion): boolean => id === 'title';

const asks = async (message: string, terminal: Terminal): Promise<boolean> =>
  unlessStopped(await confirm({ message, initialValue: false, ...terminal }));

async function putEverything(before: Answered, terminal: Terminal): Promise<Answered> {
  intro("What do you know of the car? Enter is don't know, Ctrl-C stops and writes nothing.", terminal);
  let answers = await putAll((one) => !isOfTub(one) && !isTitle(one), before, terminal);
  while (
    tyresOf(answers).length < MOST_TYRES &&
    (await asks('Does it run on another tyre, or in another class?', terminal))
  ) {
    const tyre = tyresOf(answers).length;
    answers = { ...answers, tyres: [...tyresOf(answers), {}] };
    answers = await putAll((one) => one.tyre === tyre, answers, terminal);
  }
  const inTheCar = 'existing' in answers || (await asks('Is there a tub in the car already?', terminal));
  if (inTheCar) answers = await putAll(isOfTub, answers, terminal);
  answers = await putAll(isTitle, answers, terminal);
  // What fits by itself may not fit beside an answer that came after it.
  for (;;) {
    const { faults } = readCall(answers);
    const wrong = putQuestions(answers).find(({ id }) => faults[id] !== undefined);
    if (wrong === undefined) return answers;
    log.error(faults[wrong.id]!, terminal);
    answers = await putAgain(wrong, withAnswer(answers, wrong.id, undefined), terminal);
  }
}

/** Puts every question that is not answered yet. @returns undefined when it was stopped by hand */
export async function askAtTerminal(
  answers: Answered,
  terminal: Terminal = {},
): Promise<Answered | undefined> {
  try {
    return await putEverything(answers, terminal);
  } catch (error) {
    if (error instanceof Stopped) return undefined;
    throw error;
  }
}
