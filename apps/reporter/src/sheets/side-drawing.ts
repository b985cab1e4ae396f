import { type Markup, sideView } from '@tubgap/drawing';
import type { Result } from '@tubgap/results';
import { alongText, angleHeading, INCH, shownLength, sixteenths, wholeDegrees } from '@tubgap/units';
import { hardPointShape } from '../hard-points/hard-shape.ts';
import type { ChosenTub } from './chosen-tub.ts';
import { gapChecks } from './gap-checks.ts';

/** Hub angles whose gaps the drawing has room for, degrees. */
const SHOWN = [0, 15, 30] as const;

/** Side view of the tub as it is set out, the tyre standing: what the bench measures, without the runs. */
export function sideDrawing(result: Result, { tub, setOut }: ChosenTub): Markup {
  const { build, outlines } = result;
  const index = result.tyres.findIndex((tyre) => tyre.name === build.tyre);
  const gaps = gapChecks(result).filter(({ angle }) =>
    (SHOWN as readonly number[]).includes(wholeDegrees(angle)),
  );
  const top = shownLength(setOut, 'up').both;
  const axle = shownLength(build.axleHeight, 'nearest').both;
  const said = gaps.map(({ angle, gap }) => `${angleHeading(angle)} ${sixteenths(gap, 'up')}`);
  return {
    markup: sideView({
      words: {
        id: 'set-out',
        title: `Side view of ${tub.name} as set out`,
        description: `Drawn to scale, front of the car to the right. Top inside ${top} above the track, axle centre ${axle}, centre of the arc ${alongText(tub.centreForward, 'both')}. Gap to see standing still: ${said.join(', ')}.`,
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
      gaps: gaps.map(({ angle, gap }) => ({
        angle,
        texts: [angleHeading(angle), sixteenths(gap, 'up'), shownLength(gap, 'up').mm],
      })),
      topHeightText: `top ${top}`,
      axleHeightText: `axle ${axle}`,
      centreTexts: [`× centre ${alongText(tub.centreForward, 'both')}`],
      hardPoints: result.hardPoints.map((point) => ({ name: point.name, point: hardPointShape(point) })),
      bar: { length: 10 * INCH, text: '10 in (254 mm)' },
    }),
  };
}
