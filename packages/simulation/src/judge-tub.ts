import type { Case } from '@tubgap/casefile';
import type { Progress } from './assess.ts';
import type { Centres } from './importance/mixture.ts';
import type { CarSpread } from './insight/car-spread.ts';
import type { GapFigures } from './look.ts';
import { chosenTub, pickHeights } from './pick.ts';
import { caseSetup } from './setup.ts';
import { type Perform, performHere, simulateUntilSettled } from './simulate.ts';
import { findingRisks, type Task } from './tasks.ts';
import { tubVerdict, type Verdict } from './verdict.ts';

/** The tub that is asked about; what is left out is the pick's. */
export interface AskedTub {
  /** Index among the case's tubs. */
  tub?: number | undefined;
  /** m */
  topHeight?: number | undefined;
}

/** A verdict, and where and in which cars the tub is tight. */
export interface JudgedTub {
  verdict: Verdict;
  /** Indices of the tub, and of the tyre that asks for the most height. */
  tub: number;
  tyre: number;
  /** Smallest gaps of that tyre's runs at that height. */
  tight: GapFigures;
  /** Undefined where hardly any run comes too close. */
  carSpread: CarSpread | undefined;
  /** About which the touches of the case lie. */
  centres: Centres;
  /** Plain runs that it was judged by. */
  draws: number;
}

/**
 * Judges one tub by the simulation that a pick of the case makes, with the same draws: a case of the same seed and runs
 * has the same figures here as there. Undefined when no tub or height was asked about and the case has no pick.
 * @throws ModelRangeError when a draw leaves what the model knows; RangeError when a tyre's deflection fits no sidewall
 */
export async function judgeTub(
  source: Case,
  asked: AskedTub,
  perform: Perform = performHere(source),
  progress: Progress = () => {},
): Promise<JudgedTub | undefined> {
  const setup = caseSetup(source);
  const { found, centres } = await simulateUntilSettled(source, setup, perform, (done) =>
    progress('simulating', done),
  );
  const { runs } = found;
  const risks = findingRisks(found);
  const picks = pickHeights(source, setup, risks, runs);
  const tub = asked.tub ?? chosenTub(source, picks);
  const topHeight = asked.topHeight ?? (tub === undefined ? undefined : picks[tub]?.height?.topHeight);
  if (tub === undefined || topHeight === undefined) return undefined;
  const verdict = tubVerdict(source, setup, risks, runs, tub, topHeight);
  const tyre = setup.tyres.findIndex(({ name }) => name === verdict.limitingTyre);
  const tasks: Task[] = [
    { kind: 'gaps', heights: source.tubs.map((_, t) => (t === tub ? [topHeight] : [])) },
    { kind: 'car spread', centres, tyre, tub, topHeight },
  ];
  progress('looking closely', 0);
  const [gaps, spread] = await perform(tasks, (share) => progress('looking closely', share));
  if (gaps?.kind !== 'gaps' || spread?.kind !== 'car spread')
    throw new TypeError('the looks came back in another order than they were asked for');
  return {
    verdict,
    tub,
    tyre,
    tight: gaps.gaps[tyre]![tub]![0]!,
    carSpread: spread.spread,
    centres,
    draws: runs.all.events,
  };
}
