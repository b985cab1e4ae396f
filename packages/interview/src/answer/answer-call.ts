import type { Case } from '@tubgap/casefile';
import {
  caseCautions,
  caseSetup,
  existingPlace,
  findingRisks,
  firstLook,
  heightRisks,
  judgeTub,
  lookedAtFirst,
  namedSteps,
  shownRuns,
  simulateUntilSettled,
  tubVerdict,
} from '@tubgap/simulation';
import { type Answers, readAnswers } from '../answers.ts';
import type { Answered } from '../call-answers.ts';
import { withExisting } from '../existing-tub.ts';
import { type InterviewedCase, toCase } from '../to-case.ts';
import { callFiles, readFiles } from './call-files.ts';
import { tellCosts } from './costs.ts';
import { type Counted, closeLook, countedOf, type Found } from './found.ts';
import { type Listener, performWhileWanted } from './listener.ts';
import { nearTubs, shelf, smallest } from './shelf.ts';

/** A call to be answered. */
export interface CallQuestion {
  answers: Answered;
  /** Text of the shop's catalogue. */
  tubs: string;
  /** Text of the shop's priors; left out: the program's own. */
  book?: string;
  /** Nobody asks this: the engine is made quick by it, and nothing is told. */
  warmUp?: true;
  /** Only what a question would tell is costed. */
  questionsOnly?: true;
}

/** Tubs that are looked at first: the answer is the smallest that fits, and each costs time. */
const MOST_LOOKED_AT = 6;

/** The first answer: hardly more plain runs than the accepted risks ask for, in tubs that could take the tyres. */
async function lookAt(source: Case, listener: Listener): Promise<Counted> {
  if (source.tubs.length === 0)
    return { picks: [], chosen: undefined, nearest: undefined, runs: 0, seasons: 0 };
  const first = lookedAtFirst(source);
  const { runs, risks, seasons } = await firstLook(first, performWhileWanted(first, listener));
  return countedOf(first, risks, runs, seasons);
}

/**
 * Answers a call: first by a first look, then as the command line picks for the case of the same text, then what each thing
 * that is assumed costs. The smallest tub in stock that fits; where none does, one to be ordered.
 */
export async function answerCall(question: CallQuestion, listener: Listener): Promise<void> {
  const { answers, tubs, book } = question;
  const read = readAnswers(answers);
  if (!read.ok) return;
  const interviewed = { ...toCase(read.value), ...(book === undefined ? {} : { book }) };
  const filed = readFiles(callFiles(interviewed, tubs));
  if ('faults' in filed) {
    listener.tell({ kind: 'faults', faults: filed.faults });
    return;
  }
  const whole = filed.source;
  const looked = async (inStock: boolean): Promise<Found> => {
    const { tubs: fitting, refused } = shelf(whole, inStock);
    const [few, all] = [MOST_LOOKED_AT, fitting.length].map((most) => ({
      ...whole,
      tubs: smallest(fitting, most),
    }));
    let source = few!;
    let counted = await lookAt(source, listener);
    if (counted.chosen === undefined && fitting.length > MOST_LOOKED_AT) {
      source = all!;
      counted = await lookAt(source, listener);
    }
    const names = whole.tubs.filter((tub) => (tub.inStock !== false) === inStock).map(({ name }) => name);
    return {
      ...counted,
      settled: false,
      source,
      files: callFiles(interviewed, tubs, names),
      order: !inStock,
      refused,
      cautions: caseCautions(caseSetup(whole)),
    };
  };
  const inStock = await looked(true);
  const isToOrder = inStock.chosen === undefined && whole.tubs.some((tub) => tub.inStock === false);
  const ordered = isToOrder ? await looked(false) : undefined;
  const first = ordered?.chosen === undefined ? inStock : ordered;
  if (question.warmUp) return;
  listener.tell({ kind: 'found', found: first });
  if (first.source.tubs.length === 0) return;
  const look = await closeLook(first, performWhileWanted(first.source, listener));
  if (look) listener.tell({ kind: 'found', found: { ...first, look } });
  await settle(first, { whole, interviewed, answers: read.value }, question, listener);
}

/** Judges the tub that is in the car, as the command line judges one that stands. */
async function judgeExisting(source: Case, listener: Listener): Promise<void> {
  const place = existingPlace(source);
  if (place === undefined) return;
  const { tub, topHeight } = place;
  const perform = performWhileWanted(place.source, listener);
  const judged = await judgeTub(place.source, { tub, topHeight }, perform);
  if (judged === undefined) return;
  const { verdict, tight, carSpread } = judged;
  listener.tell({ kind: 'existing', judged: { verdict, tight, carSpread } });
}

/** The answer that the command line gives for the case of the call, and then what the assumed costs. */
async function settle(
  first: Found,
  { whole, interviewed, answers }: { whole: Case; interviewed: InterviewedCase; answers: Answers },
  { tubs, answers: answered, questionsOnly }: CallQuestion,
  listener: Listener,
): Promise<void> {
  const names = nearTubs(first.source, first.picks, first.chosen);
  const files = callFiles(withExisting(interviewed, whole.tubs), tubs, names);
  const filed = readFiles(files);
  if ('faults' in filed) {
    listener.tell({ kind: 'faults', faults: filed.faults });
    return;
  }
  const { source } = filed;
  const setup = caseSetup(source);
  const perform = performWhileWanted(source, listener);
  const { found, centres } = await simulateUntilSettled(source, setup, perform, () => {});
  const risks = findingRisks(found);
  const counted = countedOf(source, risks, found.runs, found.seasons.events);
  const settled: Found = { ...first, ...counted, settled: true, source, files };
  listener.tell({ kind: 'found', found: settled });
  await judgeExisting(source, listener);
  const { chosen, picks } = counted;
  const height = chosen === undefined ? undefined : picks[chosen]!.height;
  if (chosen === undefined || height === undefined) return;
  const look = await closeLook(settled, perform);
  const [tolerances, named] = await perform(
    [
      { kind: 'tolerances', picks, chosen },
      { kind: 'named runs', centres, wanted: namedSteps(source, risks) },
    ],
    () => {},
  );
  const told = tolerances?.kind === 'tolerances' ? tolerances.tolerances : undefined;
  if (look !== undefined && told !== undefined && named?.kind === 'named runs') {
    const { setOut, rows } = told;
    const verdict = tubVerdict(source, setup, risks, found.runs, chosen, setOut.topHeight);
    const { staticGaps } = rows[setOut.row]!;
    // The rows hold more angles behind than the pick's gaps do.
    const gaps = staticGaps.slice(staticGaps.length - height.staticGaps.length);
    const { limitingTyre } = height;
    const limiting = source.tyres.findIndex(({ name }) => name === limitingTyre);
    const built = { tub: chosen, topHeight: setOut.topHeight, limitingTyre };
    const rare = shownRuns(setup, built, named.named)[limiting]!.at(-1);
    const out = { ...setOut, staticGaps: gaps, risks: heightRisks(verdict), rare };
    listener.tell({ kind: 'found', found: { ...settled, look: { ...look, setOut: out } } });
  }
  const place = { tub: chosen, topHeight: height.topHeight, centres };
  await tellCosts(source, { interviewed, answers, answered, tubs, questionsOnly }, place, listener);
}
