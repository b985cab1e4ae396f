import type { Case } from '@tubgap/casefile';
import { buildLoad, type HardPoint, outlineRadius, standingOutline } from '@tubgap/core';
import { sideView } from '@tubgap/drawing';
import { caseSetup, middleStaticGaps, OUTLINE_ANGLES } from '@tubgap/simulation';
import { alongText, angleHeading, DEGREE, INCH, offsetText, shownLength } from '@tubgap/units';
import { indexOf } from './named.ts';

/** Hub angles whose gaps the drawing tells, degrees. */
const SEEN = [0, 15, 30];

const pointOf = (point: Case['hardPoints'][number]): HardPoint =>
  point.shape === 'circle'
    ? { shape: 'circle', ahead: point.ahead, above: point.above, radius: point.radius }
    : { shape: 'polygon', xy: Float64Array.from(point.points.flatMap(({ ahead, above }) => [ahead, above])) };

/**
 * Side view of a tub of a case at a height over the standing build tyre, as SVG.
 * @param topHeight  inside top above the track, m
 * @throws RangeError when the case has no such tub
 */
export function drawSide(source: Case, tub: string, topHeight: number): string {
  const setup = caseSetup(source);
  const t = indexOf(source.tubs, tub, 'tub');
  const build = setup.tyres[setup.buildIndex]!;
  const outline = standingOutline(
    build.centralTyre,
    build.setup,
    setup.buildPressure,
    buildLoad(build.centralCar),
  );
  const gaps = middleStaticGaps(setup, t, topHeight, SEEN);
  const profile = setup.clearance.tubs[t]!;
  const axleHeight = setup.centralAxleHeight;
  const [top, axle, middle] = [
    shownLength(topHeight, 'up'),
    shownLength(axleHeight, 'nearest'),
    shownLength(topHeight - profile.radius, 'nearest'),
  ];
  const shown = gaps.map((gap) => shownLength(gap, 'up'));
  const told = SEEN.map((degrees, k) => `${angleHeading(degrees * DEGREE)} ${shown[k]!.both}`).join(', ');
  return sideView({
    words: {
      id: 'side',
      title: `Side view of ${tub} with ${build.name}`,
      description: `Drawn to scale, front of the car to the right. Top of the tub ${top.both} above the track, axle ${axle.both} above it, tub centre ${alongText(profile.centreForward, 'both')}. Gap to see standing still: ${told}.`,
    },
    tub: { ...profile, notches: profile.notches ?? [] },
    liner: source.tubs[t]!.liner,
    topHeight,
    axleHeight,
    angles: OUTLINE_ANGLES,
    standing: OUTLINE_ANGLES.map((angle) => outlineRadius(outline, angle)),
    standingLabel: `${build.name}, standing still`,
    gaps: SEEN.map((degrees, k) => ({
      angle: degrees * DEGREE,
      texts: [angleHeading(degrees * DEGREE), shown[k]!.inch, shown[k]!.mm],
    })),
    topTexts: [`top ${top.inch} (${top.mm})`],
    axleTexts: [`axle ${axle.inch}`, axle.mm],
    centreTexts: [`× ${middle.inch}`, middle.mm],
    offsetText: offsetText(profile.centreForward, 'inch'),
    hardPoints: source.hardPoints.map((point) => ({ name: point.name, point: pointOf(point) })),
    bar: { length: 10 * INCH, text: '10 in (254 mm)' },
  });
}
