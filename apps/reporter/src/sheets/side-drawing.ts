import { type Markup, type SideView, sideView } from '@tubgap/drawing';
import type { Result } from '@tubgap/results';
import { angleHeading, DEGREE, INCH } from '@tubgap/units';
import { figuresOf } from '../figures-of.ts';
import { hardPointShape } from '../hard-points/hard-shape.ts';
import { type ChosenTub, isSetHigher, setOutGaps } from './chosen-tub.ts';

/** Hub angles whose gaps a drawing and the first screen have room for, degrees. */
const SEEN_ANGLES = [0, 15, 30];

/** Gaps to see at some of the angles, angle in rad and gap in m: of the tub to build as it is set out. */
export function gapsToSee(result: Result, chosen: ChosenTub): { angle: number; gap: number }[] {
  const gaps = setOutGaps(result, chosen);
  return SEEN_ANGLES.flatMap((degrees) => {
    const k = result.build.staticGapAngles.findIndex((angle) => Math.abs(angle - degrees * DEGREE) < 1e-6);
    const gap = gaps[k];
    return gap === undefined ? [] : [{ angle: result.build.staticGapAngles[k]!, gap }];
  });
}

/** The tub as it is set out and the tyre standing: what the bench measures, without the runs. */
export function standingView(result: Result, chosen: ChosenTub): SideView {
  const { units, shown, alongBoth, offset } = figuresOf(result);
  const { tub, setOut, height } = chosen;
  const { build, outlines } = result;
  const index = result.tyres.findIndex((tyre) => tyre.name === build.tyre);
  const gaps = gapsToSee(result, chosen).map(({ angle, gap }) => ({ angle, shown: shown(gap, 'up') }));
  const shownTop = shown(setOut, 'up');
  const top = shownTop.both;
  const middle = shown(setOut - tub.radius, 'nearest');
  const least = shown(height.topHeight, 'up');
  const axle = shown(build.axleHeight, 'nearest');
  const centre = alongBoth(tub.centreForward);
  const seen = gaps.map(({ angle, shown }) => `${angleHeading(angle)} ${shown.both}`);
  return {
    words: {
      id: 'set-out',
      title: `Side view of ${tub.name} with ${build.tyre}`,
      description: `Drawn to scale, front of the car to the right. Top of the tub ${top} above the track as set out, ${least.both} at the least, axle ${axle.both} above it, tub centre ${centre}. Gap to see standing still: ${seen.join(', ')}.`,
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
    axleHeight: build.axleHeight,
    angles: outlines.angles,
    standing: outlines.tyres[index]!.standing,
    standingLabel: `${build.tyre}, standing still`,
    gaps: gaps.map(({ angle, shown }) => ({ angle, texts: [angleHeading(angle), shown.own, shown.other] })),
    topTexts: [`top ${shownTop.both}`, ...(isSetHigher(chosen) ? [`at the least ${least.both}`] : [])],
    axleTexts: [`axle ${axle.own}`, axle.other],
    centreTexts: [`× ${middle.own}`, middle.other],
    offsetText: offset(tub.centreForward),
    hardPoints: result.hardPoints.map((point) => ({ name: point.name, point: hardPointShape(point) })),
    bar: units === 'mm' ? { length: 0.25, text: '250 mm' } : { length: 10 * INCH, text: '10 in (254 mm)' },
  };
}

/** Of the picture on a sheet, in its units: it stands beside a column of words. */
const SHEET_PICTURE = 320;

/** The same as a picture for a sheet. */
export const standingDrawing = (result: Result, chosen: ChosenTub): Markup => ({
  markup: sideView({
    ...standingView(result, chosen),
    width: SHEET_PICTURE,
    bar:
      result.case.units === 'mm'
        ? { length: 0.1, text: '100 mm' }
        : { length: 4 * INCH, text: '4 in (102 mm)' },
  }),
});
