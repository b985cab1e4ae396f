import type { Case } from '@tubgap/casefile';
import {
  lowestAccepted,
  type Risk,
  type RiskByHeight,
  riskByHeight,
  SIXTEENTH,
  stepAt,
} from '@tubgap/simulation';
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

/** Risk of going under the gap to be kept, by height: what the box, the verdict and the rare run all come from. */
export function closeRisk({ runs, weighted }: Known): RiskByHeight | undefined {
  if (runs === undefined) return undefined;
  const { events, tubs } = runs.tally;
  const sums = weighted?.tally;
  return riskByHeight(tubs[0]!.steps, events, sums?.tubs[0]?.steps, sums?.events ?? 0);
}

/** What the counts say of a top height; undefined before there are any. */
export function risksAt(known: Known, topHeight: number): Risks | undefined {
  const { runs, weighted, seasons } = known;
  const close = closeRisk(known);
  if (runs === undefined || close === undefined) return undefined;
  const { events, tubs } = runs.tally;
  const tub = tubs[0]!;
  const step = stepAt(tub.lowest, topHeight);
  const sums = weighted?.tally;
  const season = seasons?.tally;
  return {
    close: close(step),
    contact: riskByHeight(tub.contactSteps, events, sums?.tubs[0]?.contact, sums?.events ?? 0)(step),
    ...(season && { season: riskByHeight(season.tubs[0]!.steps, season.events, undefined, 0)(step) }),
  };
}

/** Lowest top height at which run and season risk keep what is accepted, m; undefined when none does or not all is counted. */
export function lowestWithin(known: Known, accept: Case['accept']): number | undefined {
  const { runs, seasons } = known;
  const run = closeRisk(known);
  if (run === undefined || !runs?.done || !seasons?.done) return undefined;
  const tub = runs.tally.tubs[0]!;
  const season = riskByHeight(seasons.tally.tubs[0]!.steps, seasons.tally.events, undefined, 0);
  const steps = [lowestAccepted(run, accept.runRisk), lowestAccepted(season, accept.seasonRisk)];
  const found = steps.filter((step) => step !== undefined);
  return found.length < steps.length ? undefined : tub.lowest + Math.max(...found) * SIXTEENTH;
}
