import { type Markup, sideView } from '@tubgap/drawing';
import type { Result } from '@tubgap/results';
import { INCH, sixteenths, wholeDegrees } from '@tubgap/units';
import { hardPointShape } from '../hard-points/hard-shape.ts';
import type { ChosenTub } from './chosen-tub.ts';
import { gapChecks } from './gap-checks.ts';
import { alongText, bothText, mmText } from './lengths.ts';

/** Hub angles whose gaps the drawing has room for, degrees. */
const SHOWN = [0, 15, 30] as const;

/** A place of a tyre's point: 'straight up', '15° ahead', '30° back'. */
export function placeName(angle: number): string {
  const turn = wholeDegrees(angle);
  if (turn === 0) return 'straight up';
  return turn > 0 ? `${turn}° ahead` : `${-turn}° back`;
}

/** Side view of the tub as it is set out, the tyre standing: what the bench measures, without the runs. */
export function sideDrawing(result: Result, { tub, setOut }: ChosenTub): Markup {
  const { build, outlines } = result;
  const index = result.tyres.findIndex((tyre) => tyre.name === build.tyre);
  const gaps = gapChecks(result).filter(({ angle }) =>
    (SHOWN as readonly number[]).includes(wholeDegrees(angle)),
  );
  const top = bothText(setOut, 'up');
  const axle = bothText(build.axleHeight, 'nearest');
  const said = gaps.map(({ angle, gap }) => `${placeName(angle)} ${sixteenths(gap, 'up')}`);
  return {
    markup: sideView({
      words: {
        id: 'set-out',
        title: `Side view of ${tub.name} as set out`,
        description: `Drawn to scale, front of the car to the right. Top inside ${top} above the track, axle centre ${axle}, centre of the arc ${alongText(tub.centreForward)}. Gap to see standing still: ${said.join(', ')}.`,
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
        texts: [placeName(angle), sixteenths(gap, 'up'), mmText(gap, 'up')],
      })),
      topHeightText: `top ${top}`,
      axleHeightText: `axle ${axle}`,
      centreTexts: [`× centre ${alongText(tub.centreForward)}`],
      hardPoints: result.hardPoints.map((point) => ({ name: point.name, point: hardPointShape(point) })),
      bar: { length: 10 * INCH, text: '10 in (254 mm)' },
    }),
  };
}
