import type { Case } from '@tubgap/casefile';
import type { HardPoint } from '@tubgap/core';
import type { SideView } from '@tubgap/drawing';
import {
  GAP_ANGLES,
  OUTLINE_ANGLES,
  type OutlineCloud,
  type RunPlace,
  type ShownState,
} from '@tubgap/simulation';
import { alongText, DEGREE, INCH, offsetText } from '@tubgap/units';
import { unbroken } from '@tubgap/wording';
import type { Standing } from './shown.ts';
import { lengthText, type Units } from './words.ts';

/** Hub angles at which the drawing shows the gap to see, as the sheets do. */
const SHOWN_GAPS = [0, 15, 30];

const NO_RUNS: number[][] = [];

/** What is drawn beside tub and standing tyre. */
export interface Drawn {
  place: RunPlace;
  source: Case;
  standing: Standing;
  units: Units;
  /** Scatter of the outlines; undefined while it is not known, its row in the legend then keeps its place. */
  cloud: OutlineCloud | 'none' | undefined;
  /** A run at one moment, with what to say of it. */
  run?: { shown: ShownState; label: string; tightTexts: string[] } | undefined;
  frame: NonNullable<SideView['frame']>;
}

const hardPoint = (point: Case['hardPoints'][number]): HardPoint =>
  point.shape === 'circle'
    ? { shape: 'circle', ahead: point.ahead, above: point.above, radius: point.radius }
    : { shape: 'polygon', xy: Float64Array.from(point.points.flatMap(({ ahead, above }) => [ahead, above])) };

/** Where a hard point's corners, or its two sides, stand ahead of the axle, m. */
const endsOf = (point: Case['hardPoints'][number]): number[] =>
  point.shape === 'circle'
    ? [point.ahead - point.radius, point.ahead + point.radius]
    : point.points.map(({ ahead }) => ahead);

/** Room around a tub in which it can be moved without the picture changing its scale, m. */
const MARGIN = 2 * INCH;
const TALL = 4 * INCH;

/** A close-up holds the crown from here to there, shares of the arc's radius behind and ahead of its centre. */
const NEAR = { behind: 0.42, ahead: 0.92 } as const;
const NEAR_TALL = INCH;
/** How far the crown may sink in a close-up before that follows it, m. */
const NEAR_DEEP = 4 * INCH;

/** What must fit into a picture with the tub in hand in it, from the axle, m: all of it with the hard points, or its crown. */
function boundsOf({ setup, tub }: RunPlace, source: Case, near: boolean): { rear: number; front: number } {
  const profile = setup.clearance.tubs[tub]!;
  if (near) {
    return {
      rear: profile.centreForward - NEAR.behind * profile.radius,
      front: profile.centreForward + NEAR.ahead * profile.radius,
    };
  }
  const half =
    profile.radius + source.tubs[tub]!.liner + Math.max(0, profile.legLength * Math.cos(profile.halfExtent));
  const ends = source.hardPoints.flatMap(endsOf);
  return {
    rear: Math.min(profile.centreForward - half, ...ends),
    front: Math.max(profile.centreForward + half, ...ends),
  };
}

/** A frame that holds tub, hard points and the tub's moves, or its crown close up; the frame before when it still does. */
export function frameOf(
  place: RunPlace,
  source: Case,
  before: Drawn['frame'] | undefined,
  near: boolean,
): Drawn['frame'] {
  const { rear, front } = boundsOf(place, source, near);
  const top = place.topHeight - place.setup.centralAxleHeight;
  const holds = (frame: Drawn['frame']): boolean =>
    rear >= frame.rear &&
    front <= frame.front &&
    top <= frame.top &&
    (!near || top >= frame.top - NEAR_DEEP) &&
    frame.front - frame.rear < 1.6 * (front - rear);
  if (before !== undefined && holds(before)) return before;
  return { rear: rear - MARGIN, front: front + MARGIN, top: top + (near ? NEAR_TALL : TALL) };
}

/** Whether a hard point stands between the ends of a picture: one that is cut off at an end would carry its name alone. */
function isBetween(point: Case['hardPoints'][number], { rear, front }: Drawn['frame']): boolean {
  const ends = endsOf(point);
  return Math.min(...ends) >= rear && Math.max(...ends) <= front;
}

/** The side view of the page as data for the drawing package. */
export function sideDrawing(drawn: Drawn): SideView {
  const { place, source, standing, units, run, cloud } = drawn;
  const { setup, tub: t } = place;
  const profile = setup.clearance.tubs[t]!;
  const tub = source.tubs[t]!;
  const tyre = source.tyres[place.tyre]!.name;
  const gap = (angle: number): number => standing.gaps[GAP_ANGLES.indexOf(angle as 0)]!;
  return {
    words: {
      id: 'side',
      title: `Side view of ${tub.name} with ${tyre}`,
      description:
        `To scale, front of the car to the right. Top of the tub ${lengthText(place.topHeight, 'up', units)} above the track, ` +
        `centre ${unbroken(alongText(tub.centreForward, units))}. Gap to see straight up ${lengthText(gap(0), 'up', units)}.`,
    },
    tub: profile,
    liner: tub.liner,
    topHeight: standing.topHeight,
    axleHeight: standing.axleHeight,
    angles: OUTLINE_ANGLES,
    standing: standing.radii,
    standingLabel: `${tyre}, standing still`,
    gaps: SHOWN_GAPS.map((angle) => ({
      angle: angle * DEGREE,
      texts: [angle === 0 ? 'straight up' : `${angle}° ahead`, lengthText(gap(angle), 'up', units)],
    })),
    topTexts: [
      `top ${lengthText(standing.topHeight, 'up', units)}`,
      ...(standing.builds ? [] : [`standing on ${tyre}`]),
    ],
    axleTexts: [`axle ${lengthText(standing.axleHeight, 'nearest', units)}`],
    centreTexts: [`× ${lengthText(standing.topHeight - profile.radius, 'nearest', units)}`],
    offsetText: offsetText(tub.centreForward, units),
    hardPoints: source.hardPoints
      .filter((point) => isBetween(point, drawn.frame))
      .map((point) => ({ name: point.name, point: hardPoint(point) })),
    bar: units === 'inch' ? { length: 10 * INCH, text: '10 in' } : { length: 0.2, text: '200 mm' },
    frame: drawn.frame,
    ...(cloud !== 'none' && {
      cloud: {
        runs: cloud?.runs ?? NO_RUNS,
        label:
          cloud === undefined
            ? 'simulated runs: not counted yet'
            : `${cloud.runs.length} simulated runs, each at its largest`,
      },
    }),
    ...(run && {
      rare: { radii: run.shown.radii, label: run.label },
      dropped: {
        ahead: run.shown.state.centreAhead,
        above: run.shown.state.centreAbove,
        back: run.shown.forward,
        down: run.shown.drop,
        label: `tub then: body down ${lengthText(run.shown.drop, 'up', units)}`,
        tightAngle: run.shown.state.tightAngle,
        tightTexts: run.tightTexts,
      },
    }),
  };
}
