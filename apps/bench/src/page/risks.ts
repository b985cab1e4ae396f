import type { Case } from '@tubgap/casefile';
import {
  lowestAccepted,
  type Risk,
  type RiskByHeight,
  stepAt,
  type TubRisks,
  tubRisks,
} from '@tubgap/simulation';
import { SIXTEENTH } from '@tubgap/units';
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

/** Risks by height of a run with the tyre shown, from all that is known; undefined before there are any counts. */
function runRisks({ runs, weighted }: Known): TubRisks | undefined {
  return runs && tubRisks(runs.tally, weighted?.unseen ?? runs.tally, weighted?.tally)[0]!;
}

const seasonRisk = ({ seasons }: Known): RiskByHeight | undefined =>
  seasons && tubRisks(seasons.tally, seasons.tally, undefined)[0]!.touch;

/** Risk of going under the gap to be kept, by height: what the box, the verdict and the rare run all come from. */
export const closeRisk = (known: Known): RiskByHeight | undefined => runRisks(known)?.touch;

/** What the counts say of a top height; undefined before there are any. */
export function risksAt(known: Known, topHeight: number): Risks | undefined {
  const run = runRisks(known);
  if (run === undefined) return undefined;
  const step = stepAt(known.runs!.tally.tubs[0]!.lowest, topHeight);
  const season = seasonRisk(known);
  return { close: run.touch(step), contact: run.contact(step), ...(season && { season: season(step) }) };
}

/** Lowest top height at which run and season risk keep what is accepted, m; undefined when none does or not all is counted. */
export function lowestWithin(known: Known, accept: Case['accept']): number | undefined {
  const { runs, seasons } = known;
  const close = closeRisk(known);
  const season = seasonRisk(known);
  if (!runs?.done || !seasons?.done || close === undefined || season === undefined) return undefined;
  const steps = [lowestAccepted(close, accept.runRisk), lowestAccepted(season, accept.seasonRisk)];
  const found = steps.filter((step) => step !== undefined);
  return found.length < steps.length
    ? undefined
    : runs.tally.tubs[0]!.lowest + Math.max(...found) * SIXTEENTH;
}
