import type { Case, Envelope } from '@tubgap/casefile';

/** Sizes of a tub, m and rad, as the result keeps them. */
export interface TubSizes {
  /** Inside the bare skin; a liner takes its thickness off each side. */
  diameter: number;
  liner: number;
  skinThickness: number;
  halfExtent: number;
  legLength: number;
  centreForward: number;
}

/** Where a tub ends on the outside of its skin, m: above the track, and from the axle. */
export interface TubReach {
  top: number;
  ahead: number;
  behind: number;
  /** Lowest place of its legs, and what is trimmed off each for the car's limit. */
  legEnd: number;
  legTrim: number;
}

/**
 * Outer reach of a tub at a top height. Source: plane geometry, derived.
 * @param topHeight  inside crown above the track, on the liner where there is one, m
 * @param lowestLeg  where the car ends its legs, m above the track; undefined: nowhere
 */
export function tubReach(tub: TubSizes, topHeight: number, lowestLeg: number | undefined): TubReach {
  const { skinThickness, halfExtent, centreForward } = tub;
  const inside = 0.5 * tub.diameter;
  const outside = inside + skinThickness;
  const centre = topHeight + tub.liner - inside;
  const sin = Math.sin(halfExtent);
  const cos = Math.cos(halfExtent);
  const arcEnd = centre + inside * cos;
  const legEnd = arcEnd - tub.legLength * sin;
  // A leg that is cut where the limit lies is shorter by the height that it loses over its slope.
  const legTrim =
    lowestLeg === undefined ? 0 : Math.min(tub.legLength, Math.max(0, (lowestLeg - legEnd) / sin));
  const widest = cos < 0 ? outside : outside * sin + (tub.legLength - legTrim) * cos;
  return {
    top: topHeight + tub.liner + skinThickness,
    ahead: widest + centreForward,
    behind: widest - centreForward,
    legEnd: legEnd + legTrim * sin,
    legTrim,
  };
}

/** Room that is left to each limit of the car, m, negative where it is missing; undefined without a limit. */
export interface EnvelopeRoom {
  above: number | undefined;
  ahead: number | undefined;
  behind: number | undefined;
}

type Limits = Readonly<Partial<Record<keyof Envelope, number | undefined>>>;

/** Room between a tub and the limits of the car. Legs are no matter of room: they are trimmed. */
export function envelopeRoom(limits: Limits, reach: TubReach): EnvelopeRoom {
  const left = (limit: number | undefined, end: number): number | undefined =>
    limit === undefined ? undefined : limit - end;
  return {
    above: left(limits.highestTop, reach.top),
    ahead: left(limits.furthestAhead, reach.ahead),
    behind: left(limits.furthestBehind, reach.behind),
  };
}

/** Lengths that the car lacks for a case's tub at a top height, m, one for each side that is short; none when it fits. */
export function missingRoom({ envelope, tubs }: Case, tub: number, topHeight: number): number[] {
  const { arcExtent, ...sizes } = tubs[tub]!;
  const reach = tubReach({ ...sizes, halfExtent: 0.5 * arcExtent }, topHeight, envelope.lowestLeg);
  const { above, ahead, behind } = envelopeRoom(envelope, reach);
  return [above, ahead, behind].flatMap((left) => (left !== undefined && left < -1e-9 ? [-left] : []));
}
