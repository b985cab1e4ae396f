import { bandDisplacement, fillBandShape, SHAPE_LENGTH } from './band-shape.ts';
import { GROWN, LOAD, PATCH, RADIAL_SPRING, TANGENTIAL_SPRING, TENSION, THRUST } from './loaded-tyre.ts';
import { GRID_HALF, GRID_STEP, SEARCHED } from './outline.ts';
import { LARGEST_PATCH } from './patch.ts';

/**
 * A radius that no outline exceeds, told without computing the outline. With S the band's displacement over F_z/(2Rτ),
 *   S = −(2/π) Σ f_n (cos nφ + (ξ/n) sin nφ)/κ_n,   κ_n = n² − 1 + z_n,   z_n = t² (1 + y/n²),
 *   t = √(k_w/τ),   y = k_v/k_w,   ξ = F_x/F_z,   φ = θ − π,
 * its largest value over hub angles and over a cell of patch angles is tabulated at nodes of t, y and ξ. Between the
 * nodes it is interpolated, which is an upper bound with what interpolation can miss added:
 *   - in ξ nothing: S is linear in it, so its largest value over angles is convex;
 *   - in each other variable h²/8 of the largest second derivative, h the step (two variables of a product grid add up);
 *     the largest value of an interpolated S never exceeds the interpolated largest value.
 * The second derivatives are bounded term by term, with |f_n| ≤ 1, sine and cosine ≤ 1:
 *   - in t: |∂²(1/κ)/∂t²| = (2c/κ²)|4z/κ − 1| with c = 1 + y/n²; in y: 2(t²/n²)²/κ³;
 *   - in θ the series Σ n² cos nφ/κ_n is no longer absolutely convergent, but n²/κ_n = 1 + (1 − z_n)/κ_n, Σ cos nφ = −½ and
 *     Σ sin nφ/n = (π − φ)/2 away from the patch. A patch spreads that over θ ± α, and 120° + α stays short of 180°;
 *   - in α: f_n is the mean of cos nαs over the patch's parabola in s, so ∂²/∂α² is at most the mean of s², 1/5, of that in θ.
 * Source: derived; `bulge-bound.test.ts` looks for an outline above it.
 */

/** What a table of nodes spans; outside it there is no bound. */
const ROOT_LOW = 1;
const ROOT_STEP = 0.2;
const ROOT_CELLS = 55;
const RATIO_LOW = 0.1;
const RATIO_STEP = 0.15;
const RATIO_CELLS = 16;
const THRUST_STEP = 0.5;
const THRUST_CELLS = 8;
const PATCH_CELLS = 12;
const PATCH_STEP = LARGEST_PATCH / PATCH_CELLS;
/** Hub angles looked at: a whole number of them within ±100°, where a crown is searched, and within ±120°. */
const ANGLE_STEP = GRID_STEP / 6;
const CROWN_ANGLES = 6 * SEARCHED;
const SIDE_ANGLES = 6 * GRID_HALF;

/** Beyond the bound, m: the closed form's own rounding, and that of the searches that it decides about. */
const ROUNDING = 1e-6;

/** Places in the answer of `fillBulgeBound`: largest displacement in m within ±100° and within ±120°. */
export const CROWN_BULGE = 0;
export const SIDE_BULGE = 1;
export const BULGE_LENGTH = 2;

/** Terms of a sum that are added one by one; the rest is bounded by an integral. */
const TERMS = 32;

const ROOT_NODES = ROOT_CELLS + 1;
const RATIO_NODES = RATIO_CELLS + 1;
const THRUST_NODES = THRUST_CELLS + 1;
/** Numbers of one node and one cell of patch angles: two ranges of hub angles, thrust by thrust. */
const NODE_LENGTH = 2 * THRUST_NODES;

