import type { Case } from '@tubgap/casefile';
import type { Refusal, Stops } from '@tubgap/evidence';
import type { Verdict } from '@tubgap/simulation';
import type { Learning } from './learning.ts';
import type { MeasuredFolder } from './measured-folder.ts';

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

/** Whether the tub in the measured car is known to be outside what is accepted. */
export const isNotWithin = (standing: StandingTub | undefined): boolean =>
  (standing?.after ?? standing?.before)?.standing === 'not within';
