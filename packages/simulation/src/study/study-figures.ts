import { seasonRisks, tubRisks } from '../case-risks.ts';
import { heightOf, stepAt } from '../heights.ts';
import type { GapFigures } from '../inspect-gaps.ts';
import { lowestAccepted, middleStaticGaps } from '../pick.ts';
import type { Risk, RiskByHeight } from '../risk.ts';
import { HEIGHT_STEPS, requiredHeight } from '../tally.ts';
import { heightVerdict, type PickVerdict } from '../too-few.ts';
import { greatestHeight, type HeightAtRisk, heightAtRisk, heightDifference } from './height-at-risk.ts';
import { type Difference, riskDifference } from './paired-difference.ts';
import type { StudyPoint } from './study-point.ts';
import type { PointTotals } from './study-tasks.ts';

/** What touches at the accepted risk, whether a height helps or not. */
export type Deciding = 'arc' | 'leg' | 'hard point';

/** Gaps at one height where setups are compared, before the reserve is taken off. */
export interface ComparedGaps {
  atSpeed: GapFigures;
  /** Straight up from the axle, of the build tyre at build pressure, all at middle values, m. */
  standing: number;
}

/** Risk at one height where setups are compared. */
export interface ComparedRisk {
  /** m */
  height: number;
  risk: Risk;
  /** Of real contact, reserve 0. */
  contact: Risk;
  /** Of a season, where seasons were run; of the whole car alone. */
  season: Risk | undefined;
  /** Undefined where nobody looked. */
  gaps: ComparedGaps | undefined;
  /** To the base at that height; undefined where the base has no such tyre or tub. */
  difference: Difference | undefined;
}

/** What is found for one tyre, or for all, in one tub. Heights m; undefined where none is supported. */
export interface CellFigures {
  /** Lowest height, a multiple of 1/16 in, at which the upper 95 % bound of the run risk is within what is accepted. */
  topHeight: number | undefined;
  /**
   * Of the whole car, where seasons were run: the lowest at which the season risk is within what is accepted as well, as a
   * pick asks.
   */
  season: { topHeight: number | undefined } | undefined;
  /** Whether there is such a height: surely, surely not, or more runs would tell. */
  verdict: PickVerdict;
  /** Run risk at the greatest height searched; of all tyres that of the worst. */
  leastRisk: number;
  even: HeightAtRisk | undefined;
  /** Of the height at the accepted risk to the base's, m. */
  heightDifference: Difference | undefined;
  /** Percentiles of the height that a run requires. */
  p50: number | undefined;
  p99: number | undefined;
  decidedBy: Deciding;
  /** Name of the hard point where one decides, else empty. */
  hardPoint: string;
  compared: ComparedRisk[];
}

const NO_DIFFERENCE: Difference = { estimate: 0, low: 0, high: 0 };

/** Draws that touch a leg in one tub, and each hard point, whatever the height: their weight, and that of all. */
interface Fixed {
  events: number;
  legs: number;
  hardPoints: readonly number[];
}

/** What is touched in more than half of the draws that touch at a height, or at every height. */
function deciding(
  { hardPoints: names }: StudyPoint,
  { events, legs, hardPoints }: Fixed,
  touching: number,
): Pick<CellFigures, 'decidedBy' | 'hardPoint'> {
  const most = Math.max(0, ...hardPoints);
  const hard = most / events;
  const leg = legs / events;
  if (hard >= leg && hard > touching / 2) {
    return { decidedBy: 'hard point', hardPoint: names[hardPoints.indexOf(most)]! };
  }
  return { decidedBy: leg > touching / 2 ? 'leg' : 'arc', hardPoint: '' };
}

/** Greatest of some heights; undefined when one of them is. */
const greatest = (heights: readonly (number | undefined)[]): number | undefined =>
  heights.some((height) => height === undefined) ? undefined : Math.max(...(heights as number[]));

/** What is said of several tyres together. */
const worstVerdict = (verdicts: readonly PickVerdict[]): PickVerdict =>
  (['does not fit', 'not known'] as const).find((verdict) => verdicts.includes(verdict)) ?? 'fits';

/** Lowest height of the whole car in a tub that keeps the accepted season risk too, m. */
function withSeason(
  season: RiskByHeight,
  accepted: number,
  lowest: number,
  byRuns: number | undefined,
): number | undefined {
  const step = lowestAccepted(season, accepted);
  return step === undefined || byRuns === undefined ? undefined : Math.max(byRuns, heightOf(lowest, step));
}

