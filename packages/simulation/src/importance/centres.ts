import { MOMENTS } from '@tubgap/core';
import { BLOCK, countedMargin, designPoint, normalQuantile, sampleQuantile } from '@tubgap/statistics';
import { type BlockRoom, drawBlock, evaluateBlock } from '../run-risk.ts';
import type { CaseSetup } from '../setup.ts';
import type { Centres } from './mixture.ts';
import { fillNormals, type NormalSpace, setDirection } from './normal-space.ts';
import { refinedCentres } from './refined-centres.ts';
import { partsOf, type Response, tyreResponse } from './response.ts';

/**
 * Runs drawn plainly to see where touches come from, in streams of their own: runs that gave the centres always lie
 * near one, and would count too few of those that no centre leads to.
 */
const PILOT_BLOCKS = 8;
const PILOT = 'pilot/';
/** Share of the tightest of them that a start is taken from, and the least share of those that makes a cause of its own. */
const TIGHTEST = 0.01;
const OWN_CAUSE = 0.1;
/** Distances from the origin, standard deviations, at which design points are wanted: risks of 1e-2 to 1e-7. */
const INDICES = [2.3, 3.2, 4.1, 5.0];
/** Centres nearer to each other than this are one. */
const NEAR = 0.6;
const MOST_CENTRES = 24;
/** What a point that no height helps counts as, m beyond the height in question. */
const NO_HEIGHT = 1;

/** Required heights and causes of the pilot's runs with one tyre in one tub. */
interface PilotRuns {
  heights: Float64Array;
  causes: string[];
}

function pilotRuns(setup: CaseSetup, seed: number, room: BlockRoom): PilotRuns[][] {
  const runs = PILOT_BLOCKS * BLOCK;
  const found = setup.tyres.map(() =>
    setup.clearance.tubs.map((): PilotRuns => ({ heights: new Float64Array(runs), causes: new Array(runs) })),
  );
  for (let block = 0; block < PILOT_BLOCKS; block++) {
    drawBlock(setup, seed, block, BLOCK, room, PILOT);
    evaluateBlock(setup, room, BLOCK);
    room.tables.forEach((table, i) => {
      setup.clearance.tubs.forEach((_, t) => {
        for (let run = 0; run < BLOCK; run++) {
          const place = t * table.capacity + run;
          const side = Math.sign(Math.round(table.tightAngle[place]! / 0.6));
          found[i]![t]!.heights[block * BLOCK + run] = table.requiredHeight[place]!;
          found[i]![t]!.causes[block * BLOCK + run] = `${MOMENTS[table.tightMoment[place]!]} ${side}`;
        }
      });
    });
  }
  return found;
}

/** Standard normal numbers of the pilot's runs: [direction][run]. */
function pilotNormals(space: NormalSpace, seed: number): Float64Array[] {
  return space.directions.map((direction) => {
    const normals = new Float64Array(PILOT_BLOCKS * BLOCK);
    for (let block = 0; block < PILOT_BLOCKS; block++) {
      fillNormals(direction, seed, PILOT, block, BLOCK, normals.subarray(block * BLOCK, (block + 1) * BLOCK));
    }
    return normals;
  });
}

/** Mean of the chosen runs of the pilot in normal space, by direction. */
const meanPoint = (
  normals: readonly Float64Array[],
  parts: readonly number[],
  runs: readonly number[],
): Float64Array =>
  Float64Array.from(parts, (d) => runs.reduce((sum, run) => sum + normals[d]![run]! / runs.length, 0));

/**
 * Finds where in normal space touches come from: the tightest of some thousand plain runs, sorted by cause, give the
 * starts; from each the design point is searched at heights of ever smaller risk.
 */
export function touchCentres(setup: CaseSetup, space: NormalSpace, seed: number, room: BlockRoom): Centres {
  const pilot = pilotRuns(setup, seed, room);
  const normals = pilotNormals(space, seed);
  const points: Float64Array[] = [];
  const causes = new Set<string>();
  setup.tyres.forEach((_, i) => {
    const parts = partsOf(setup, space, i);
    setup.clearance.tubs.forEach((_tub, t) => {
      const { heights, causes: ofRun } = pilot[i]![t]!;
      const finite = heights.filter(Number.isFinite).sort();
      if (finite.length < 0.98 * heights.length) return;
      const common = sampleQuantile(finite, 0.9);
      const high = sampleQuantile(finite, 0.99);
      const slope = (high - common) / (normalQuantile(0.99) - normalQuantile(0.9));
      const limit = sampleQuantile(finite, 1 - TIGHTEST);
      const tightest = Array.from(heights.keys()).filter((run) => heights[run]! >= limit);
      const small = tyreResponse(setup, i, t);
      for (const cause of new Set(tightest.map((run) => ofRun[run]!))) {
        const runs = tightest.filter((run) => ofRun[run] === cause);
        if (runs.length < OWN_CAUSE * tightest.length) continue;
        causes.add(`${i} ${cause}`);
        let start = meanPoint(normals, parts, runs);
        for (const index of INDICES) {
          const height = high + (index - normalQuantile(0.99)) * slope;
          const found = searchPoint(small, space, parts, height, scaled(start, index));
          if (found === undefined) break;
          start = found;
          const point = new Float64Array(space.directions.length);
          parts.forEach((d, k) => {
            point[d] = found[k]!;
          });
          if (points.every((other) => distance(other, point) > NEAR)) points.push(point);
        }
      }
    });
  });
  const found = { points: points.slice(0, MOST_CENTRES), causes: causes.size };
  return refinedCentres(setup, space, found, seed, room);
}

/** A point moved along its ray to a distance from the origin. */
const scaled = (point: Float64Array, length: number): Float64Array => {
  const now = Math.hypot(...point);
  return now > 0 ? point.map((x) => (x * length) / now) : point;
};

const distance = (a: Float64Array, b: Float64Array): number => {
  let sum = 0;
  for (let k = 0; k < a.length; k++) sum += (a[k]! - b[k]!) ** 2;
  return Math.sqrt(sum);
};

function searchPoint(
  small: Response,
  space: NormalSpace,
  parts: readonly number[],
  height: number,
  start: Float64Array,
): Float64Array | undefined {
  const dimension = parts.length;
  const normals = new Float64Array(BLOCK);
  const marginOf = (u: Float64Array, n: number, out: Float64Array): void => {
    for (let from = 0; from < n; from += BLOCK) {
      const count = Math.min(BLOCK, n - from);
      parts.forEach((d, k) => {
        for (let i = 0; i < count; i++) normals[i] = u[(from + i) * dimension + k]!;
        setDirection(space.directions[d]!, normals, count, small.columns);
      });
      const required = small.evaluate(count);
      for (let i = 0; i < count; i++) {
        // What lies outside the model is no touch: the search turns away from it.
        const margin = Number.isNaN(required[i]!) ? NO_HEIGHT : height - required[i]!;
        out[from + i] = Math.max(-NO_HEIGHT, margin);
      }
    }
  };
  const counted = countedMargin(marginOf, dimension);
  const origin = new Float64Array(1);
  counted.evaluate(new Float64Array(dimension), 1, origin);
  if (!(origin[0]! > 0)) return undefined;
  const found = designPoint(counted, start, origin[0]!);
  // Where the margin has kinks the search may not settle; the way on from the last centre is then the best guess.
  return found.settled ? found.point : start;
}
