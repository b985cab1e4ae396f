import { legEndSide, legReach, type Tub, tubGap, wallDistance } from '../tub/profile.ts';
import { SHAPE_END } from '../tyre/band-shape.ts';
import { GRID_HALF, GRID_STEP, outlineRadius, TABLE_X, TABLE_Z, WIDEST } from '../tyre/outline.ts';

/** Gap and where it is. */
export interface Gap {
  /** Shortest distance from the outline to the tub, m; negative when the tyre is through it. */
  gap: number;
  /** Hub angle of the tight point, rad from straight up, forward positive. */
  angle: number;
}

/** Where a tub's arc is centred, seen from the axle at one moment. */
export interface TubPlace {
  /** Centre ahead of the axle, x_c − s_x, m. */
  ahead: number;
  /** Centre above the axle, crown height over the axle − T − u, m. */
  above: number;
}

/**
 * Shortest distance, m, from the outline's point at one hub angle to the tub, as a feeler measures it from there.
 * @param angle  rad, |θ| ≤ 120°
 */
export function gapAtAngle(outline: Float64Array, tub: Tub, place: TubPlace, angle: number): number {
  const r = outlineRadius(outline, angle);
  return tubGap(tub, r * Math.sin(angle) - place.ahead, r * Math.cos(angle) - place.above);
}

/** Hub angles searched, rad: down to 120° on either side, as far as the legs of a usual tub reach. */
const SEARCH_END = (120 * Math.PI) / 180;
const GOLDEN = 0.5 * (Math.sqrt(5) - 1);

/** Where the end of one leg stands, seen from the hub: m away, and hub angle in rad. */
const end = new Float64Array(2);
const AWAY = 0;
const ANGLE = 1;

function fillEnd(tub: Tub, ahead: number, above: number, way: number): void {
  const x = ahead + way * legEndSide(tub);
  const z = above - legReach(tub);
  end[AWAY] = Math.sqrt(x * x + z * z);
  end[ANGLE] = Math.atan2(x, z);
}

/**
 * Gap at the hub angle of a leg's end. The tub's own distance has no sign for a point that has passed round that end:
 * whether the tyre holds the end says it, so that the gap is negative as soon as it does.
 * @param radius  of the outline at that hub angle, m
 * @param away  of the end from the hub, m
 */
const signedAtEnd = (gap: number, radius: number, away: number): number =>
  radius > away ? -Math.abs(gap) : gap;

/**
 * Gap of the tyre's point at a hub angle, m, for a tight place that may be the end of a leg.
 * @param radius  of the outline there, m
 */
export function tightGap(tub: Tub, radius: number, angle: number, ahead: number, above: number): number {
  const gap = tubGap(tub, radius * Math.sin(angle) - ahead, radius * Math.cos(angle) - above);
  fillEnd(tub, ahead, above, angle < 0 ? -1 : 1);
  return Math.abs(angle - end[ANGLE]!) < AT_END ? signedAtEnd(gap, radius, end[AWAY]!) : gap;
}

/** A hub angle this near to that of a leg's end is the end's own, rad. */
const AT_END = 1e-9;

/**
 * Smallest gap of an outline in a tub at one height, and its hub angle: a scan every degree, then golden section
 * to 10⁻⁷ rad about the best, and the ends of both legs. For one state at a time; a batch uses `fillRequiredHeight`.
 * Looks at hub angles within ±120°.
 */
export function smallestGap(outline: Float64Array, tub: Tub, place: TubPlace): Gap {
  const step = Math.PI / 180;
  let angle = 0;
  let gap = Number.POSITIVE_INFINITY;
  for (let k = -120; k <= 120; k++) {
    const here = gapAtAngle(outline, tub, place, k * step);
    if (here < gap) {
      gap = here;
      angle = k * step;
    }
  }
  let low = Math.max(-SEARCH_END, angle - step);
  let high = Math.min(SEARCH_END, angle + step);
  let left = high - GOLDEN * (high - low);
  let right = low + GOLDEN * (high - low);
  let gapLeft = gapAtAngle(outline, tub, place, left);
  let gapRight = gapAtAngle(outline, tub, place, right);
  while (high - low > 1e-7) {
    if (gapLeft < gapRight) {
      high = right;
      right = left;
      gapRight = gapLeft;
      left = high - GOLDEN * (high - low);
      gapLeft = gapAtAngle(outline, tub, place, left);
    } else {
      low = left;
      left = right;
      gapLeft = gapRight;
      right = low + GOLDEN * (high - low);
      gapRight = gapAtAngle(outline, tub, place, right);
    }
  }
  const middle = 0.5 * (low + high);
  const found = gapAtAngle(outline, tub, place, middle);
  const least = found < gap ? { gap: found, angle: middle } : { gap, angle };
  for (let way = -1; way <= 1; way += 2) {
    fillEnd(tub, place.ahead, place.above, way);
    const [away, here] = [end[AWAY]!, end[ANGLE]!];
    if (Math.abs(here) >= outline[SHAPE_END]!) continue;
    const atEnd = signedAtEnd(gapAtAngle(outline, tub, place, here), outlineRadius(outline, here), away);
    if (atEnd >= least.gap) continue;
    least.gap = atEnd;
    least.angle = here;
  }
  return least;
}

/**
 * Smallest gap read off the outline's 10° table with a parabola through the tightest three points: within 0.1 mm in
 * most draws, up to 4 mm where arc and leg meet or a lobe is sharp. For medians and angles over many draws at many
 * heights, never for a risk. out[0] gap, m; out[1] hub angle, rad.
 */
export function fillTableGap(
  outline: Float64Array,
  tub: Tub,
  ahead: number,
  above: number,
  out: Float64Array,
): void {
  let best = 0;
  let gap = Number.POSITIVE_INFINITY;
  let before = Number.POSITIVE_INFINITY;
  let left = Number.POSITIVE_INFINITY;
  let right = Number.POSITIVE_INFINITY;
  let awaitsRight = false;
  const sin = Math.sin(tub.halfExtent);
  const cos = Math.cos(tub.halfExtent);
  for (let k = 0; k <= 2 * GRID_HALF; k++) {
    const here = wallDistance(tub, sin, cos, outline[TABLE_X + k]! - ahead, outline[TABLE_Z + k]! - above);
    if (awaitsRight) {
      right = here;
      awaitsRight = false;
    }
    if (here < gap) {
      gap = here;
      best = k;
      left = before;
      awaitsRight = true;
      right = Number.POSITIVE_INFINITY;
    }
    before = here;
  }
  const bend = left - 2 * gap + right;
  let offset = 0;
  if (bend > 0 && Number.isFinite(bend)) {
    offset = (0.5 * (left - right)) / bend;
    gap -= ((right - left) * (right - left)) / (8 * bend);
  }
  out[0] = gap;
  out[1] = (best - GRID_HALF + offset) * GRID_STEP;
  const side = legEndSide(tub);
  // An end that stands further out than this is not what is nearest.
  if (side - Math.abs(ahead) - outline[WIDEST]! >= gap) return;
  for (let way = -1; way <= 1; way += 2) {
    fillEnd(tub, ahead, above, way);
    const here = end[ANGLE]!;
    if (Math.abs(here) >= outline[SHAPE_END]!) continue;
    const radius = outlineRadius(outline, here);
    const x = radius * Math.sin(here) - ahead;
    const atEnd = signedAtEnd(
      wallDistance(tub, sin, cos, x, radius * Math.cos(here) - above),
      radius,
      end[AWAY]!,
    );
    if (atEnd >= out[0]!) continue;
    out[0] = atEnd;
    out[1] = here;
  }
}
