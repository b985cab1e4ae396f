import { gapByAngle } from '@tubgap/drawing';
import type { Result } from '@tubgap/results';
import { wholeText } from '@tubgap/units';
import { inches, inchesAndMm } from './measures.ts';

/** Below this hub angle on either side the legs end and a gap there says nothing, rad. */
const SHOWN = Math.PI / 2;

/** Gap by hub angle with the limiting tyre at the pick; undefined without one. */
export function gapFigure(result: Result): string | undefined {
  const gaps = result.outlines.pick?.gaps;
  if (gaps === undefined) return undefined;
  const at = (rows: readonly (readonly number[])[], quantile: number): readonly number[] =>
    rows[gaps.quantiles.findIndex((own) => Math.abs(own - quantile) < 1e-9)]!;
  const rareShare = gaps.quantiles[0]!;
  const rare = at(gaps.inRun, rareShare);
  const oneOf = wholeText(Math.round(1 / rareShare));
  const { angles } = result.outlines;
  const shown = rare.filter((_, k) => Math.abs(angles[k]!) <= SHOWN + 1e-9);
  return gapByAngle({
    words: {
      id: 'gap-by-angle',
      title: `Gap from ${gaps.tyre} to the tub by hub angle`,
      description:
        `Standing still, and at its smallest in a run, with the spread over ${wholeText(result.outlines.runs)} simulated runs. ` +
        `One run in ${oneOf} comes as near as ${inches(Math.min(...shown), 'down')} at some angle between 90° behind and 90° ahead of the top.`,
    },
    angles,
    atRest: { low: at(gaps.atRest, 0.05), middle: at(gaps.atRest, 0.5), high: at(gaps.atRest, 0.95) },
    inRun: { low: at(gaps.inRun, 0.05), middle: at(gaps.inRun, 0.5), high: at(gaps.inRun, 0.95) },
    rare,
    rareLabel: `at each angle 1 run in ${oneOf} comes nearer`,
    reserve: result.build.reserve,
    reserveText: `to be kept: ${inchesAndMm(result.build.reserve, 'up')}`,
    from: -SHOWN,
    to: SHOWN,
  });
}
