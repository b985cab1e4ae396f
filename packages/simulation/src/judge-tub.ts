import type { Case } from '@tubgap/casefile';
import type { Progress } from './assess/assess.ts';
import type { Centres } from './importance/mixture.ts';
import type { CarSpread } from './insight/car-spread.ts';
import type { GapFigures } from './inspect-gaps.ts';
import { type Stands, standsBy } from './limits/margins.ts';
import { chosenTub, pickHeights } from './pick.ts';
import { caseSetup } from './setup.ts';
import { type Perform, performHere, simulateUntilSettled } from './simulate.ts';
import { findingRisks, type Task } from './tasks.ts';
import { type HeightRisks, heightRisks, tubVerdict, type Verdict } from './verdict.ts';

/** The tub that is asked about. */
export interface AskedTub {
  /** Index among the case's tubs; the pick's when left out. */
  tub?: number | undefined;
  /** m; the height at which a shop sets that tub out when left out, as every paper of a pick names it. */
  topHeight?: number | undefined;
}

/** The least height that will do, m, with its risks. */
export interface LeastHeight extends HeightRisks {
  topHeight: number;
}

/** A verdict, and the sample that it was come to by. */
export interface Judgement {
  verdict: Verdict;
  /** Of a height that was not asked about but is the one set out: the least one. Undefined where a height was given. */
  least: LeastHeight | undefined;
  /** Indices of the tub, and of the tyre that asks for the most height. */
  tub: number;
  tyre: number;
  /** What the tub lacks in height. */
  stands: Stands;
  /** About which the touches of the case lie. */
  centres: Centres;
  /** Plain runs that it was judged by. */
  draws: number;
}

/** A verdict, and where and in which cars the tub is tight. */
export interface JudgedTub extends Judgement {
  /** Smallest gaps of that tyre's runs at that height. */
  tight: GapFigures;
  /** Null where too few draws tell. */
  carSpread: CarSpread | null;
}

/** Whether a tub is asked about where the case has it in the car. */
const stands = ({ existing, tubs }: Case, { tub, topHeight }: AskedTub): boolean =>
  existing !== undefined &&
  tub !== undefined &&
  existing.tub.name === tubs[tub]!.name &&
  existing.topHeight === topHeight;

/**
 * Judges one tub by the simulation that a pick of the case makes, with the same draws: a case of the same seed and runs
 * has the same figures here as there, of the least height as of the one that is set out. Undefined when no tub or height was
 * asked about and the case has no pick.
 * @throws ModelRangeError when a draw leaves what the model knows; RangeError when a tyre's deflection fits no sidewall
 */
export async function judgement(
  source: Case,
  asked: AskedTub,
  perform: Perform = performHere(source),
  progress: Progress = () => {},
): Promise<Judgement | undefined> {
  const setup = caseSetup(source);
  const { found, centres } = await simulateUntilSettled(
    source,
    setup,
    perform,
    (done) => progress('simulating', done),
    // Where the case itself says that it stands is counted in any case: then the tasks are those of the pick.
    asked.topHeight === undefined || stands(source, asked) ? [] : [asked.topHeight],
  );
  const { runs } = found;
  const risks = findingRisks(found);
  const picks = pickHeights(source, setup, risks, runs);
  const tub = asked.tub ?? chosenTub(source, picks);
  const least = asked.topHeight === undefined && tub !== undefined ? picks[tub]?.height : undefined;
  const setOut = async (): Promise<number | undefined> => {
    if (least === undefined) return undefined;
    const [found] = await perform([{ kind: 'tolerances', picks, chosen: tub }], () => {});
    if (found?.kind !== 'tolerances') throw new TypeError('tolerances were asked for');
    return found.tolerances?.setOut.topHeight;
  };
  const topHeight = asked.topHeight ?? (await setOut());
  if (tub === undefined || topHeight === undefined) return undefined;
  const verdict = tubVerdict(source, setup, risks, runs, tub, topHeight);
  const atLeast = least && tubVerdict(source, setup, risks, runs, tub, least.topHeight);
  return {
    verdict,
    least: atLeast && { topHeight: atLeast.topHeight, ...heightRisks(atLeast) },
    tub,
    tyre: setup.tyres.findIndex(({ name }) => name === verdict.limitingTyre),
    stands: standsBy(source, setup, risks, tub, topHeight),
    centres,
    draws: runs.all.events,
  };
}

/** The same, with closer looks at where and in which cars the tub is tight. @throws as `judgement` */
export async function judgeTub(
  source: Case,
  asked: AskedTub,
  perform: Perform = performHere(source),
  progress: Progress = () => {},
): Promise<JudgedTub | undefined> {
  const judged = await judgement(source, asked, perform, progress);
  if (judged === undefined) return undefined;
  const { tub, tyre, centres } = judged;
  const { topHeight } = judged.verdict;
  const tasks: Task[] = [
    { kind: 'gaps', heights: source.tubs.map((_, t) => (t === tub ? [topHeight] : [])) },
    { kind: 'car spread', centres, tyre, tub, topHeight },
  ];
  progress('looking closely', 0);
  const [gaps, spread] = await perform(tasks, (share) => progress('looking closely', share));
  if (gaps?.kind !== 'gaps' || spread?.kind !== 'car spread')
    throw new TypeError('the looks came back in another order than they were asked for');
  return { ...judged, tight: gaps.gaps[tyre]![tub]![0]!, carSpread: spread.spread };
}
