import { panelMass, tubPanel } from '@tubgap/core';
import type { Result } from '@tubgap/results';
import { type TubReach, tubReach } from '@tubgap/simulation';

type ResultTub = Result['tubs'][number];
type ToleranceRow = NonNullable<Result['tolerances']>['rows'][number];
type PickedHeight = NonNullable<Result['picks'][number]['height']>;

/** The tub to build with its pick, as far as there is one. */
export interface ChosenTub {
  index: number;
  tub: ResultTub;
  /** The pick: the least height. */
  height: PickedHeight;
  /** What a shop sets out: the least height and what it takes for a sixteenth of an inch to be allowed each way. */
  setOut: number;
  /** What passes once it is built and measured: the height that is set out less what may be missing. */
  least: number;
  /** What may come out otherwise at that height; undefined when the result does not say. */
  allowed: ToleranceRow | undefined;
  /** At the height that is set out. */
  reach: TubReach;
}

const SIXTEENTH = 0.0254 / 16;

/**
 * The least row that allows a sixteenth in everything and for whose top the car has room; the first where there is none,
 * and every hair counts.
 */
function setOutRow(result: Result, tub: ResultTub, topHeight: number): ToleranceRow | undefined {
  const rows = result.tolerances?.rows ?? [];
  const { highestTop, lowestLeg } = result.envelope;
  const allows = (row: ToleranceRow): boolean =>
    [row.lower, row.ahead, row.back, row.gapLess].every((much) => much >= SIXTEENTH - 1e-9) &&
    (highestTop === undefined || tubReach(tub, topHeight + row.higher, lowestLeg).top <= highestTop + 1e-9);
  return rows.find(allows) ?? rows[0];
}

/** The tub to build; undefined when none can be named. */
export function chosenTub(result: Result): ChosenTub | undefined {
  const { chosen } = result;
  if (chosen === null) return undefined;
  const tub = result.tubs[chosen];
  const height = result.picks[chosen]?.height;
  if (tub === undefined || height === undefined) return undefined;
  const allowed = setOutRow(result, tub, height.topHeight);
  const setOut = height.topHeight + (allowed?.higher ?? 0);
  return {
    index: chosen,
    tub,
    height,
    setOut,
    least: allowed === undefined ? height.topHeight : setOut - allowed.lower,
    allowed,
    reach: tubReach(tub, setOut, result.envelope.lowestLeg),
  };
}

/** What is cut for a tub; m, m², kg. */
export interface TubMaterial {
  /** Flat length of arc and legs along the middle of the skin, and the skin's weight at the tub's inside width. */
  developedLength: number;
  skinArea: number;
  skinMass: number;
  /** One flat end: over all, and its area and weight. */
  endWidth: number;
  endHeight: number;
  endArea: number;
  endMass: number;
  /** Along the inside of arc and legs: the joint of skin and end, where a core strip runs. */
  jointLength: number;
}

/**
 * Material of a tub with its legs as they are, or trimmed by `legTrim` m each. Areas and lengths from plane geometry;
 * weights from the tub's own areal density, which stands for the end panels too.
 */
export function tubMaterial(tub: ResultTub, legTrim: number): TubMaterial {
  const extent = 2 * tub.halfExtent;
  const leg = tub.legLength - legTrim;
  const panel = tubPanel(tub.diameter, extent, leg, tub.insideWidth, tub.skinThickness);
  const radius = 0.5 * tub.diameter;
  const sin = Math.sin(tub.halfExtent);
  const cos = Math.cos(tub.halfExtent);
  return {
    developedLength: panel.developedLength,
    skinArea: panel.sheetArea,
    skinMass: panelMass(panel.sheetArea, tub.arealDensity),
    endWidth: cos < 0 ? tub.diameter : 2 * (radius * sin + leg * cos),
    endHeight: radius * (1 - cos) + leg * sin,
    endArea: panel.endArea,
    endMass: panelMass(panel.endArea, tub.arealDensity),
    jointLength: radius * extent + 2 * leg,
  };
}
