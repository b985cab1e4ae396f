/** On which side of a place a law's share is counted. */
export type Side = 'below' | 'above';

/** A law by its share on one side of a place, with all its digits, and by its density there. */
export interface SharedLaw {
  share: (place: number) => number;
  density: (place: number) => number;
}

/** Newton steps on the logarithm of the share; a step that leaves the bracket halves it instead. */
const MOST_STEPS = 200;

/**
 * Where a smooth law leaves a share on one side.
 * @param side  the one that `share` counts
 * @param low   at most the place
 * @param high  at least the place
 * @param enough  how near is near enough, in the places' unit
 */
export function placeOfShare(
  { share, density }: SharedLaw,
  wanted: number,
  side: Side,
  low: number,
  high: number,
  enough: number,
): number {
  const sign = side === 'below' ? 1 : -1;
  let place = 0.5 * (low + high);
  for (let step = 0; step < MOST_STEPS && high - low > enough; step++) {
    const is = share(place);
    if (sign * (is - wanted) > 0) high = place;
    else low = place;
    const move = (-sign * Math.log(is / wanted) * is) / density(place);
    const next = place + move;
    if (Math.abs(move) <= enough) return next;
    place = next > low && next < high ? next : 0.5 * (low + high);
  }
  return place;
}
