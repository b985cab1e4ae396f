import {
  type Answered,
  INVENTED_TUBS,
  MOST_TYRES,
  type Typed,
  toldUnits,
  tyresOf,
  withUsualUnits,
} from '@tubgap/interview';
import { z } from 'zod';
import type { Units } from '../page/words.ts';
import { readTubs, type ShopTubs } from '../shop/shop-tubs.ts';

/** Everything that was typed for one call: answers by the names of their questions, null where "don't know" was said. */
export interface Call {
  answers: Answered;
  /** Of the printed sheet. */
  job: string;
  date: string;
}

/** All that the page keeps. */
export interface AskState {
  call: Call;
  tubs: ShopTubs;
  /** Text of the shop's priors, as its book gave them; left out: the program's own. */
  book?: string | undefined;
  /** As the shop chose them; left out: those in which most of the call is told. */
  units?: Units | undefined;
}

export const NO_CALL: Call = { answers: { tyres: [{}] }, job: '', date: '' };
export const NOTHING_ASKED: AskState = { call: NO_CALL, tubs: INVENTED_TUBS };

/** The units of the page: of what is answered, and of a figure that is typed without one. */
export const unitsOf = ({ call, units }: AskState): Units => units ?? toldUnits(call.answers);

/** The answers with a unit behind every figure: they mean the same whatever units are chosen later. */
export const wholeAnswers = (state: AskState): Answered => withUsualUnits(state.call.answers, unitsOf(state));

/** Units of a text that says some. */
export const unitsIn = (text: string | null | undefined): Units | undefined =>
  text === 'inch' || text === 'mm' ? text : undefined;

export const withTyre = (answers: Answered): Answered =>
  tyresOf(answers).length >= MOST_TYRES ? answers : { ...answers, tyres: [...tyresOf(answers), {}] };

export const withoutTyre = (answers: Answered, index: number): Answered => ({
  ...answers,
  tyres: tyresOf(answers).filter((_, i) => i !== index),
});

/** How many answers were given, "don't know" among them. */
const answersGiven = (value: Answered | Answered[] | Typed | undefined): number =>
  typeof value === 'object' && value !== null
    ? Object.values(value).reduce<number>((sum, one) => sum + answersGiven(one as Answered), 0)
    : value === undefined
      ? 0
      : 1;

/** Longest answer, and deepest nesting, that a link or the browser's store may hold. */
const text = z.string().max(200);
const typed = text.nullable();
const flat = z.record(z.string().max(40), typed);
const answered = z
  .record(z.string().max(40), z.union([typed, flat, z.array(flat).max(MOST_TYRES)]))
  .transform((answers): Answered => {
    const { tyres } = answers;
    return { ...answers, tyres: Array.isArray(tyres) && tyres.length > 0 ? tyres : [{}] };
  });
const call = z.object({ answers: answered, job: text.default(''), date: text.default('') });

/** What was written by `callText`; undefined when it is nothing of the kind. */
export function readCall(written: string): Call | undefined {
  try {
    const read = call.safeParse(JSON.parse(written), { jitless: true });
    return read.success ? read.data : undefined;
  } catch {
    return undefined;
  }
}

export const callText = ({ answers, job, date }: Call): string =>
  JSON.stringify({ answers, ...(job && { job }), ...(date && { date }) });

export const isNothing = ({ answers, job, date }: Call): boolean =>
  answersGiven(answers) === 0 && job === '' && date === '';

/** The list of tubs of a text that `tubsText` wrote; the invented ones where it is none. */
export const tubsIn = (written: string | null | undefined): ShopTubs =>
  (written && readTubs(written)) || INVENTED_TUBS;
