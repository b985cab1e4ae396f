import { studentQuantile } from '@tubgap/statistics';
import { SIXTEENTH } from '@tubgap/units';
import { stepAt } from '../heights.ts';
import { lowestAccepted } from '../pick.ts';
import { type Risk, riskByHeight } from '../risk.ts';
import { HEIGHT_STEPS } from '../tally.ts';
import { type EvenHeight, evenHeight, greatestHeight, heightDifference } from './even-height.ts';
import { type Difference, pairedCount } from './paired-count.ts';
import type { StudyPoint } from './study-point.ts';
import type { CellSums, ComparedSums, PointSums } from './study-sums.ts';
import type { PointTotals } from './study-tasks.ts';

/** What touches at the accepted risk, whether a height helps or not. */
export type Deciding = 'arc' | 'leg' | 'hard point';

/** Risk at one height where setups are compared. */
export interface ComparedRisk {
  /** m */
  height: number;
  risk: Risk;
  /** To the base at that height; undefined where the base has no such tyre or tub. */
  difference: Difference | undefined;
}

/** What is found for one tyre, or for all, in one tub. Heights m; undefined where none is supported. */
export interface CellFigures {
  /** Lowest height, a multiple of 1/16 in, at which the upper 95 % bound of the run risk is within what is accepted. */
  topHeight: number | undefined;
  even: EvenHeight | undefined;
  /** Of the even height to the base's, m. */
  heightDifference: Difference | undefined;
  /** Percentiles of the height that a run requires. */
  p50: number | undefined;
  p99: number | undefined;
  decidedBy: Deciding;
  /** Name of the hard point where one decides, else empty. */
  hardPoint: string;
  compared: ComparedRisk[];
}

/** Weighted touches that a difference needs to be told from them. */
const LEAST_EFFECTIVE = 20;

const NO_DIFFERENCE: Difference = { estimate: 0, low: 0, high: 0 };

/** Percentile of the required height from plain draws, m, interpolated within a sixteenth; undefined past either end. */
function requiredHeight(plain: CellSums, events: number, lowest: number, share: number): number | undefined {
  const { weight } = plain.steps;
  let below = 0;
  for (let n = 0; n <= HEIGHT_STEPS; n++) {
    const here = weight[n]!;
    if (below + here >= share * events && here > 0) {
      if (n === 0 || n === HEIGHT_STEPS) return undefined;
      return lowest + (n - 1 + (share * events - below) / here) * SIXTEENTH;
    }
    below += here;
  }
  return undefined;
}

/** Difference of risk from weighted draws; undefined where these are too few to tell it. */
function weightedDifference({ gained, lost, square }: ComparedSums, events: number): Difference | undefined {
  const both = gained + lost;
  const effective = both > 0 ? (both * both) / square : 0;
  if (effective < LEAST_EFFECTIVE) return undefined;
  const estimate = (gained - lost) / events;
  const error = Math.sqrt(Math.max(0, square / events - estimate * estimate) / events);
  const half = studentQuantile(0.975, effective - 1) * error;
  return { estimate, low: estimate - half, high: estimate + half };
}

/** Plain touches below which a count says too little to overrule weighted draws that agree with it. */
const FEW_TOUCHES = 25;

/** Whether a difference may be taken from weighted draws: both risks are, or one is counted for want of touches only. */
function isWeighted(risk: Risk, beside: Risk, counted: Difference, weighted: Difference): boolean {
  if (risk.method === 'weighted' && beside.method === 'weighted') return true;
  if (risk.method === 'counted' && beside.method === 'counted') return false;
  const plain = risk.method === 'counted' ? risk : beside;
  const { estimate } = weighted;
  return plain.touches < FEW_TOUCHES && estimate >= counted.low && estimate <= counted.high;
}

/** Difference of a risk to the base's, draw by draw: weighted where that can be trusted, else counted. */
function riskDifference(
  risk: Risk,
  beside: Risk,
  counts: ComparedSums,
  events: number,
  weights: ComparedSums,
  weightedEvents: number,
): Difference {
  const counted = pairedCount(counts.gained, counts.lost, events);
  const weighted = weightedDifference(weights, weightedEvents);
  if (weighted !== undefined && isWeighted(risk, beside, counted, weighted)) return weighted;
  if (risk.method === 'counted' || beside.method === 'counted') return counted;
  // More than the whole of either risk cannot come or go.
  return {
    ...counted,
    low: Math.max(counted.low, -beside.high),
    high: Math.min(counted.high, risk.high),
  };
}

