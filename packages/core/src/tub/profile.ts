/** A notch cut into a tub and closed by a flat panel, square to the radius at its angle. It moves with the tub. */
export interface Notch {
  /** From the tub's crown, forward positive, rad; within ±75°. */
  angle: number;
  /** How far the flat stands inside the arc, m, ≥ 0. */
  depth: number;
}

/** A tub in side view: an arc that opens downward, ending in straight legs tangent to it. */
export interface Tub {
  /** T, inside radius, bare skin less strip or liner, m. */
  radius: number;
  /** Half of the arc's extent, from its crown to where a leg begins, rad, up to π/2. */
  halfExtent: number;
  /** Length of each leg, m, ≥ 0. */
  legLength: number;
  /** Centre of the arc ahead of the axle at rest, m. */
  centreForward: number;
  notches?: readonly Notch[];
}

/**
 * Signed distance, m, from a point to the inside surface of a tub: positive inside, 0 on it, negative through it.
 * Beyond the end of a leg it is the plain distance to the leg's end.
 * @param ahead  of the arc's centre, m
 * @param above  the arc's centre, m
 */
export function tubGap(tub: Tub, ahead: number, above: number): number {
  return wallDistance(tub, Math.sin(tub.halfExtent), Math.cos(tub.halfExtent), ahead, above);
}

/** `tubGap` for a loop over many points: sine and cosine of the half extent are the caller's. */
export function wallDistance(tub: Tub, sin: number, cos: number, ahead: number, above: number): number {
  const wall = arcDistance(tub, sin, cos, ahead, above);
  if (tub.notches === undefined) return wall;
  let least = wall;
  for (const { angle, depth } of tub.notches) {
    least = Math.min(least, tub.radius - depth - (ahead * Math.sin(angle) + above * Math.cos(angle)));
  }
  return least;
}

function arcDistance(tub: Tub, sin: number, cos: number, ahead: number, above: number): number {
  const side = Math.abs(ahead);
  const along = side * cos - above * sin;
  // along = distance · sin(point's angle from the crown − halfExtent): not positive within the arc's fan.
  if (along <= 0) return tub.radius - Math.sqrt(ahead * ahead + above * above);
  if (along <= tub.legLength) return tub.radius - (side * sin + above * cos);
  return Math.hypot(
    side - tub.radius * sin - tub.legLength * cos,
    above - tub.radius * cos + tub.legLength * sin,
  );
}

/** Half extents from here on end in vertical legs. */
export const VERTICAL = Math.PI / 2 - 1e-9;

/** Where a leg of a tub ends on the inside, beside the arc's centre, m. */
export function legEndSide({ radius, halfExtent, legLength }: Tub): number {
  return halfExtent >= VERTICAL ? radius : radius * Math.sin(halfExtent) + legLength * Math.cos(halfExtent);
}

/** Where a leg of a tub ends below the arc's centre, m; negative when a short arc ends above its centre. */
export function legReach({ radius, halfExtent, legLength }: Tub): number {
  return legLength * Math.sin(halfExtent) - radius * Math.cos(halfExtent);
}

/**
 * Highest place above the arc's centre, m, at which a point that far ahead still keeps the reserve from arc, leg and
 * the leg's end. Infinity beyond the end of the legs: nothing of the tub stands over the point there.
 * @param ahead  of the arc's centre, m
 * @param reserve  m, ≥ 0
 */
export function ceilingAbove(tub: Tub, ahead: number, reserve: number): number {
  const radius = tub.radius - reserve;
  const side = Math.abs(ahead);
  const sin = Math.sin(tub.halfExtent);
  if (side <= radius * sin) return Math.sqrt(radius * radius - side * side);
  const end = legEndSide(tub);
  if (tub.halfExtent < VERTICAL && side <= end - reserve * sin) {
    return (radius - side * sin) / Math.cos(tub.halfExtent);
  }
  const away = side - end;
  return away <= reserve
    ? -legReach(tub) - Math.sqrt(reserve * reserve - away * away)
    : Number.POSITIVE_INFINITY;
}
