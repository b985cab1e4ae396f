import { panelMass, tubPanel } from '@tubgap/core';
import type { DecidedResult, Result } from '@tubgap/results';
import { type TubReach, tubReach } from '@tubgap/simulation';
import { INCH } from '@tubgap/units';

type ResultTub = Result['tubs'][number];
type ToleranceRow = NonNullable<Result['tolerances']>['rows'][number];
type HeightRisks = NonNullable<Result['asSetOut']>;
type PickedHeight = NonNullable<Result['picks'][number]['height']>;

/** The tub to build with its pick, as far as there is one. */
export interface ChosenTub {
  index: number;
  tub: ResultTub;
  /** The pick: the least height. */
  height: PickedHeight;
  /** What a shop sets out, and every paper names: the least height, or more where the work takes it. */
  setOut: number;
  /** At that height; those of the least one stand in `height`. */
  asSetOut: HeightRisks;
  /** What passes once it is built and measured: the height that is set out less what may be missing. */
  passes: number;
  /** What may come out otherwise at that height; undefined when the result does not say. */
  allowed: ToleranceRow | undefined;
  /** At the height that is set out. */
  reach: TubReach;
}

/** The tub to build; undefined when none can be named. */
export function chosenTub(result: DecidedResult): ChosenTub | undefined {
  const { chosen, tolerances } = result;
  if (chosen === null) return undefined;
  const tub = result.tubs[chosen];
  const height = result.picks[chosen]?.height;
  if (tub === undefined || height === undefined) return undefined;
  const setOut = tolerances?.setOut.topHeight ?? height.topHeight;
  return {
    index: chosen,
    tub,
    height,
    setOut,
    asSetOut: result.asSetOut ?? height,
    passes: tolerances?.setOut.passes ?? height.topHeight,
    allowed: tolerances?.rows[tolerances.setOut.row],
    reach: tubReach(tub, setOut, result.envelope.lowestLeg),
  };
}

/** Whether the tub is set out higher than it must at least be. */
export const isSetHigher = ({ setOut, height }: ChosenTub): boolean => setOut > height.topHeight + 1e-9;

type ShownRun = NonNullable<Result['outlines']['pick']>['shown'][number][number];

/** Of the tyre that decides, in the tub to build: a middling run and the one of the accepted risk, as far as known. */
export function limitingRuns(
  { tyres, outlines }: Result,
  { height }: ChosenTub,
): { middling: ShownRun; rare: ShownRun } | undefined {
  const [middling, rare] =
    outlines.pick?.shown[tyres.findIndex(({ name }) => name === height.limitingTyre)] ?? [];
  return middling === undefined || rare === undefined ? undefined : { middling, rare };
}

/**
 * Gaps of the build tyre standing still with the tub as it is set out, m, at the hub angles of the pick's: what a
 * builder sees.
 */
export function setOutGaps(
  result: Pick<Result, 'tolerances' | 'build'>,
  { height, allowed }: ChosenTub,
): number[] {
  const { tolerances, build } = result;
  if (tolerances === null || allowed === undefined) return height.staticGaps;
  return build.staticGapAngles.map((angle, k) => {
    const at = tolerances.angles.findIndex((other) => Math.abs(other - angle) < 1e-6);
    return allowed.staticGaps[at] ?? height.staticGaps[k]!;
  });
}

/** Flange that stiffens the open side where the wheel goes in, m. Common practice, no source. */
export const RETURN = INCH;

/** What is cut for a tub; m, m², kg. */
export interface TubMaterial {
  /** Flat length of arc and legs along the middle of the skin, and the skin's weight at the tub's inside width. */
  developedLength: number;
  skinArea: number;
  skinMass: number;
  /** The flat end towards the car's middle: over all, and its area and weight. The outer side is open. */
  endWidth: number;
  endHeight: number;
  endArea: number;
  endMass: number;
  /** The return round the open side. */
  returnArea: number;
  returnMass: number;
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
  const jointLength = radius * extent + 2 * leg;
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
    returnArea: RETURN * jointLength,
    returnMass: panelMass(RETURN * jointLength, tub.arealDensity),
    jointLength,
  };
}
