import { tubGap } from '@tubgap/core';
import { radiusBetween, waterfall } from '@tubgap/drawing';
import { limitsOf, type Result } from '@tubgap/results';
import { angleHeading, rareRun } from '@tubgap/units';
import { figuresOf } from '../figures-of.ts';
import { chosenTub, limitingRuns } from '../sheets/chosen-tub.ts';
import { measuresOf } from './measures.ts';

/**
 * Where the gap of the run of the accepted risk goes, at its tightest place: from what is seen there standing on that
 * tyre, by the tub's way to where it is in the run, and by what the tyre has become larger, to what is left. The lengths
 * shown are taken of one another, so that they add up. Undefined without such a run.
 */
export function gapWayFigure(result: Result): string | undefined {
  const { length, gapLeft, onTape, tapeDifference } = figuresOf(result);
  const { length: inOnePiece } = measuresOf(result);
  const chosen = chosenTub(result);
  const rare = chosen && limitingRuns(result, chosen)?.rare;
  if (chosen === undefined || rare === undefined) return undefined;
  const { tub, setOut, height } = chosen;
  const { outlines, build, tyres } = result;
  const own = outlines.tyres[tyres.findIndex(({ name }) => name === height.limitingTyre)]!;
  const standing = radiusBetween(outlines.angles, own.standing, rare.tightAngle);
  const gapIn = (ahead: number, above: number): number =>
    tubGap(tub, standing * Math.sin(rare.tightAngle) - ahead, standing * Math.cos(rare.tightAngle) - above);
  const seen = gapIn(tub.centreForward, setOut - tub.radius - build.axleHeight + own.rideHeightChange);
  const moved = gapIn(rare.centreAhead, rare.centreAbove);
  const shownSeen = [seen, 'up'] as const;
  const shownMoved = [moved, 'nearest'] as const;
  const shownLeft = [rare.gap, 'down'] as const;
  const taken = (metres: number): string =>
    metres < 0 ? `${length(-metres, 'nearest')} given back` : `${length(metres, 'nearest')} taken`;
  const [byBody, byTyre] = [tapeDifference(shownSeen, shownMoved), tapeDifference(shownMoved, shownLeft)];
  const at = angleHeading(rare.tightAngle);
  const { reserve, runRisk } = limitsOf(result, height.limitingTyre);
  return waterfall({
    words: {
      id: 'gap-way',
      title: `Where the gap goes in ${rareRun(runRisk)}`,
      description: `${at}, ${height.limitingTyre}, ${rare.moment}: seen standing ${inOnePiece(seen, 'up')}; body and axle ${taken(byBody)}; the tyre ${taken(byTyre)}; left ${gapLeft(rare.gap)}.`,
    },
    start: { label: `seen standing, ${at}`, text: length(seen, 'up'), gap: onTape(seen, 'up') },
    steps: [
      {
        label: 'body down, axle forward, build',
        text: taken(byBody),
        from: onTape(seen, 'up'),
        to: onTape(moved, 'nearest'),
      },
      {
        label: 'tyre: growth, bulge and lobe',
        text: taken(byTyre),
        from: onTape(moved, 'nearest'),
        to: onTape(rare.gap, 'down'),
      },
    ],
    left: { label: 'left', text: gapLeft(rare.gap), gap: onTape(rare.gap, 'down') },
    reserve,
    reserveText: `reserve: ${inOnePiece(reserve, 'up')} to be kept`,
  });
}
