import type { Case } from '@tubgap/casefile';
import { tyreColumn } from '@tubgap/core';
import { type Answered, type InterviewedCase, readAnswers, toCase, withExisting } from '@tubgap/interview';
import {
  type AssumedCost,
  type AssumedItem,
  assumedCosts,
  type CaseRisks,
  type Caution,
  caseCautions,
  caseSetup,
  chosenTub,
  existingPlace,
  findingRisks,
  firstLook,
  type GapFigures,
  type HeightRisks,
  heightRisks,
  judgeTub,
  lookedAtFirst,
  nearestTub,
  type Perform,
  type Pick,
  performHere,
  pickHeights,
  type RunTallies,
  type ShareFigures,
  sideFaults,
  sideWords,
  simulateUntilSettled,
  tubVerdict,
} from '@tubgap/simulation';
import { INCH } from '@tubgap/units';
import type { VerdictReport } from '@tubgap/wording';
import { assumedItems } from './assumed-items.ts';
import { type CallFault, type CallFiles, callFiles, readFiles } from './call-case.ts';

/** A call as it reaches the worker. */
export interface CallQuestion {
  id: number;
  kind: 'ask';
  answers: Answered;
  /** The shop's catalogue, and the names of its tubs. */
  tubs: string;
  stock: readonly string[];
  order: readonly string[];
  /** Nobody asks this: the engine is made quick by it, and nothing is told. */
  warmUp?: true;
}

/** How a picked tub is tight, and what the height that is set out is. */
interface CloseLook {
  tight: GapFigures;
  /** Of the limiting tyre at every moment. */
  shares: ShareFigures[];
  /** Height that the papers of a pick set out, its gaps in the order of GAP_ANGLES, and its risks; once that is settled. */
  setOut?: { topHeight: number; passes: number; staticGaps: readonly number[]; risks: HeightRisks };
}

/** What follows from the counts of some tubs. */
interface Counted {
  picks: Pick[];
  /** Index of the tub to build, else of the nearest. */
  chosen: number | undefined;
  nearest: number | undefined;
  /** Plain runs and seasons that were counted. */
  runs: number;
  seasons: number;
}

/** What is found for a call. */
export interface Found extends Counted {
  /** The first plain counts, or all that the case asks for. */
  settled: boolean;
  source: Case;
  files: CallFiles;
  /** No tub in stock fits: those found are to be ordered. */
  order: boolean;
  /** Tubs that are not looked at: why. */
  refused: { tub: string; reason: string }[];
  cautions: Caution[];
  look?: CloseLook;
}

/** How the answering of a call goes on. */
export type CallAnswer =
  | { kind: 'faults'; faults: CallFault[] }
  | { kind: 'found'; found: Found }
  /** How the tub that is in the car already stands. */
  | { kind: 'existing'; judged: VerdictReport }
  | { kind: 'cost'; cost: AssumedCost }
  /** All that a question asks for is costed. */
  | { kind: 'questions costed' }
  | { kind: 'costs done' };

interface Listener {
  tell: (answer: CallAnswer) => void;
  goOn: () => Promise<boolean>;
}

/** Another question came: nobody wants to know this any more. */
export class Outdated extends Error {}

/** Works out tasks one by one and stops between two of them when there is a newer question. */
const performWhileWanted = (source: Case, { goOn }: Listener): Perform => {
  const here = performHere(source);
  return async (tasks) => {
    const results: Awaited<ReturnType<Perform>> = [];
    for (const task of tasks) {
      if (!(await goOn())) throw new Outdated();
      results.push(...(await here([task], () => {})));
    }
    return results;
  };
};

/** Why a tub cannot take the tyres whatever its height; empty when it can. */
function refusal(source: Case, tub: Case['tubs'][number], diameter: number): string {
  const sides = sideWords(sideFaults(source, tub));
  if (sides !== '') return sides;
  return tub.diameter - 2 * tub.liner > diameter ? '' : 'smaller inside than the tyre';
}

/** Some tubs of a case that could take its tyres, and what stands against the others. */
function shelf(source: Case, names: readonly string[]): { tubs: Case['tubs']; refused: Found['refused'] } {
  const setup = caseSetup(source);
  const diameter = 2 * Math.max(...setup.tyres.map((own) => own.centralTyre[tyreColumn('referenceRadius')]!));
  const judged = source.tubs
    .filter(({ name }) => names.includes(name))
    .map((tub) => ({ tub, reason: refusal(source, tub, diameter) }));
  return {
    tubs: judged.flatMap(({ tub, reason }) => (reason === '' ? [tub] : [])),
    refused: judged.flatMap(({ tub: { name }, reason }) => (reason === '' ? [] : [{ tub: name, reason }])),
  };
}

/** A tub that needs so much more of the car than the chosen one is out of the question, m. */
const FAR = 1 * INCH;
/** Tubs that are settled at most. */
const MOST_SETTLED = 4;

/** Of the tubs looked at those whose heights are worth settling: what may be chosen, and the next smaller and larger one. */
function nearTubs(source: Case, picks: readonly Pick[], chosen: number | undefined): string[] {
  const room = (t: number): number =>
    source.tubs[t]!.diameter + (picks[t]!.height?.topHeight ?? Number.POSITIVE_INFINITY);
  const bySize = source.tubs
    .map((_, t) => t)
    .sort((a, b) => source.tubs[a]!.diameter - source.tubs[b]!.diameter);
  const place = chosen === undefined ? bySize.length - 1 : bySize.indexOf(chosen);
  const wanted = (t: number, k: number): boolean =>
    t === chosen || Math.abs(k - place) === 1 || (chosen !== undefined && room(t) <= room(chosen) + FAR);
  const near = bySize
    .filter(wanted)
    .sort((a, b) => (a === chosen ? -1 : b === chosen ? 1 : room(a) - room(b)))
    .slice(0, MOST_SETTLED);
  return source.tubs.flatMap(({ name }, t) => (near.includes(t) ? [name] : []));
}

