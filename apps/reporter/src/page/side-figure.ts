import { type RunPanels, runPanels, type SideView, sideView } from '@tubgap/drawing';
import { limitsOf, type Result } from '@tubgap/results';
import { nearestRay, panelWords, reserveWords } from '@tubgap/wording';
import { figuresOf } from '../figures-of.ts';
import { type ChosenTub, chosenTub, limitingRuns } from '../sheets/chosen-tub.ts';
import { gapsToSee, standingView } from '../sheets/side-drawing.ts';

/** The run of the accepted risk in the tub to build, and the ray along which it and the standing car are compared. */
function inTheRun(
  result: Result,
  chosen: ChosenTub,
  standing: SideView,
): Pick<RunPanels, 'gaps' | 'standingTitle' | 'run'> | undefined {
  const rare = limitingRuns(result, chosen)?.rare;
  if (rare === undefined) return undefined;
  const { outlines } = result;
  const { units } = figuresOf(result);
  const seen = gapsToSee(result, chosen);
  const near = nearestRay(seen, rare.tightAngle);
  const there = outlines.angles.findIndex((angle) => Math.abs(angle - near.angle) < 1e-6);
  const { reserve, runRisk } = limitsOf(result, chosen.height.limitingTyre);
  const { standingTitle, rayTexts, ...words } = panelWords({
    accepted: runRisk,
    reserve,
    tyre: chosen.height.limitingTyre,
    rare,
    ray: { angle: near.angle, seen: near.gap, left: rare.gaps[there]! },
    units,
  });
  return {
    gaps: standing.gaps.map((gap) => ({ ...gap, main: gap.angle === near.angle })),
    standingTitle,
    run: {
      ...words,
      radii: rare.radii,
      ahead: rare.centreAhead,
      above: rare.centreAbove,
      reserve,
      back: rare.forward,
      down: rare.drop,
      gap: { angle: near.angle, texts: rayTexts, main: true },
      tightAngle: rare.tightAngle,
      reserveText: reserveWords(reserve, units === 'mm' ? 'mm first' : 'both'),
    },
  };
}

/** What the drawing of the tub to build shows; without the run where none is known. Undefined without a pick. */
export function sideDrawing(result: Result): RunPanels | SideView | undefined {
  const chosen = chosenTub(result);
  if (chosen === undefined) return undefined;
  const standing = standingView(result, chosen);
  return { ...standing, ...inTheRun(result, chosen, standing) };
}

/** Drawing of the tub to build as a picture of its own; undefined without a pick. */
export function sideFigure(result: Result, id = 'side'): string | undefined {
  const drawn = sideDrawing(result);
  if (drawn === undefined) return undefined;
  const own = { ...drawn, words: { ...drawn.words, id } };
  return 'run' in own ? runPanels(own) : sideView(own);
}
