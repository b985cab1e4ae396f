import { type Case, type LearnedFile, learnedCase } from '@tubgap/casefile';
import { type CaseSetup, caseSetup } from '@tubgap/simulation';
import { type CarHeights, openCarHeights } from '../car-heights.ts';
import type { CarSpace } from '../car-space.ts';
import { type Conflict, findConflicts, impossibleRubs, isImpossibleRub } from '../conflicts.ts';
import { type Agreement, type LearnedSummary, learnedFile, type Origin, summarise } from '../learned.ts';
import type { Part } from '../parts/part.ts';
import { evidenceParts } from '../parts/parts.ts';
import { type Believed, spaceOf } from '../posterior.ts';
import { settledBelief } from '../settled-belief.ts';
import type { ShortAssessment } from '../short-assessment.ts';
import { wholeCarSpace } from '../whole-car.ts';
import { findStops, type ReadMeasures, type Stops } from './stops.ts';

/** Why nothing is learned from what was measured; `refusalWords` puts it into words. */
export type Refusal =
  | { kind: 'nothing measured' }
  | { kind: 'nothing uncertain' }
  | { kind: 'at odds'; conflicts: Conflict[] }
  /** Marks that nothing in the case can have made. */
  | { kind: 'impossible rub'; conflicts: Conflict[] }
  | { kind: 'chains apart' }
  | { kind: 'nothing moved' };

/** What was read of a car, weighed: how likely it makes any such car, and whether it stops this one. */
export interface Evidence {
  /** As it was measured, nothing learned in it. */
  source: Case;
  setup: CaseSetup;
  parts: Part[];
  stops: Stops;
}

/** Cars that agree with all the evidence. */
export interface Belief {
  believed: Believed;
  agreement: Agreement;
  /** Not refused, but strained. */
  conflicts: Conflict[];
}

/** What is believed, in short: a learned file, and the case that uses it. */
export interface Learned {
  /** Tub and tyre whose heights the short form was held against, by index. */
  place: { tub: number; tyre: number };
  whole: CarSpace;
  heights: CarHeights;
  summary: LearnedSummary;
  file: LearnedFile;
  updated: Case;
}

/** What a learned file is to say of itself. */
export interface LearnedFrom {
  origins: readonly Origin[];
  madeBy: string;
  /** Name by which the case knows it. */
  file: string;
  seed: number;
}

/** Weighs what was read of a case's car. @param setup  of the case, for whoever has read the measures by it already */
export function weighEvidence(source: Case, measures: ReadMeasures, setup = caseSetup(source)): Evidence {
  return {
    source,
    setup,
    parts: evidenceParts(source, setup, measures.readings),
    stops: findStops(source, measures),
  };
}

const rubsAmong = (conflicts: readonly Conflict[]): Refusal | undefined => {
  const rubs = conflicts.filter(isImpossibleRub);
  return rubs.length === 0 ? undefined : { kind: 'impossible rub', conflicts: rubs };
};

/** Looks for cars that agree with all the evidence, or says why none is to be believed. A rub that cannot be comes first. */
export function sampleBelief({ setup, parts }: Evidence, seed: number): Belief | { refusal: Refusal } {
  if (parts.length === 0) return { refusal: { kind: 'nothing measured' } };
  const space = spaceOf(setup, parts, seed);
  // Asked before anything is sampled: no car of such a case would be worth looking for.
  const early = rubsAmong(impossibleRubs(space, parts, seed));
  if (early !== undefined) return { refusal: early };
  if (space.directions.length === 0) return { refusal: { kind: 'nothing uncertain' } };
  const { believed, agreement } = settledBelief(setup, parts, seed);
  const conflicts = findConflicts(believed, seed);
  const late = rubsAmong(conflicts);
  if (late !== undefined) return { refusal: late };
  const odd = conflicts.filter(({ refused }) => refused);
  if (odd.length > 0) return { refusal: { kind: 'at odds', conflicts: odd } };
  if (!agreement.settled) return { refusal: { kind: 'chains apart' } };
  return { believed, agreement, conflicts };
}

/** The tub and the tyre that heights speak of: the pick of the case, or the largest tub and the tyre of the logs. */
function placeOf(
  source: Case,
  { picks, chosen }: Pick<ShortAssessment, 'picks' | 'chosen'>,
): Learned['place'] {
  const limiting = chosen === undefined ? undefined : picks[chosen]?.height?.limitingTyre;
  const named = limiting ?? source.runLog?.tyre ?? source.build.tyre;
  const diameters = source.tubs.map(({ diameter }) => diameter);
  return {
    tub: chosen ?? diameters.indexOf(Math.max(...diameters)),
    tyre: Math.max(
      0,
      source.tyres.findIndex(({ name }) => name === named),
    ),
  };
}

/**
 * Puts what is believed in short, held against the heights of the pick that the case had before.
 * @throws Error when the case cannot take what was learned of it, which is a fault of the program
 */
export function shortenBelief(
  { source, setup }: Evidence,
  { believed, agreement }: Belief,
  before: Pick<ShortAssessment, 'picks' | 'chosen'>,
  { origins, madeBy, file: name, seed }: LearnedFrom,
): Learned {
  const place = placeOf(source, before);
  const whole = wholeCarSpace(setup, seed);
  const heights = openCarHeights(setup, place.tyre, place.tub);
  const summary = summarise(believed, whole, heights, seed);
  const file = learnedFile(source, believed, summary, agreement, origins, madeBy, seed);
  const updated = learnedCase(source, file, name);
  if ('problem' in updated) throw new Error(updated.problem.reason);
  return { place, whole, heights, summary, file, updated };
}
