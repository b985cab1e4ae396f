import type { Case } from '@tubgap/casefile';
import {
  type CheckVerdict,
  type Conflict,
  insideReserve,
  judgeChecks,
  type MarkReading,
  type Rub,
} from '@tubgap/evidence';
import type { Verdict } from '@tubgap/simulation';
import type { Learning } from './learning.ts';
import type { MeasuredFolder } from './measured-folder.ts';

/** What is seen of the measured car before anything is learned, and may stop it. */
export interface Stops {
  /** Undefined without a check sheet. */
  checks: CheckVerdict | undefined;
  /** Marks inside the gap to be kept. */
  touched: MarkReading[];
  /** Marks that the case calls impossible, each with the raise that it asks for by itself. */
  rubs: Rub[];
}

/** Why nothing was learned. */
export type Refusal =
  | { kind: 'nothing measured'; folder: string }
  | { kind: 'nothing uncertain' }
  | { kind: 'at odds'; conflicts: Conflict[] }
  | { kind: 'impossible rub' }
  | { kind: 'chains apart' };

/** The tub that stands in the measured car, judged as the case was and as it is believed now; m. */
export interface StandingTub {
  before: Verdict;
  /** Undefined where nothing was learned. */
  after: Verdict | undefined;
}

/** What came of a folder of measurements. */
export interface Outcome {
  source: Case;
  measured: MeasuredFolder;
  stops: Stops;
  /** Undefined where the folder does not say which tub is in the car, or nothing was simulated. */
  standing: StandingTub | undefined;
  result: { learning: Learning } | { refusal: Refusal };
}

/** What stops the car by sheet and marks alone. @param reserve  gap to be kept, m */
export function findStops(source: Case, { readings, rejected }: MeasuredFolder, reserve: number): Stops {
  const hardPoints = source.hardPoints.map(({ name }) => name);
  return {
    checks: judgeChecks(readings.checks, rejected, hardPoints),
    touched: insideReserve(readings.marks, reserve),
    rubs: [],
  };
}

/** Whether the measured car must not run. */
export const mustStop = ({ checks, touched, rubs }: Stops): boolean =>
  checks?.whole === 'fail' || touched.length > 0 || rubs.length > 0;

/** Whether the tub in the measured car is known to be outside what is accepted. */
export const isNotWithin = (standing: StandingTub | undefined): boolean =>
  (standing?.after ?? standing?.before)?.standing === 'not within';
