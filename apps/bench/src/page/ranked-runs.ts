import {
  type DrawnRun,
  lowestAccepted,
  type RiskByHeight,
  runOfStep,
  type TightestRuns,
  tightestOf,
} from '@tubgap/simulation';
import { rareRun, wholeText } from '@tubgap/units';

/** A run that stands for many, and what it is called. */
export interface NamedRun {
  run: Pick<DrawnRun, 'car' | 'tyre' | 'axleHeight'>;
  name: string;
}

/** Runs that the page shows. */
export interface RankedRuns {
  middling: NamedRun;
  /** Of the accepted risk; where no height keeps that, or too little is counted to say so, the tightest of all. */
  rare: NamedRun;
}

/**
 * The middling run, and the one of the accepted risk: it asks for the lowest height whose risk is accepted, with the
 * upper end of the interval, as the verdict takes it. So it keeps the gap to be kept just where the verdict is "within
 * your limit"; any rounding makes it tighter.
 * @param risk  of coming too close, by height
 * @param kept  runs that `risk` was found from
 * @param done  whether all runs are counted; before, nothing stands in for a run whose height is not known yet
 */
export function rankedRuns(
  risk: RiskByHeight,
  accepted: number,
  kept: TightestRuns,
  events: number,
  done: boolean,
): RankedRuns | undefined {
  const named = (share: number, name: string): NamedRun | undefined => {
    const step = lowestAccepted(risk, share);
    const run = step === undefined ? undefined : runOfStep(kept, step);
    return run && { run, name };
  };
  const tightest = tightestOf(kept);
  const rare =
    named(accepted, rareRun(accepted)) ??
    (done && tightest ? { run: tightest, name: `the tightest of ${wholeText(events)} runs` } : undefined);
  if (rare === undefined) return undefined;
  return { middling: named(0.5, 'an ordinary run') ?? { ...rare, name: 'an ordinary run' }, rare };
}
