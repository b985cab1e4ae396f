import { type SideView, sideView } from '@tubgap/drawing';
import type { Result } from '@tubgap/results';
import { gapWords, rareRun } from '@tubgap/units';
import { type ChosenTub, chosenTub, limitingRuns } from '../sheets/chosen-tub.ts';
import { standingView } from '../sheets/side-drawing.ts';
import { inchesAndMm } from './measures.ts';

/** Everything of the side view of the tub to build that comes from the runs. */
function runsShown(result: Result, chosen: ChosenTub): Pick<SideView, 'middling' | 'rare' | 'dropped'> {
  const runs = limitingRuns(result, chosen);
  if (runs === undefined) return {};
  const { middling, rare } = runs;
  const tyre = chosen.height.limitingTyre;
  const name = rareRun(result.accept.runRisk);
  return {
    middling: { radii: middling.radii, label: `${tyre}, an ordinary run (${middling.moment})` },
    rare: { radii: rare.radii, label: `${tyre}, ${name} (${rare.moment})` },
    dropped: {
      ahead: rare.centreAhead,
      above: rare.centreAbove,
      back: rare.forward,
      down: rare.drop,
      label: `tub in that run: body down ${inchesAndMm(rare.drop, 'up')}`,
      tightAngle: rare.tightAngle,
      tightTexts: [`${name}:`, `${gapWords(rare.gap)} left`],
    },
  };
}

/** What the side view of the tub to build shows; undefined without a pick. */
export function sideDrawing(result: Result): SideView | undefined {
  const chosen = chosenTub(result);
  return chosen && { ...standingView(result, chosen), ...runsShown(result, chosen) };
}

/** Side view of the tub to build as a picture of its own; undefined without a pick. */
export function sideFigure(result: Result, id = 'side'): string | undefined {
  const drawn = sideDrawing(result);
  return drawn && sideView({ ...drawn, words: { ...drawn.words, id } });
}
