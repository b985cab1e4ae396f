import { type SideView, sideView } from '@tubgap/drawing';
import type { Result } from '@tubgap/results';
import { alongText, angleHeading, gapWords, INCH, rareRun } from '@tubgap/units';
import { hardPointShape } from '../hard-points/hard-shape.ts';
import { type ChosenTub, chosenTub, isSetHigher, limitingRuns } from '../sheets/chosen-tub.ts';
import { gapsToSee } from './decision-rows.ts';
import { inches, inchesAndMm, millimetres } from './measures.ts';

/** Everything of the side view of the tub to build that comes from the runs. */
function runsShown(result: Result, chosen: ChosenTub): Pick<SideView, 'middling' | 'rare' | 'dropped'> {
  const runs = limitingRuns(result, chosen);
  if (runs === undefined) return {};
  const { middling, rare } = runs;
  const tyre = chosen.height.limitingTyre;
  const name = rareRun(result.accept.runRisk);
  return {
    middling: { radii: middling.radii, label: `${tyre}, a middling run (${middling.moment})` },
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
  if (chosen === undefined) return undefined;
  const { index: t, tub, height, setOut } = chosen;
  const build = result.tyres.findIndex((tyre) => tyre.name === result.build.tyre);
  const { axleHeight } = result.build;
  const gaps = gapsToSee(result, t);
  const top = inchesAndMm(setOut, 'up');
  const least = inchesAndMm(height.topHeight, 'up');
  const centreHeight = setOut - tub.radius;
  return {
    words: {
      id: 'side',
      title: `Side view of ${tub.name} with ${result.build.tyre}`,
      description:
        `Drawn to scale, front of the car to the right. Top of the tub ${top} above the track as set out, ${least} at the least, axle ` +
        `${inchesAndMm(axleHeight, 'nearest')} above it, tub centre ${alongText(tub.centreForward, 'both')}. Gap to see standing still: ` +
        `${gaps.map(({ angle, gap }) => `${angleHeading(angle)} ${inchesAndMm(gap, 'up')}`).join(', ')}.`,
    },
    tub: {
      radius: tub.radius,
      halfExtent: tub.halfExtent,
      legLength: tub.legLength,
      centreForward: tub.centreForward,
      notches: tub.notches,
    },
    liner: tub.liner,
    topHeight: setOut,
    axleHeight,
    angles: result.outlines.angles,
    standing: result.outlines.tyres[build]!.standing,
    standingLabel: `${result.build.tyre}, standing still`,
    gaps: gaps.map(({ angle, gap }) => ({
      angle,
      texts: [angleHeading(angle), inches(gap, 'up'), millimetres(gap, 'up')],
    })),
    topHeightText: `top ${top}${isSetHigher(chosen) ? `, least ${inches(height.topHeight, 'up')}` : ''}`,
    axleHeightText: `axle ${inchesAndMm(axleHeight, 'nearest')}`,
    centreTexts: [
      `× tub centre ${alongText(tub.centreForward, 'both')},`,
      `${inchesAndMm(centreHeight, 'nearest')} above the track`,
    ],
    hardPoints: result.hardPoints.map((point) => ({ name: point.name, point: hardPointShape(point) })),
    bar: { length: 10 * INCH, text: '10 in (254 mm)' },
    ...runsShown(result, chosen),
  };
}

/** Side view of the tub to build as a picture of its own; undefined without a pick. */
export function sideFigure(result: Result, id = 'side'): string | undefined {
  const drawn = sideDrawing(result);
  return drawn && sideView({ ...drawn, words: { ...drawn.words, id } });
}