/** Filled as they are asked for: a tyre's runs lie in few cells. Patch cells run within ratios, ratios within roots. */
const nodes: (Float64Array | undefined)[] = new Array(ROOT_NODES * RATIO_NODES * PATCH_CELLS);
/** Of the cell above each node what interpolation in t and y may miss: at no thrust, and for each unit of ξ. */
const cellMiss = new Float64Array(2 * ROOT_NODES * RATIO_NODES);

/** From a node to the next root and to the next ratio. */
const STIFFER = RATIO_NODES * PATCH_CELLS;
const FIRMER = PATCH_CELLS;

const shape = new Float64Array(SHAPE_LENGTH);

/** A sum over harmonics for the load, and for the thrust, whose terms fall by one more n. */
const sums = new Float64Array(2);

/** Bounds of |∂²S/∂θ²| at one node, for the load and for a unit of ξ. */
function fillAngleBend(square: number, ratio: number): void {
  const largest = 1 + square * (1 + ratio);
  let load = 0.5 + largest / (TERMS - 1);
  let thrust = 0.5 * Math.PI + largest / (2 * (TERMS - 1) * (TERMS - 1));
  for (let n = 1; n <= TERMS; n++) {
    const spring = square * (1 + ratio / (n * n));
    const term = Math.abs(1 - spring) / (n * n - 1 + spring);
    load += term;
    thrust += term / n;
  }
  sums[0] = (2 / Math.PI) * load;
  sums[1] = (2 / Math.PI) * thrust;
}

/** What interpolation in t and y may miss in the cell above a node, for the load and for a unit of ξ. */
function fillCellMiss(root: number, ratio: number): void {
  const low = root * root;
  const high = (root + ROOT_STEP) * (root + ROOT_STEP);
  const above = ratio + RATIO_STEP;
  const last = TERMS - 1;
  const rest =
    ((ROOT_STEP * ROOT_STEP) / 8) * ((2 * (1 + above)) / last ** 3) +
    ((RATIO_STEP * RATIO_STEP) / 8) * ((2 * high * high) / (9 * last ** 9));
  let load = rest;
  let thrust = rest;
  for (let n = 1; n <= TERMS; n++) {
    const square = n * n;
    const most = 1 + above / square;
    const least = square - 1 + low * (1 + ratio / square);
    const share = (high * most) / (square - 1 + high * most);
    const inRoot = ((2 * most) / (least * least)) * Math.max(1, 4 * share - 1);
    const pull = high / square;
    const inRatio = (2 * pull * pull) / (least * least * least);
    const term = ((ROOT_STEP * ROOT_STEP) / 8) * inRoot + ((RATIO_STEP * RATIO_STEP) / 8) * inRatio;
    load += term;
    thrust += term / n;
  }
  sums[0] = (2 / Math.PI) * load;
  sums[1] = (2 / Math.PI) * thrust;
}

/** Raises a node to the largest S on the grid of hub angles at one patch angle. */
function raiseNode(node: Float64Array, root: number, ratio: number, halfPatch: number): void {
  const square = root * root;
  fillBandShape(shape, 1, square, square * ratio, 1, 2, 2, halfPatch);
  for (let k = 0; k <= SIDE_ANGLES; k++) {
    const ahead = bandDisplacement(shape, k * ANGLE_STEP);
    const behind = bandDisplacement(shape, -k * ANGLE_STEP);
    const load = 0.5 * (ahead + behind);
    const thrust = Math.abs(0.5 * (ahead - behind));
    for (let x = 0; x < THRUST_NODES; x++) {
      const here = load + x * THRUST_STEP * thrust;
      if (k <= CROWN_ANGLES && here > node[2 * x]!) node[2 * x] = here;
      if (here > node[2 * x + 1]!) node[2 * x + 1] = here;
    }
  }
}

