import { normalTail } from '../normal.ts';
import type { CountedMargin } from './estimate.ts';
import { normalSource } from './normal-source.ts';

/**
 * Cheap looks round for failing points, beside those of a subset run: its chains follow the slope of the margin and
 * pass by a region that lies apart from it.
 */

const AXIS_DISTANCES = [2, 3, 4, 5, 6, 7, 8];

/**
 * The nearest failing point on each half axis, one input alone drawn out to where it fails: at most 14 calls an input.
 * @param least  distances whose normal tail is below this are of no interest
 */
export function axisFailures(counted: CountedMargin, least: number): Float64Array[] {
  const d = counted.dimension;
  const found: Float64Array[] = [];
  const distances = AXIS_DISTANCES.filter((distance) => normalTail(distance) >= least);
  const rows = new Float64Array(2 * distances.length * d);
  const margins = new Float64Array(2 * distances.length);
  for (let k = 0; k < d; k++) {
    rows.fill(0);
    distances.forEach((distance, i) => {
      rows[2 * i * d + k] = distance;
      rows[(2 * i + 1) * d + k] = -distance;
    });
    counted.evaluate(rows, 2 * distances.length, margins);
    for (const side of [0, 1]) {
      const i = distances.findIndex((_, at) => margins[2 * at + side]! < 0);
      if (i >= 0) found.push(rows.slice((2 * i + side) * d, (2 * i + side + 1) * d));
    }
  }
  return found;
}

const WIDE_DIMENSIONS = 6;
const WIDE_DRAWS = 500;
const WIDTH = 2;

/**
 * Failing points among 500 draws twice as wide as the inputs' own. Only in up to 6 dimensions, where such draws still
 * fall on regions that matter; else none.
 * @param least  as for axisFailures, of the point's distance
 */
export function wideFailures(counted: CountedMargin, least: number, seed: number | string): Float64Array[] {
  const d = counted.dimension;
  if (d > WIDE_DIMENSIONS) return [];
  const rows = new Float64Array(WIDE_DRAWS * d);
  const margins = new Float64Array(WIDE_DRAWS);
  normalSource(seed, 'wide')(rows, WIDE_DRAWS * d);
  for (let i = 0; i < rows.length; i++) rows[i] = WIDTH * rows[i]!;
  counted.evaluate(rows, WIDE_DRAWS, margins);
  const found: Float64Array[] = [];
  for (let i = 0; i < WIDE_DRAWS; i++) {
    const row = rows.slice(i * d, i * d + d);
    if (margins[i]! < 0 && normalTail(Math.hypot(...row)) >= least) found.push(row);
  }
  return found;
}

/** A little beyond the limit state, so that the image of a design point fails if there is a region at all. */
const BEYOND = 1.1;

/** Failing mirror images of a design point, in its three largest coordinates and as a whole: at most 8 calls. */
export function mirroredFailures(counted: CountedMargin, point: Float64Array): Float64Array[] {
  const d = counted.dimension;
  const largest = Array.from(point.keys())
    .sort((a, b) => Math.abs(point[b]!) - Math.abs(point[a]!))
    .slice(0, 3);
  const images = [point.map((x) => -BEYOND * x)];
  for (let signs = 1; signs < 2 ** largest.length; signs++) {
    const image = point.map((x) => BEYOND * x);
    largest.forEach((k, bit) => {
      if ((signs >> bit) & 1) image[k] = -image[k]!;
    });
    images.push(image);
  }
  const rows = new Float64Array(images.length * d);
  images.forEach((image, i) => {
    rows.set(image, i * d);
  });
  const margins = new Float64Array(images.length);
  counted.evaluate(rows, images.length, margins);
  return images.filter((_, i) => margins[i]! < 0);
}

/** The last failing point found on the way from a failing point to the origin, by 12 halvings. */
export function drawnIn(counted: CountedMargin, failing: Float64Array): Float64Array {
  const margin = new Float64Array(1);
  let outer = 1;
  let inner = 0;
  for (let step = 0; step < 12; step++) {
    const middle = (outer + inner) / 2;
    const point = failing.map((x) => middle * x);
    counted.evaluate(point, 1, margin);
    if (margin[0]! < 0) outer = middle;
    else inner = middle;
  }
  return failing.map((x) => outer * x);
}
