import { runPanels, type SideView, sideView } from '@tubgap/drawing';
import type { Found } from '@tubgap/interview';
import { caseSetup, GAP_ANGLES, OUTLINE_ANGLES, type RunPlace } from '@tubgap/simulation';
import { DEGREE } from '@tubgap/units';
import { nearestRay, panelWords, reserveWords } from '@tubgap/wording';
import { standingAt } from '../page/shown.ts';
import { frameOf, sideDrawing } from '../page/side-drawing.ts';
import type { Units } from '../page/words.ts';

/** The picked tub from the side at a height, the car standing still on its build tyre: where the gaps are seen. */
function standingView({ source, chosen }: Found, topHeight: number, units: Units): SideView {
  const setup = caseSetup(source);
  const place: RunPlace = { setup, tub: chosen!, tyre: setup.buildIndex, topHeight };
  const frame = frameOf(place, source, undefined, false);
  return sideDrawing({ place, source, standing: standingAt(place), units, cloud: 'none', frame });
}

/**
 * The tub to build at the height that is set out, standing, and under it the worst run accepted, in the words of a pick's
 * papers; as long as that height is not settled, and where no such run is known, the tub standing at the least height.
 */
export function customerDrawing(
  found: Found,
  topHeight: number,
  setOut: NonNullable<Found['look']>['setOut'],
  units: Units,
): string {
  const view = standingView(found, topHeight, units);
  if (setOut?.rare === undefined) return sideView(view);
  const { source, picks, chosen } = found;
  const { accept, build } = source;
  const { rare, staticGaps } = setOut;
  const { angle } = nearestRay(view.gaps, rare.tightAngle);
  const seenAt = GAP_ANGLES.findIndex((degrees) => Math.abs(degrees * DEGREE - angle) < 1e-6);
  const there = OUTLINE_ANGLES.findIndex((one) => Math.abs(one - angle) < 1e-6);
  const { standingTitle, rayTexts, ...words } = panelWords({
    accepted: accept.runRisk,
    reserve: build.reserve,
    tyre: picks[chosen!]!.height!.limitingTyre,
    rare,
    ray: { angle, seen: staticGaps[seenAt]!, left: rare.gaps[there]! },
    units,
  });
  // The panels stand at the scale of what they show: nothing is moved here.
  const { frame: _, ...standing } = view;
  return runPanels({
    ...standing,
    gaps: view.gaps.map((gap) => ({ ...gap, main: gap.angle === angle })),
    standingTitle,
    run: {
      ...words,
      radii: rare.radii,
      ahead: rare.centreAhead,
      above: rare.centreAbove,
      reserve: build.reserve,
      back: rare.forward,
      down: rare.drop,
      gap: { angle, texts: rayTexts, main: true },
      tightAngle: rare.tightAngle,
      reserveText: reserveWords(build.reserve, units),
    },
  });
}
