/** Side-view instant centre of the rear links, from the axle at rest. */
export interface InstantCentre {
  /** d, ahead of the axle, m, > 0. */
  ahead: number;
  /** h_I, above the ground, m. */
  height: number;
}

/**
 * Anti-squat of the links, 1: h_I L/(d h). Source: side-view statics of a solid axle, derived.
 * @param wheelbase  L, m, > 0
 * @param cgHeight  h, m, > 0
 */
export function antiSquat(centre: InstantCentre, wheelbase: number, cgHeight: number): number {
  return (centre.height * wheelbase) / (centre.ahead * cgHeight);
}

/**
 * Forward movement of the axle per unit of bump, 1: (a₀ − h_I)/d. The axle turns about the instant centre, so it
 * swings forward in bump when the centre lies below it. A slope at rest: it changes as the axle travels.
 * @param axleHeight  a₀, above the ground, m
 */
export function axlePathSlope(centre: InstantCentre, axleHeight: number): number {
  return (axleHeight - centre.height) / centre.ahead;
}
