import { DEGREE, INCH, MPH, POUND, POUND_FORCE, PSI } from '@tubgap/units';
import type { NumberColumn } from './measured-table.ts';

const length = (head: string, low: number, high: number, optional?: true): NumberColumn => ({
  head,
  kind: 'length',
  low: low * INCH,
  high: high * INCH,
  unit: 'in',
  ...(optional && { optional }),
});

export const ROLLOUT = length('rollout', 50, 140);
export const LOADED_RADIUS = length('loaded_radius', 7, 22);
export const TRAVEL = length('travel', -6, 12);
export const MEASURED_GAP = length('measured', 0, 20, true);
/** A hard point may be further off than any tub. */
export const MEASURED_HARD_GAP = length('measured', 0, 60, true);
/** Less than this gap and the car does not run; one below 0 asks for nothing. */
export const GAP_LIMIT = length('limit', -60, 60, true);
export const TOP_HEIGHT = length('top_height', 20, 80);
export const CENTRE_FORWARD = length('centre_forward', -12, 12, true);
export const TOP_MEASURED = length('top_measured', 20, 80, true);
export const TOP_LEAST = length('top_least', 20, 80, true);
export const CENTRE_MEASURED = length('centre_measured', -12, 12, true);
export const CENTRE_LEAST = length('centre_least', -24, 24, true);
export const CENTRE_MOST = length('centre_most', -24, 24, true);
/** How far off the reading may be, one standard deviation, when the shop knows better than the usual. */
export const LENGTH_SD = length('sd', 0.005, 2, true);
/** Of a witness stuck to the tub; left out or 0: the skin itself. */
export const THICKNESS = length('thickness', 0, 6, true);

export const PRESSURE: NumberColumn = {
  head: 'pressure',
  kind: 'pressure',
  low: 1.5 * PSI,
  high: 60 * PSI,
  unit: 'psi',
};

export const MASS: NumberColumn = {
  head: 'mass',
  kind: 'mass',
  low: 8 * POUND,
  high: 150 * POUND,
  unit: 'lb',
};
export const MASS_SD: NumberColumn = {
  head: 'sd',
  kind: 'mass',
  low: 0.01 * POUND,
  high: 20 * POUND,
  unit: 'lb',
  optional: true,
};

export const LOAD: NumberColumn = {
  head: 'load',
  kind: 'force',
  low: 100 * POUND_FORCE,
  high: 4000 * POUND_FORCE,
  unit: 'lbf',
};

export const ANGLE: NumberColumn = {
  head: 'angle',
  kind: 'angle',
  low: -120 * DEGREE,
  high: 120 * DEGREE,
  unit: 'deg',
};

export const RUNS: NumberColumn = { head: 'runs', kind: 'count', low: 1, high: 10_000, unit: '' };

const finishSpeed = (head: string): NumberColumn => ({
  head,
  kind: 'speed',
  low: 20 * MPH,
  high: 345 * MPH,
  unit: 'mph',
  optional: true,
});
export const SPEED_LOW = finishSpeed('speed_low');
export const SPEED_HIGH = finishSpeed('speed_high');
/** Where the tub stood in these runs, when it is said with them. */
export const TOP_THEN = length('top_height', 20, 80, true);