/** Works a node out for one cell of patch angles, and what may be missed in the cell of t and y above it. */
function makeNode(index: number): Float64Array {
  const patch = index % PATCH_CELLS;
  const place = Math.floor(index / PATCH_CELLS);
  const root = ROOT_LOW + Math.floor(place / RATIO_NODES) * ROOT_STEP;
  const ratio = RATIO_LOW + (place % RATIO_NODES) * RATIO_STEP;
  fillCellMiss(root, ratio);
  cellMiss[2 * place] = sums[0]!;
  cellMiss[2 * place + 1] = sums[1]!;
  const node = new Float64Array(NODE_LENGTH).fill(Number.NEGATIVE_INFINITY);
  raiseNode(node, root, ratio, patch * PATCH_STEP);
  raiseNode(node, root, ratio, (patch + 1) * PATCH_STEP);
  fillAngleBend(root * root, ratio);
  const share = (ANGLE_STEP * ANGLE_STEP + (PATCH_STEP * PATCH_STEP) / 5) / 8;
  for (let i = 0; i < NODE_LENGTH; i++) {
    node[i]! += share * (sums[0]! + Math.floor(i / 2) * THRUST_STEP * sums[1]!);
  }
  nodes[index] = node;
  return node;
}

/**
 * Fills `bound` with displacements of the band in m that no hub angle within ±100°, and none within ±120°, exceeds;
 * Infinity where the table does not reach.
 * @param loaded  as filled by `fillLoadedTyre`
 * @param bound  BULGE_LENGTH numbers, overwritten
 */
export function fillBulgeBound(loaded: Float64Array, bound: Float64Array): void {
  const tension = loaded[TENSION]!;
  const load = loaded[LOAD]!;
  const stiffness = loaded[RADIAL_SPRING]!;
  const r = (Math.sqrt(stiffness / tension) - ROOT_LOW) / ROOT_STEP;
  const y = (loaded[TANGENTIAL_SPRING]! / stiffness - RATIO_LOW) / RATIO_STEP;
  const x = loaded[THRUST]! / load / THRUST_STEP;
  const a = loaded[PATCH]! / PATCH_STEP;
  const inside =
    r >= 0 &&
    r < ROOT_CELLS &&
    y >= 0 &&
    y < RATIO_CELLS &&
    x >= 0 &&
    x < THRUST_CELLS &&
    a >= 0 &&
    a <= PATCH_CELLS;
  if (!(inside && load > 0)) {
    bound[CROWN_BULGE] = Number.POSITIVE_INFINITY;
    bound[SIDE_BULGE] = Number.POSITIVE_INFINITY;
    return;
  }
  const rootCell = Math.floor(r);
  const ratioCell = Math.floor(y);
  const thrustCell = Math.floor(x);
  const place = rootCell * RATIO_NODES + ratioCell;
  const index = place * PATCH_CELLS + Math.min(PATCH_CELLS - 1, Math.floor(a));
  const low = nodes[index] ?? makeNode(index);
  const stiffer = nodes[index + STIFFER] ?? makeNode(index + STIFFER);
  const firmer = nodes[index + FIRMER] ?? makeNode(index + FIRMER);
  const both = nodes[index + STIFFER + FIRMER] ?? makeNode(index + STIFFER + FIRMER);
  const toRoot = r - rootCell;
  const toRatio = y - ratioCell;
  const toThrust = x - thrustCell;
  const miss = cellMiss[2 * place]! + x * THRUST_STEP * cellMiss[2 * place + 1]!;
  const scale = load / (2 * loaded[GROWN]! * tension);
  for (let range = CROWN_BULGE; range <= SIDE_BULGE; range++) {
    const at = 2 * thrustCell + range;
    const lowHere = low[at]! + toThrust * (low[at + 2]! - low[at]!);
    const stifferHere = stiffer[at]! + toThrust * (stiffer[at + 2]! - stiffer[at]!);
    const firmerHere = firmer[at]! + toThrust * (firmer[at + 2]! - firmer[at]!);
    const bothHere = both[at]! + toThrust * (both[at + 2]! - both[at]!);
    const left = lowHere + toRoot * (stifferHere - lowHere);
    const right = firmerHere + toRoot * (bothHere - firmerHere);
    bound[range] = scale * (left + toRatio * (right - left) + miss) + ROUNDING;
  }
}
