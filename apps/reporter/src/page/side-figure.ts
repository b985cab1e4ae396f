import { type RunPanels, runPanels, type SideView, sideView } from '@tubgap/drawing';
import type { Result } from '@tubgap/results';
import { angleHeading, rareRun } from '@tubgap/units';
import { figuresOf } from '../figures-of.ts';
import { type ChosenTub, chosenTub, limitingRuns } from '../sheets/chosen-tub.ts';
import { gapsToSee, standingView } from '../sheets/side-drawing.ts';
import { measuresOf } from './measures.ts';

/** 'all of it reserve', or how much of a gap is. */
function ofReserve(result: Result, gap: number): string {
  const { reserve } = result.build;
  const { length, gapLeft } = figuresOf(result);
  if (reserve <= 0) return '';
  const kept = length(reserve, 'up');
  return gapLeft(gap) === kept ? ', all of it reserve' : `, ${kept} of it reserve`;
}

/** The run of the accepted risk in the tub to build, and the ray along which it and the standing car are compared. */
function inTheRun(
  result: Result,
  chosen: ChosenTub,
  standing: SideView,
): Pick<RunPanels, 'gaps' | 'standingTitle' | 'run'> | undefined {
  const { gapLeft } = figuresOf(result);
  const { length, both } = measuresOf(result);
  const rare = limitingRuns(result, chosen)?.rare;
  if (rare === undefined) return undefined;
  const { build, accept, outlines } = result;
  const seen = gapsToSee(result, chosen);
  const near = seen.reduce((a, b) =>
    Math.abs(b.angle - rare.tightAngle) < Math.abs(a.angle - rare.tightAngle) ? b : a,
  );
  const there = outlines.angles.findIndex((angle) => Math.abs(angle - near.angle) < 1e-6);
  const name = rareRun(accept.runRisk);
  const left = gapLeft(rare.gap);
  return {
    gaps: standing.gaps.map((gap) => ({ ...gap, main: gap.angle === near.angle })),
    standingTitle: `Standing: see ${length(near.gap, 'up')} here, ${angleHeading(near.angle)}`,
    run: {
      title: `The worst run accepted, ${name}: ${left} left${ofReserve(result, rare.gap)}`,
      radii: rare.radii,
      ahead: rare.centreAhead,
      above: rare.centreAbove,
      reserve: build.reserve,
      back: rare.forward,
      down: rare.drop,
      downText: `body down ${figuresOf(result).length(rare.drop, 'up')}`,
      gap: { angle: near.angle, texts: [angleHeading(near.angle), gapLeft(rare.gaps[there]!)], main: true },
      tightAngle: rare.tightAngle,
      tightTexts: [`${left} left here`],
      reserveText: `reserve: ${both(build.reserve, 'up')} to be kept`,
      runLabel: `${chosen.height.limitingTyre}, ${rare.moment}`,
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
