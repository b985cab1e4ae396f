import type { Limited, LimitedKind } from './quantities.ts';

/**
 * How far one number of the case may go, all else as it stands, so that a tub at its height keeps the accepted risks.
 * SI; every value that is told was looked at with all draws of the case.
 */
export interface Limit {
  code: Limited;
  label: string;
  /** Place in the case. */
  path: string;
  kind: LimitedKind;
  /** Unit in whose steps it was looked at. */
  unit: string;
  /** most: values above the limit ask for more height; least: values below it. */
  end: 'most' | 'least';
  /** As the case has it; of an uncertain number its middle. */
  now: number;
  /**
   * limit: `value` is the last that is within. any: every value up to `value` is, further was not looked at. none: no value
   * that was looked at is, surely. not known: too few runs to name one. ranges: the height does not follow the number one
   * way only, and `ranges` has what is within.
   */
  outcome: 'limit' | 'any' | 'none' | 'not known' | 'ranges';
  /** The last value within; null where there is none. */
  value: number | null;
  /** A value that surely is not within, near to the first: between the two more runs would tell. Null where none was found. */
  beyond: number | null;
  /** Values looked at, both ends included. */
  from: number;
  to: number;
  /** Neighbouring values within, of those looked at; empty but for the outcome of that name. */
  ranges: { from: number; to: number }[];
}
