import { type Tub, tubGap, wallDistance } from '../tub/profile.ts';
import { GRID_HALF, GRID_STEP, outlineRadius, TABLE_X, TABLE_Z } from '../tyre/outline.ts';

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

/**
 * Smallest gap of an outline in a tub at one height, and its hub angle: a scan every degree, then golden section
 * to 10⁻⁷ rad about the best. For one state at a time; a batch uses `fillRequiredHeight`.
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
  return found < gap ? { gap: found, angle: middle } : { gap, angle };
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
}
