import { INCH } from '@tubgap/units';
import type { MeasuredCar, Measures } from '../carried/measures.ts';
import type { Units } from './words.ts';

/** Top heights and centres that a case may have, m. */
export const HEIGHTS = [20 * INCH, 80 * INCH] as const;
export const CENTRES = [-12 * INCH, 12 * INCH] as const;

/** A notch cut in a tub: angle from straight up, forward positive, rad; depth inside the arc, m. */
export type Notch = MeasuredCar['notches'][string][number];

/** Everything that a visitor can set. */
export interface BenchState {
  tub: string;
  tyre: string;
  /** Inside top above the track, m. */
  topHeight: number;
  /** Tub centre ahead of the axle, m; undefined: as the case says. */
  centre?: number | undefined;
  /** Notches by tub, where they are not those of the case. */
  notches: Readonly<Record<string, readonly Notch[]>>;
  /** Values in place of the case's, by path, as a command line gives them: '~230 mph'. */
  values: Readonly<Record<string, string>>;
  units: Units;
  measures: Measures;
}

/** A state without what was learned in it. */
export function withoutLesson(state: BenchState): BenchState {
  const { learned: _, ...values } = state.values;
  return { ...state, values };
}
