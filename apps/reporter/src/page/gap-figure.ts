import { gapByAngle } from '@tubgap/drawing';
import { limitsOf, type Result } from '@tubgap/results';
import { angleWords, rareRun, wholeText } from '@tubgap/units';
import { figuresOf } from '../figures-of.ts';
import { chosenTub, limitingRuns } from '../sheets/chosen-tub.ts';
import { measuresOf } from './measures.ts';

/** Below this hub angle on either side the legs end and a gap there says nothing, rad. */
const SHOWN = Math.PI / 2;

/** Gap by hub angle with the limiting tyre at the pick; undefined without one. */
export function gapFigure(result: Result): string | undefined {
  const { gapLeft } = figuresOf(result);
  const { both } = measuresOf(result);
  const { pick, angles } = result.outlines;
  const chosen = chosenTub(result);
  if (pick === null || chosen === undefined) return undefined;
  const { gaps } = pick;
  const at = (rows: readonly (readonly number[])[], quantile: number): readonly number[] =>
    rows[gaps.quantiles.findIndex((own) => Math.abs(own - quantile) < 1e-9)]!;
  const rare = limitingRuns(result, chosen)?.rare;
  const { reserve, runRisk } = limitsOf(result, gaps.tyre);
  const name = rareRun(runRisk);
  return gapByAngle({
    words: {
      id: 'gap-by-angle',
      title: `Gap from ${gaps.tyre} to the tub, by the angle at the axle`,
      description:
        `Standing still, and at its smallest in a run, with the spread over ${wholeText(result.outlines.runs)} simulated runs.` +
        (rare === undefined
          ? ''
          : ` At its tightest, ${angleWords(rare.tightAngle)}, ${name} leaves ${gapLeft(rare.gap)}.`),
    },
    units: result.case.units,
    angles,
    atRest: { low: at(gaps.atRest, 0.05), middle: at(gaps.atRest, 0.5), high: at(gaps.atRest, 0.95) },
    inRun: { low: at(gaps.inRun, 0.05), middle: at(gaps.inRun, 0.5), high: at(gaps.inRun, 0.95) },
    ...(rare && {
      rare: { gaps: rare.gaps, label: `${name}: ${gapLeft(rare.gap)} at its tightest (${rare.moment})` },
    }),
    reserve,
    reserveText: `to be kept: ${both(reserve, 'up')}`,
    from: -SHOWN,
    to: SHOWN,
  });
}
