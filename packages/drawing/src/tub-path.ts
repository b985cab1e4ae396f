import type { Notch, Tub } from '@tubgap/core';
import { shortNumber } from './markup.ts';
import type { View } from './shapes.ts';

/** What bounds a tub at an angle about its arc's centre: the arc, or the flat of a notch by its number. */
type Bound = 'arc' | number;

const TOO_SHORT = 1e-9;
/** Angle by which an arc may differ from half a circle and be one, rad. */
const HALF = 1e-6;
/** What rounding may take off the distance of an arc's ends, drawing units. */
const ROUNDED = 0.015;

/** Distance from the arc's centre to a flat along a ray, m; none where the ray runs along it or away from it. */
function flatAlong({ angle, depth }: Notch, radius: number, ray: number): number {
  const towards = Math.cos(ray - angle);
  return towards > 0 ? (radius - depth) / towards : Number.POSITIVE_INFINITY;
}

function boundAt(notches: readonly Notch[], radius: number, ray: number): Bound {
  let bound: Bound = 'arc';
  let least = radius;
  notches.forEach((notch, i) => {
    const here = flatAlong(notch, radius, ray);
    if (here >= least) return;
    least = here;
    bound = i;
  });
  return bound;
}

/** Angle of the corner of two flats; undefined where they are parallel. Two lines n·p = c solved, derived. */
function corner(a: Notch, b: Notch, radius: number): number | undefined {
  const turn = Math.sin(a.angle - b.angle);
  if (Math.abs(turn) < TOO_SHORT) return undefined;
  const [ca, cb] = [radius - a.depth, radius - b.depth];
  const ahead = (ca * Math.cos(b.angle) - cb * Math.cos(a.angle)) / turn;
  const above = (cb * Math.sin(a.angle) - ca * Math.sin(b.angle)) / turn;
  return Math.atan2(ahead, above);
}

/** Angles at which what bounds a tub may change, from the rear end of its arc to the front one. */
function changes(tub: Tub): number[] {
  const { radius, halfExtent, notches = [] } = tub;
  const found = notches.flatMap((notch, i) => {
    // A flat meets the arc where the arc's height over it is the notch's depth.
    const half = Math.acos(Math.max(-1, Math.min(1, 1 - notch.depth / radius)));
    const corners = notches.slice(i + 1).map((other) => corner(notch, other, radius));
    return [notch.angle - half, notch.angle + half, ...corners.filter((angle) => angle !== undefined)];
  });
  return [
    -halfExtent,
    ...found.filter((angle) => Math.abs(angle) < halfExtent).sort((a, b) => a - b),
    halfExtent,
  ];
}

/** How far down a leg the flats of notches take it away, m; Infinity where nothing of it is left. */
function legCut({ radius, halfExtent, legLength, notches = [] }: Tub, side: number): number {
  return notches.reduce((cut, { angle, depth }) => {
    const falls = Math.sin(halfExtent - side * angle);
    const past = radius * Math.cos(halfExtent - side * angle) - (radius - depth);
    if (past <= 0) return cut;
    return falls > TOO_SHORT && past < falls * legLength
      ? Math.max(cut, past / falls)
      : Number.POSITIVE_INFINITY;
  }, 0);
}

/**
 * Path of a tub's inside surface moved outward by `offset` metres: leg, arc, leg, from the rear to the front, with the
 * flats of its notches wherever one stands inside arc, legs and other flats.
 * @param ahead  centre of the arc ahead of the axle, m
 * @param above  centre of the arc above the axle, m
 */
export function tubPath(view: View, own: Tub, ahead: number, above: number, offset: number): string {
  const tub = { ...own, radius: own.radius + offset };
  const { radius, halfExtent, legLength, notches = [] } = tub;
  const sin = Math.sin(halfExtent);
  const cos = Math.cos(halfExtent);
  const spot = (x: number, z: number): string =>
    [view.x(ahead + x), view.y(above + z)].map(shortNumber).join(',');
  const onLeg = (side: number, down: number): string =>
    spot(side * (radius * sin + down * cos), radius * cos - down * sin);
  const onBound = (ray: number): string => {
    const bound = boundAt(notches, radius, ray);
    const far = bound === 'arc' ? radius : flatAlong(notches[bound]!, radius, ray);
    return spot(far * Math.sin(ray), far * Math.cos(ray));
  };
  const at = changes(tub);
  const [rearCut, frontCut] = [legCut(tub, -1), legCut(tub, 1)];
  let path = Number.isFinite(rearCut)
    ? `M${onLeg(-1, legLength)}L${onLeg(-1, rearCut)}`
    : `M${onBound(-halfExtent)}`;
  // Neighbouring pieces of the same arc or flat are one.
  const pieces: { bound: Bound; from: number; to: number }[] = [];
  for (let i = 1; i < at.length; i++) {
    const [from, to] = [at[i - 1]!, at[i]!];
    if (to - from < TOO_SHORT) continue;
    const bound = boundAt(notches, radius, 0.5 * (from + to));
    const last = pieces.at(-1);
    if (last?.bound === bound) last.to = to;
    else pieces.push({ bound, from, to });
  }
  for (const { bound, from, to } of pieces) {
    // Half a circle is drawn through its ends whatever they are rounded to only where its radius is no more than theirs.
    const isHalf = Math.abs(to - from - Math.PI) < HALF;
    const r = shortNumber(view.scale * radius - (isHalf ? ROUNDED : 0));
    path +=
      bound === 'arc' ? `A${r},${r},0,${to - from > Math.PI ? 1 : 0},1,${onBound(to)}` : `L${onBound(to)}`;
  }
  if (!Number.isFinite(frontCut)) return path;
  return `${path}${frontCut > 0 ? `L${onLeg(1, frontCut)}` : ''}L${onLeg(1, legLength)}`;
}
