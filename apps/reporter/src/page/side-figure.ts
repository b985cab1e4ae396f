import { type SideView, sideView } from '@tubgap/drawing';
import type { Result } from '@tubgap/results';
import { angleHeading, INCH, wholeText } from '@tubgap/units';
import { hardPointShape } from '../hard-points/hard-shape.ts';
import { chosenTub, isSetHigher } from '../sheets/chosen-tub.ts';
import { gapsToSee } from './decision-rows.ts';
import { centrePlace, inches, inchesAndMm, measuredText, millimetres } from './measures.ts';

/** Everything of the side view of the tub to build that comes from the runs. */
function runsShown(result: Result, limiting: number): Pick<SideView, 'middling' | 'rare' | 'dropped'> {
  const shown = result.outlines.pick?.shown[limiting] ?? [];
  const [middling] = shown;
  const rare = shown.at(-1);
  const tyre = result.tyres[limiting]!.name;
  if (middling === undefined || rare === undefined) return {};
  const oneOf = wholeText(Math.round(1 / (1 - rare.rank)));
  return {
    middling: { radii: middling.radii, label: `${tyre}, a middling run (${middling.moment})` },
    rare: { radii: rare.radii, label: `${tyre}, the 1 run in ${oneOf} (${rare.moment})` },
    dropped: {
      ahead: rare.centreAhead,
      above: rare.centreAbove,
      back: rare.forward,
      down: rare.drop,
      label: `tub in that run: body down ${inchesAndMm(rare.drop, 'up')}`,
      tightAngle: rare.tightAngle,
      tightTexts: [`1 run in ${oneOf}:`, `${inches(rare.gap, 'down')} left`],
    },
  };
}

/** What the side view of the tub to build shows; undefined without a pick. */
export function sideDrawing(result: Result): SideView | undefined {
  const chosen = chosenTub(result);
  if (chosen === undefined) return undefined;
  const { index: t, tub, height, setOut } = chosen;
  const build = result.tyres.findIndex((tyre) => tyre.name === result.build.tyre);
  const limiting = result.tyres.findIndex((tyre) => tyre.name === height.limitingTyre);
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
        `${measuredText(axleHeight)} above it, tub centre ${centrePlace(tub.centreForward)}. Gap to see standing still: ` +
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
    axleHeightText: `axle ${measuredText(axleHeight)}`,
    centreTexts: [
      `× tub centre ${centrePlace(tub.centreForward)},`,
      `${measuredText(centreHeight)} above the track`,
    ],
    hardPoints: result.hardPoints.map((point) => ({ name: point.name, point: hardPointShape(point) })),
    bar: { length: 10 * INCH, text: '10 in (254 mm)' },
    ...runsShown(result, limiting),
  };
}

/** Side view of the tub to build as a picture of its own; undefined without a pick. */
export function sideFigure(result: Result, id = 'side'): string | undefined {
  const drawn = sideDrawing(result);
  return drawn && sideView({ ...drawn, words: { ...drawn.words, id } });
}
