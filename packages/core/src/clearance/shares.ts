import type { Tub } from '../tub/profile.ts';
import { tightGap } from './gap.ts';

/**
 * Named parts of the closing, in the order in which they are switched on at the tight angle of the full state. The
 * order matters for the size of each part, never for their sum.
 */
export const SHARES = [
  'tight angle',
  'pressure',
  'growth',
  'body drop',
  'bump',
  'axle forward',
  'bulge under load',
  'bulge under thrust',
  'lobe allowance',
  'run-out',
] as const;
export type Share = (typeof SHARES)[number];

/** What a fabricator sees standing still and what each cause adds at one moment, at the tight angle. */
export interface ClosingParts {
  /** Hub angle of the moment's tight point, rad. */
  angle: number;
  /** Smallest gap standing still, m, wherever it is. */
  staticSmallest: number;
  /** Radius of the standing outline at the tight angle, m: free radius and standing bulge. */
  staticRadius: number;
  /** Tub centre from the axle standing still, m. */
  ahead: number;
  above: number;
  /** Radius added at the tight angle by pressure, growth, load, thrust, lobe and run-out, m. */
  pressure: number;
  growth: number;
  loadBulge: number;
  thrustBulge: number;
  lobe: number;
  runOut: number;
  /** Body drop without the bump, bump, and forward movement of the axle, m. */
  drop: number;
  bump: number;
  forward: number;
}

/**
 * Splits a closing into its shares, m, in the order of SHARES. Their sum is the smallest gap standing still less the
 * gap at the tight angle of the moment, to the rounding of the last digit.
 * @param shares  SHARES.length numbers, overwritten
 * @returns gap at the tight angle with everything on, m
 */
export function fillShares(tub: Tub, parts: ClosingParts, shares: Float64Array): number {
  let radius = parts.staticRadius;
  let { ahead, above } = parts;
  let before = parts.staticSmallest;
  let place = 0;
  const close = (): void => {
    const gap = tightGap(tub, radius, parts.angle, ahead, above);
    shares[place++] = before - gap;
    before = gap;
  };
  close();
  radius += parts.pressure;
  close();
  radius += parts.growth;
  close();
  above -= parts.drop;
  close();
  above -= parts.bump;
  close();
  ahead -= parts.forward;
  close();
  radius += parts.loadBulge;
  close();
  radius += parts.thrustBulge;
  close();
  radius += parts.lobe;
  close();
  radius += parts.runOut;
  close();
  return before;
}