function countedOf(source: Case, risks: CaseRisks, runs: RunTallies, seasons: number): Counted {
  const picks = pickHeights(source, caseSetup(source), risks, runs);
  const chosen = chosenTub(source, picks);
  return {
    picks,
    chosen,
    nearest: chosen === undefined ? nearestTub(source, picks) : undefined,
    runs: runs.all.events,
    seasons,
  };
}

/** Tubs that are looked at first: the answer is the smallest that fits, and each costs time. */
const MOST_LOOKED_AT = 6;

/** The smallest of some tubs, in their order. */
function smallest(tubs: Case['tubs'], most: number): Case['tubs'] {
  const few = tubs.toSorted((a, b) => a.diameter - b.diameter).slice(0, most);
  return tubs.filter((tub) => few.includes(tub));
}

/** The first answer: hardly more plain runs than the accepted risks ask for, in tubs that could take the tyres. */
async function lookAt(source: Case, listener: Listener): Promise<Counted> {
  if (source.tubs.length === 0)
    return { picks: [], chosen: undefined, nearest: undefined, runs: 0, seasons: 0 };
  const first = lookedAtFirst(source);
  const { runs, risks } = await firstLook(first, performWhileWanted(first, listener));
  return countedOf(first, risks, runs, first.simulation.cars);
}

/** Where a picked tub is tight, and what closes its gap. */
async function closeLook(found: Found, perform: Perform): Promise<CloseLook | undefined> {
  const { source, picks, chosen } = found;
  const height = chosen === undefined ? undefined : picks[chosen]!.height;
  if (height === undefined) return undefined;
  const tyre = source.tyres.findIndex(({ name }) => name === height.limitingTyre);
  const only = (t: number): boolean => t === chosen;
  const results = await perform(
    [
      { kind: 'gaps', heights: picks.map((_, t) => (only(t) ? [height.topHeight] : [])) },
      {
        kind: 'shares',
        picks: picks.map((pick, t): Pick => {
          const { height: own, ...rest } = pick;
          return only(t) && own ? { ...rest, height: own } : rest;
        }),
      },
    ],
    () => {},
  );
  const [gaps, shares] = results;
  if (gaps?.kind !== 'gaps' || shares?.kind !== 'shares')
    throw new TypeError('gaps and shares were asked for');
  return { tight: gaps.gaps[tyre]![chosen!]![0]!, shares: shares.shares[chosen!]![tyre]! };
}

/**
 * Answers a call: first by a first look, then as the command line picks for the case of the same text, then what each thing
 * that is assumed costs. The smallest tub in stock that fits; where none does, one to be ordered.
 */
export async function answerCall(question: CallQuestion, listener: Listener): Promise<void> {
  const { answers, tubs, stock, order } = question;
  const read = readAnswers(answers);
  if (!read.ok) return;
  const interviewed = toCase(read.value);
  const filed = readFiles(callFiles(interviewed, tubs));
  if ('faults' in filed) {
    listener.tell({ kind: 'faults', faults: filed.faults });
    return;
  }
  const whole = filed.source;
  const looked = async (names: readonly string[]): Promise<{ found: Found; chosen: number | undefined }> => {
    const { tubs: fitting, refused } = shelf(whole, names);
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
    const found: Found = {
      ...counted,
      settled: false,
      source,
      files: callFiles(interviewed, tubs, names),
      order: names === order,
      refused,
      cautions: caseCautions(caseSetup(whole)),
    };
    return { found, chosen: counted.chosen };
  };
  const inStock = await looked(stock);
  const ordered = inStock.chosen === undefined && order.length > 0 ? await looked(order) : undefined;
  const first = ordered === undefined || ordered.chosen === undefined ? inStock.found : ordered.found;
  if (question.warmUp) return;
  listener.tell({ kind: 'found', found: first });
  if (first.source.tubs.length === 0) return;
  const look = await closeLook(first, performWhileWanted(first.source, listener));
  if (look) listener.tell({ kind: 'found', found: { ...first, look } });
  await settle(first, whole, interviewed, question, listener);
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
  whole: Case,
  interviewed: InterviewedCase,
  { tubs, answers }: CallQuestion,
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
  const [tolerances] = await perform([{ kind: 'tolerances', picks, chosen }], () => {});
  const told = tolerances?.kind === 'tolerances' ? tolerances.tolerances : undefined;
  if (look !== undefined && told !== undefined) {
    const { setOut, rows } = told;
    const verdict = tubVerdict(source, setup, risks, found.runs, chosen, setOut.topHeight);
    const { staticGaps } = rows[setOut.row]!;
    // The rows hold more angles behind than the pick's gaps do.
    const gaps = staticGaps.slice(staticGaps.length - height.staticGaps.length);
    const out = { ...setOut, staticGaps: gaps, risks: heightRisks(verdict) };
    listener.tell({ kind: 'found', found: { ...settled, look: { ...look, setOut: out } } });
  }
  const { asked, rest } = assumedItems(source, interviewed, answers);
  const costs = (items: readonly AssumedItem[]): Promise<void> =>
    assumedCosts(
      source,
      items,
      { tub: chosen, topHeight: height.topHeight, centres },
      async (work) => {
        if (!(await listener.goOn())) throw new Outdated();
        return work();
      },
      (cost) => listener.tell({ kind: 'cost', cost }),
    );
  await costs(asked);
  listener.tell({ kind: 'questions costed' });
  await costs(rest);
  listener.tell({ kind: 'costs done' });
}
