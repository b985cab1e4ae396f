import { type RiskCurve, type RiskPoint, riskByHeight } from '@tubgap/drawing';
import type { Result } from '@tubgap/results';
import { chanceText } from '@tubgap/units';
import { comesClose } from '@tubgap/wording';
import { inches } from './measures.ts';

/** Nothing below this is drawn, whatever the estimates say. */
const LEAST = 1e-6;

function pointsOf(risks: Result['risks'], result: Result, tyre: number, tub: number): RiskPoint[] {
  return result.heights[tub]!.map((height, h) => {
    const { estimate, low, high } = risks[tyre]![tub]![h]!;
    return { height, estimate, low, high };
  });
}

/** Least risk of the curves that is worth a place on the axis. */
function leastRisk(curves: readonly RiskCurve[]): number {
  const found = curves.flatMap((curve) => curve.points).map((point) => point.estimate);
  return Math.max(LEAST, Math.min(0.1, ...found.filter((estimate) => estimate > 0)));
}

/**
 * Risk of a run against top height in one tub: each tyre of the car and, when there are several, any of them.
 * Undefined when the table of heights holds nothing to draw.
 */
export function riskFigure(result: Result, tub: number): string | undefined {
  const names = result.tyres.map((tyre) => tyre.name);
  const several = names.length > 1;
  const curves: RiskCurve[] = [...names, ...(several ? ['any of the tyres'] : [])].map((label, i) => ({
    label,
    points: pointsOf(result.risks, result, i, tub),
    under: i >= names.length,
  }));
  // Without a gap to be kept, too close and in contact are the same.
  if (result.build.reserve > 0) {
    curves.push({
      label: `real contact${several ? ', any of the tyres' : ''}`,
      points: pointsOf(result.contactRisks, result, names.length, tub),
    });
  }
  if (!curves.some((curve) => curve.points.some((point) => point.estimate > 0))) return undefined;
  const least = leastRisk(curves);
  const pick = result.picks[tub]!.height;
  const { name } = result.tubs[tub]!;
  const top = pick === undefined ? undefined : inches(pick.topHeight, 'up');
  return riskByHeight({
    words: {
      id: `risk-${tub}`,
      title: `Risk of a run by top height, tub ${name}`,
      description:
        `How often a run ${comesClose(result.build.reserve)}, by the height of the tub’s top, with 95 % intervals. ` +
        (pick === undefined
          ? 'No height keeps the accepted risk.'
          : `At ${top} it is at worst ${chanceText(pick.runRisk.high)} with ${pick.limitingTyre}; accepted is ${chanceText(result.accept.runRisk)}.`),
    },
    curves,
    least,
    leastText: `goes on below ${chanceText(least)}`,
    accepted: result.accept.runRisk,
    acceptedText: `accepted: ${chanceText(result.accept.runRisk)}`,
    ...(pick === undefined ? {} : { pick: { height: pick.topHeight, text: `least ${top}` } }),
  });
}