/** What is touched in more than half of the draws that touch at a height, or at every height. */
function deciding(
  { hardPoints: names }: StudyPoint,
  sums: PointSums,
  row: number,
  t: number,
  touching: number,
): Pick<CellFigures, 'decidedBy' | 'hardPoint'> {
  const most = Math.max(0, ...sums.hardPoints[row]!);
  const hard = most / sums.events;
  const leg = sums.cells[row]![t]!.legs / sums.events;
  if (hard >= leg && hard > touching / 2) {
    return { decidedBy: 'hard point', hardPoint: names[sums.hardPoints[row]!.indexOf(most)]! };
  }
  return { decidedBy: leg > touching / 2 ? 'leg' : 'arc', hardPoint: '' };
}

/** Greatest of some heights; undefined when one of them is. */
const greatest = (heights: readonly (number | undefined)[]): number | undefined =>
  heights.some((height) => height === undefined) ? undefined : Math.max(...(heights as number[]));

const changeOf = (
  moved: boolean,
  here: EvenHeight | undefined,
  beside: EvenHeight | undefined,
): Difference | undefined => {
  if (here === undefined || beside === undefined) return undefined;
  return moved ? heightDifference(here, beside) : NO_DIFFERENCE;
};

/**
 * Figures of one setup: [tyre or, last, all tyres][tub]. The heights of all tyres are the greatest of the tyres' own;
 * their risk is that of at least one of them touching.
 * @param accepted  run risk that the shop accepts
 * @param heights  of each of the base's tubs, m, where setups are compared
 * @param base  figures of the base; undefined when this is it
 */
export function studyFigures(
  point: StudyPoint,
  totals: PointTotals,
  accepted: number,
  heights: readonly (readonly number[])[],
  base?: readonly (readonly CellFigures[])[],
): CellFigures[][] {
  const { plain, weighted } = totals;
  const last = point.setup.tyres.length;
  const sums = weighted.events > 0 ? weighted : plain;
  const besideOf = (row: number, t: number): CellFigures | undefined =>
    (row === last ? base?.at(-1) : base?.[point.tyreOf[row]!])?.[point.tubOf[t]!];
  const movedAt = (row: number, t: number): boolean =>
    base !== undefined && (plain.cells[row]![t]!.moved || weighted.cells[row]![t]!.moved);

  const rows = plain.cells.map((tubs, row) =>
    tubs.map((cell, t): CellFigures => {
      const lowest = point.setup.lowestHeights[t]!;
      const atRest = point.restHeights[row]?.[t] ?? 0;
      const other = weighted.cells[row]![t]!;
      const risk = riskByHeight(
        { events: plain.events, all: cell.steps.weight, unseen: cell.unseen },
        weighted.events > 0 ? { events: weighted.events, steps: other.steps } : undefined,
      );
      const step = lowestAccepted(risk, accepted);
      const even = evenHeight(totals, risk, { row, tub: t, lowest, atRest }, accepted);
      const beside = besideOf(row, t);
      const moved = movedAt(row, t);
      return {
        topHeight: step === undefined ? undefined : Math.max(atRest, lowest + step * SIXTEENTH),
        even,
        heightDifference: changeOf(moved, even, base === undefined ? even : beside?.even),
        p50: requiredHeight(cell, plain.events, lowest, 0.5),
        p99: requiredHeight(cell, plain.events, lowest, 0.99),
        ...deciding(point, sums, row, t, step === undefined ? accepted : risk(step).estimate),
        compared: (heights[point.tubOf[t]!] ?? []).map((height, k): ComparedRisk => {
          const here = risk(stepAt(lowest, height));
          const there = base === undefined ? here : beside?.compared[k]?.risk;
          return {
            height,
            risk: here,
            difference: moved
              ? there &&
                riskDifference(
                  here,
                  there,
                  cell.compared[k]!,
                  plain.events,
                  other.compared[k]!,
                  weighted.events,
                )
              : there && NO_DIFFERENCE,
          };
        }),
      };
    }),
  );
  const alone = rows.slice(0, -1);
  const all = rows.at(-1)!.map((figures, t): CellFigures => {
    const even = greatestHeight(alone.map((tubs) => tubs[t]!.even));
    return {
      ...figures,
      topHeight: greatest(alone.map((tubs) => tubs[t]!.topHeight)),
      even,
      heightDifference: changeOf(movedAt(last, t), even, base === undefined ? even : besideOf(last, t)?.even),
    };
  });
  return [...alone, all];
}
