import type { Case } from '@tubgap/casefile';
import { heightOf, lowestAccepted, type Risk, stepAt } from '@tubgap/simulation';
import type { Known } from './estimate.ts';

/** Chances at one top height. */
export interface Risks {
  /** Of going under the gap to be kept. */
  close: Risk;
  /** Of contact. */
  contact: Risk;
  /** Of a season in which a run goes under it. */
  season?: Risk;
}

/** What is known of a top height; undefined before there are any counts. */
export function risksAt({ runs, seasons }: Known, topHeight: number): Risks | undefined {
  if (runs === undefined) return undefined;
  const { touch, contact } = runs.risks;
  const step = stepAt(runs.tally.tubs[0]!.lowest, topHeight);
  return { close: touch(step), contact: contact(step), ...(seasons && { season: seasons.risk(step) }) };
}

/** Whether all is counted and weighed, so that a height found from it stays. */
export const isFinal = ({ runs, seasons, picked }: Known): boolean =>
  picked === true || (runs?.done === true && runs.weighed && seasons?.done === true);

/** Lowest top height at which run and season risk keep what is accepted, m; undefined when none does or more is still counted. */
export function lowestWithin(known: Known, accept: Case['accept']): number | undefined {
  const { runs, seasons } = known;
  if (!isFinal(known)) return undefined;
  const steps = [
    lowestAccepted(runs!.risks.touch, accept.runRisk),
    lowestAccepted(seasons!.risk, accept.seasonRisk),
  ];
  const found = steps.filter((step) => step !== undefined);
  return found.length < steps.length ? undefined : heightOf(runs!.tally.tubs[0]!.lowest, Math.max(...found));
}
