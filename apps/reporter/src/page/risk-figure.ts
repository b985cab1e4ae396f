import { type RiskCurve, type RiskPoint, riskChart } from '@tubgap/drawing';
import { limitsOf, type Result } from '@tubgap/results';
import { chanceText, INCH } from '@tubgap/units';
import { BOUND, comesClose } from '@tubgap/wording';
import { measuresOf } from './measures.ts';

/** Nothing below this is drawn, whatever the estimates say. */
const LEAST = 1e-6;

/** Tubs beside the chosen one that a picture tells apart, and how much more height they may ask for to stand on its axis. */
const OTHERS = 3;
const NEAR = 3 * INCH;

function pointsOf(risks: Result['risks'], result: Result, tub: number): RiskPoint[] {
  return result.heights[tub]!.map((height, h) => {
    const { estimate, low, high } = risks[result.tyres.length]![tub]![h]!;
    return { height, estimate, low, high };
  });
}

/** Least risk of the curves that is worth a place on the axis. */
function leastRisk(curves: readonly RiskCurve[]): number {
  const found = curves.flatMap((curve) => curve.points).map((point) => point.estimate);
  return Math.max(LEAST, Math.min(0.1, ...found.filter((estimate) => estimate > 0)));
}

const heightOf = (result: Result, tub: number): number | undefined => result.picks[tub]!.height?.topHeight;

/** The tubs that are drawn, the one to build first, and those that stand too far off. */
function drawnTubs(result: Result): { drawn: number[]; away: number[] } {
  const all = result.tubs.map((_, t) => t);
  const first = result.chosen ?? all.find((t) => heightOf(result, t) !== undefined) ?? 0;
  const own = heightOf(result, first);
  const far = (t: number): number => {
    const height = heightOf(result, t);
    return own === undefined ? 0 : height === undefined ? Infinity : Math.abs(height - own);
  };
  const others = all.filter((t) => t !== first).sort((a, b) => far(a) - far(b));
  const near = others.filter((t) => far(t) <= NEAR).slice(0, OTHERS);
  return { drawn: [first, ...near], away: others.filter((t) => !near.includes(t)) };
}

const named = (result: Result, tub: number): string => {
  const { length } = measuresOf(result);
  const height = heightOf(result, tub);
  return `${result.tubs[tub]!.name}: ${height === undefined ? 'no height' : `least ${length(height, 'up')}`}`;
};

/**
 * Risk of a run with any of the tyres against top height, of every tub in one picture, and real contact in the one to
 * build. Undefined when the tables of heights hold nothing to draw.
 */
export function riskFigure(result: Result): { svg: string; away: string[] } | undefined {
  const { length } = measuresOf(result);
  const { drawn, away } = drawnTubs(result);
  const [first] = drawn;
  const curves: RiskCurve[] = drawn.map((t) => ({
    label: named(result, t),
    points: pointsOf(result.risks, result, t),
  }));
  const pick = result.picks[first!]!.height;
  // Without a gap to be kept, too close and in contact are the same.
  const { reserve, runRisk } = limitsOf(result, pick?.limitingTyre);
  if (reserve > 0)
    curves.push({
      label: `real contact, ${result.tubs[first!]!.name}`,
      points: pointsOf(result.contactRisks, result, first!),
    });
  if (!curves.some((curve) => curve.points.some((point) => point.estimate > 0))) return undefined;
  const least = leastRisk(curves);
  const top = pick === undefined ? undefined : length(pick.topHeight, 'up');
  const svg = riskChart({
    words: {
      id: 'risk-by-height',
      title: 'Risk of a run by top height, all tubs',
      description:
        `How often a run ${comesClose(reserve, result.case.units)}, by the height of the tub’s top; ${drawn.map((t) => named(result, t)).join('; ')}. ` +
        (pick === undefined
          ? 'No height keeps the accepted risk.'
          : `At ${top} it is ${BOUND} ${chanceText(pick.runRisk.high)} with ${pick.limitingTyre}; accepted is ${chanceText(runRisk)}.`),
    },
    units: result.case.units,
    curves,
    least,
    leastText: `goes on below ${chanceText(least)}`,
    accepted: runRisk,
    acceptedText: `accepted: ${chanceText(runRisk)}`,
    ...(pick === undefined ? {} : { pick: { height: pick.topHeight, text: `least ${top}` } }),
  });
  return { svg, away: away.map((t) => named(result, t)) };
}
