import type { ChosenTub } from './chosen-tub.ts';

type Notched = Pick<ChosenTub['tub'], 'diameter' | 'radius' | 'notches'>;

/**
 * Lengths in m of the flats that close the notches, in their order: the chord that each cuts off the bare skin, less what a
 * neighbour cuts off it where two meet; 0 where others leave nothing of it. Plane geometry, derived.
 */
export function flatLengths({ diameter, radius, notches }: Notched): number[] {
  return notches.map(({ angle, depth }, own) => {
    const away = radius - depth;
    const half = Math.sqrt(Math.max(0, (0.5 * diameter) ** 2 - away ** 2));
    let from = -half;
    let to = half;
    notches.forEach((other, i) => {
      if (i === own) return;
      // A place s along this flat is inside of the other where away cos Δ + s sin Δ ≤ its own distance.
      const turn = other.angle - angle;
      const room = radius - other.depth - away * Math.cos(turn);
      const sin = Math.sin(turn);
      if (sin > 1e-9) to = Math.min(to, room / sin);
      else if (sin < -1e-9) from = Math.max(from, room / sin);
      else if (room < 0) to = from;
    });
    return Math.max(0, to - from);
  });
}