const changeOf = (
  moved: boolean,
  here: HeightAtRisk | undefined,
  beside: HeightAtRisk | undefined,
): Difference | undefined => {
  if (here === undefined || beside === undefined) return undefined;
  return moved ? heightDifference(here, beside) : NO_DIFFERENCE;
};

/**
 * Figures of one setup: [tyre or, last, all tyres][tub]. The heights of all tyres are the greatest of the tyres' own;
 * their risk is that of at least one of them touching.
 * @param accepted  run risk that the shop accepts where a tyre's class has none of its own
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
  const besideOf = (row: number, t: number): CellFigures | undefined =>
    (row === last ? base?.at(-1) : base?.[point.tyreOf[row]!])?.[point.tubOf[t]!];
  const movedAt = (row: number, t: number): boolean =>
    base !== undefined && (plain.paired[row]![t]!.moved || weighted.paired[row]![t]!.moved);
  const unseen = [...plain.tallies.unseen.tyres, plain.tallies.unseen.all];
  const tail = [...weighted.tallies.tyres, weighted.tallies.all];
  const heightsOf = (t: number): readonly number[] => heights[point.tubOf[t]!] ?? [];
  const { seasons, gaps: looks } = totals;
  const standing =
    looks &&
    point.tubOf.map((_, t) =>
      heightsOf(t).map((height) => middleStaticGaps(point.setup, t, height, [0])[0]!),
    );
  const bySeason =
    seasons &&
    seasonRisks(seasons.counted, seasons.unseen, seasons.weighted.events > 0 ? seasons.weighted : undefined);

  const rows = [...plain.tallies.tyres, plain.tallies.all].map((tally, row) => {
    const others = tail[row]!;
    const most = point.ownAccepted[row] ?? accepted;
    const isWeighed = others.events > 0;
    const risks = tubRisks(tally, unseen[row]!, isWeighed ? others : undefined);
    return tally.tubs.map((tub, t): CellFigures => {
      const { lowest } = tub;
      const atRest = point.atRest[t]!;
      const { touch: risk, contact } = risks[t]!;
      const step = lowestAccepted(risk, most);
      const even = heightAtRisk(totals, risk, { row, tub: t, lowest, atRest }, most);
      const beside = besideOf(row, t);
      const moved = movedAt(row, t);
      const fixed: Fixed = isWeighed
        ? { events: others.events, legs: others.tubs[t]!.legs, hardPoints: others.hardPoints }
        : { events: tally.events, legs: tub.legTouches, hardPoints: tally.hardTouches };
      return {
        verdict: heightVerdict(risk, most),
        leastRisk: risk(HEIGHT_STEPS - 1).estimate,
        topHeight: step === undefined ? undefined : Math.max(atRest, heightOf(lowest, step)),
        season: undefined,
        even,
        heightDifference: changeOf(moved, even, base === undefined ? even : beside?.even),
        p50: plain.middles[row]?.[t],
        p99: requiredHeight(tub, tally.events, 0.99),
        ...deciding(point, fixed, step === undefined ? most : risk(step).estimate),
        compared: heightsOf(t).map((height, k): ComparedRisk => {
          const place = stepAt(lowest, height);
          const here = risk(place);
          const there = base === undefined ? here : beside?.compared[k]?.risk;
          const difference = (): Difference | undefined =>
            there &&
            riskDifference(
              here,
              there,
              plain.paired[row]![t]!.compared[k]!,
              weighted.paired[row]![t]!.compared[k]!,
              { plain: tally.events, weighted: others.events },
            );
          return {
            height,
            risk: here,
            contact: contact(place),
            season: row === last ? bySeason?.[t]?.(place) : undefined,
            gaps: looks && { atSpeed: looks[row]![t]![k]!, standing: standing![t]![k]! },
            difference: moved ? difference() : there && NO_DIFFERENCE,
          };
        }),
      };
    });
  });
  const alone = rows.slice(0, -1);
  const all = rows.at(-1)!.map((figures, t): CellFigures => {
    const even = greatestHeight(alone.map((tubs) => tubs[t]!.even));
    const topHeight = greatest(alone.map((tubs) => tubs[t]!.topHeight));
    const { lowest } = plain.tallies.all.tubs[t]!;
    return {
      ...figures,
      verdict: worstVerdict(alone.map((tubs) => tubs[t]!.verdict)),
      leastRisk: Math.max(...alone.map((tubs) => tubs[t]!.leastRisk)),
      topHeight,
      season: seasons && { topHeight: withSeason(bySeason![t]!, seasons.accepted, lowest, topHeight) },
      even,
      heightDifference: changeOf(movedAt(last, t), even, base === undefined ? even : besideOf(last, t)?.even),
    };
  });
  return [...alone, all];
}
