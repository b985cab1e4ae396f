import { carColumn } from '../inputs.ts';
import type { Tub } from '../tub/profile.ts';

/** Where a tub's arc is centred, seen from the axle. */
export interface TubPlace {
  /** Centre ahead of the axle, x_c − s_x, m. */
  ahead: number;
  /** Centre above the axle, crown height over the axle − T − u, m. */
  above: number;
}

/** Where the body stands over its place at rest on the build tyre. */
export interface BodyPlace {
  /** Body down, m. */
  drop: number;
  /** Axle forward under the body, m. */
  forward: number;
}

export const BODY_AS_BUILT: BodyPlace = { drop: 0, forward: 0 };

const TOP_ERROR = carColumn('topHeightError');
const CENTRE_ERROR = carColumn('centreError');

/**
 * A tub as the axle sees it: its arc's centre, from the crown's height above the axle as built.
 * @param crown  m above the axle with the body as built
 */
export const tubFromAxle = (
  { radius, centreForward }: Pick<Tub, 'radius' | 'centreForward'>,
  crown: number,
  { drop, forward }: BodyPlace,
): TubPlace => ({ ahead: centreForward - forward, above: crown - radius - drop });

/**
 * The same of a tub that was set out at a top height, with what the draw has it misplaced by.
 * @param car  one draw of CAR_INPUTS
 * @param topHeight  above the track with the build tyre, m
 * @param axleHeight  static loaded radius with the build tyre, m
 */
export function builtTubFromAxle(
  car: Float64Array,
  tub: Tub,
  topHeight: number,
  axleHeight: number,
  body: BodyPlace,
): TubPlace {
  // The misplacement comes first, as in the kernel: its bits.
  const centreForward = tub.centreForward + car[CENTRE_ERROR]!;
  return tubFromAxle({ radius: tub.radius, centreForward }, topHeight + car[TOP_ERROR]! - axleHeight, body);
}
