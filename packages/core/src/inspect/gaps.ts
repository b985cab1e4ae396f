import { MOMENTS } from '../car/moments.ts';
import type { Gap } from '../clearance/gap.ts';
import { type HardPointFan, hardGapPlace } from '../clearance/hard-gap.ts';
import { fillSmallestGap } from '../clearance/smallest-gap.ts';
import { type BodyPlace, builtTubFromAxle } from '../clearance/tub-place.ts';
import type { ClearanceSetup } from '../kernel.ts';
import type { Tub } from '../tub/profile.ts';
import type { TyreSetup } from '../tyre/inflated.ts';
import { fillOutlineGrid, WIDEST } from '../tyre/outline.ts';
import { createOpenedRun, openMoment, openRun, type RunColumns } from './opened-run.ts';

/** Tubs at heights of their own, in the order in which `fillGaps` answers. */
export interface TubHeights {
  tub: Tub;
  /** Top heights, m. */
  heights: readonly number[];
}

/** Smallest gap of each run at each tub and height: place (tub, height) · capacity + run, tubs one after another. */
export interface GapTable {
  capacity: number;
  /** m, before the reserve is taken off. */
  gap: Float64Array;
  /** rad */
  angle: Float64Array;
  /** Index into MOMENTS. */
  moment: Uint8Array;
}

const opened = createOpenedRun();
const { car, lobe, outline } = opened;
const found = new Float64Array(2);

const deepestNotch = ({ notches }: Tub): number =>
  notches === undefined ? 0 : Math.max(0, ...notches.map(({ depth }) => depth));

function keepLesser(table: GapTable, place: number, gap: number, angle: number, moment: number): void {
  if (gap >= table.gap[place]!) return;
  table.gap[place] = gap;
  table.angle[place] = angle;
  table.moment[place] = moment;
}

/**
 * Gap to the nearest of the hard points, and the hub angle of the outline's point that is nearest to it.
 * @param most  no larger gap is asked for, m
 */
function nearestHardPoint(points: readonly HardPointFan[], { drop, forward }: BodyPlace, most: number): Gap {
  let nearest: Gap = { gap: most, angle: 0 };
  for (const fan of points) {
    const here = hardGapPlace(outline, fan, drop, forward, nearest.gap);
    if (here.gap < nearest.gap) nearest = here;
  }
  return nearest;
}

/**
 * Smallest gap of every run of a block over its moments, with its hub angle and moment, at each tub and height: that
 * of `clearanceState`; a hard point that is nearer than the tub counts as the gap.
 * @param table  with room for all tubs' heights times `capacity`, overwritten for the first `count` runs
 */
export function fillGaps(
  setup: ClearanceSetup,
  tyreSetup: TyreSetup,
  columns: RunColumns,
  axleHeights: Float64Array,
  count: number,
  places: readonly TubHeights[],
  table: GapTable,
): void {
  const { capacity } = table;
  const rows = places.reduce((sum, place) => sum + place.heights.length, 0);
  for (let run = 0; run < count; run++) {
    openRun(opened, run, tyreSetup, setup, columns);
    for (let row = 0; row < rows; row++) table.gap[row * capacity + run] = Number.POSITIVE_INFINITY;
    let widest = Number.POSITIVE_INFINITY;
    // The last moments of a run are the tightest as a rule: most of the others are then passed over.
    for (let m = MOMENTS.length - 1; m >= 0; m--) {
      const body = openMoment(opened, m, tyreSetup, setup);
      if (body === undefined) continue;
      fillOutlineGrid(outline, lobe);
      const hard = nearestHardPoint(setup.hardPoints, body, widest);
      widest = 0;
      let row = 0;
      for (const { tub, heights } of places) {
        const nearest = tub.radius - deepestNotch(tub) - outline[WIDEST]!;
        for (const height of heights) {
          const place = row * capacity + run;
          row++;
          keepLesser(table, place, hard.gap, hard.angle, m);
          const { ahead, above } = builtTubFromAxle(car, tub, height, axleHeights[run]!, body);
          // No point of the outline is further from the tub's centre than this; where that leaves more, it is passed over.
          if (nearest - Math.sqrt(ahead * ahead + above * above) < table.gap[place]!) {
            fillSmallestGap(outline, tub, ahead, above, table.gap[place]!, found);
            keepLesser(table, place, found[0]!, found[1]!, m);
          }
          widest = Math.max(widest, table.gap[place]!);
        }
      }
    }
  }
}
