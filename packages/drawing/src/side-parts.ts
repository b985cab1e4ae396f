import type { HardPoint, Tub } from '@tubgap/core';
import { type Box, clearPlace, textBox } from './clear-place.ts';
import {
  arrowHead,
  type Callout,
  callout,
  calloutBoxes,
  doubleArrow,
  levelDimension,
  uprightDimension,
} from './dimension.ts';
import { GRID_INK, INK, SOFT_INK } from './ink.ts';
import { type Markup, markup } from './markup.ts';
import { LETTERS, label, labels, straight, stroke, WIDTH, wrapped } from './picture.ts';
import { footOnTub, hardPointPath, type Point, type View, viewAt } from './shapes.ts';
import { tubPath } from './tub-path.ts';

/** A gap at a hub angle, with its heading and figures. Angle in rad. */
export interface GapShown {
  angle: number;
  texts: readonly string[];
  /** Whether it is the one that is looked at: its ray is drawn strong. */
  main?: boolean;
}

/** A tub with its standing tyre from the right side, front of the car to the right. Lengths in m, angles in rad. */
export interface StandingPicture {
  tub: Tub;
  /** Strip or liner between the tub's bare skin and its inside surface. */
  liner: number;
  /** Inside crown above the track. */
  topHeight: number;
  axleHeight: number;
  /** Hub angles of all radii, rising. */
  angles: readonly number[];
  /** The tyre at rest. */
  standing: readonly number[];
  /** Gaps to see, by rising angle. */
  gaps: readonly GapShown[];
  /** What stands on either side of a dimension's line: the name with the length, and the rest. */
  topTexts: readonly string[];
  axleTexts: readonly string[];
  /** Of the arc's centre above the track, and from the axle along the car. */
  centreTexts: readonly string[];
  offsetText: string;
  hardPoints: readonly { name: string; point: HardPoint }[];
  /** Length of the scale bar and its text. */
  bar: { length: number; text: string };
  /** Of the picture, in its units; left out: a page's column. Letters keep their size. */
  width?: number;
  /** Keeps scale and place of the axle while the tub moves: what must fit, from the axle, m. Left out: all that is drawn. */
  frame?: { rear: number; front: number; top: number };
}

/** Room on the left for the top height, and on the right. */
const LEFT = 40;
const RIGHT = 14;
/** Over the crown, for the gaps to see. */
const TOP = 66;
export const SKIN = 1.8;

export interface Layout {
  width: number;
  view: View;
  crownY: number;
  trackY: number;
  /** Centre of the tub's arc from the axle, m. */
  atRest: { ahead: number; above: number };
}

export function layoutOf(drawn: StandingPicture): Layout {
  const { tub, topHeight, axleHeight, width = WIDTH } = drawn;
  const outside = tub.radius + drawn.liner;
  const ends = drawn.hardPoints.flatMap(({ point }) =>
    point.shape === 'circle'
      ? [point.ahead - point.radius, point.ahead + point.radius]
      : Array.from(point.xy).filter((_, i) => i % 2 === 0),
  );
  const flare = Math.max(0, tub.legLength * Math.cos(tub.halfExtent));
  const rear = drawn.frame?.rear ?? Math.min(tub.centreForward - outside - flare, ...ends);
  const front = drawn.frame?.front ?? Math.max(tub.centreForward + outside + flare, ...ends);
  const scale = (width - LEFT - RIGHT - 2 * SKIN) / (front - rear);
  const axleY = TOP + SKIN + scale * (drawn.frame?.top ?? topHeight - axleHeight);
  return {
    width,
    view: viewAt(scale, LEFT + SKIN - scale * rear, axleY),
    crownY: axleY - scale * (topHeight - axleHeight),
    trackY: axleY + scale * axleHeight,
    atRest: { ahead: tub.centreForward, above: topHeight - axleHeight - tub.radius },
  };
}

/** A tub where its arc's centre stands: the inside by a hair line, the skin outside of it. */
export function tubShape(
  view: View,
  { tub, liner }: StandingPicture,
  ahead: number,
  above: number,
  part: string,
): Markup {
  const skin = liner + (0.5 * SKIN) / view.scale;
  return markup`<path d="${tubPath(view, tub, ahead, above, skin)}" ${stroke({ width: SKIN })}/>
<path d="${tubPath(view, tub, ahead, above, 0)}" ${stroke({ width: 0.5, part })}/>`;
}

/** The track with which end of the car is where, and the scale. */
export function trackAndScale({ width, trackY, view }: Layout, bar: StandingPicture['bar']): Markup {
  const y = trackY + 16;
  const end = width - RIGHT;
  const start = end - view.scale * bar.length;
  return markup`${[
    straight(LEFT - 26, trackY, end, trackY, { width: 1.4, part: 'track' }),
    label(LEFT - 26, y, 'rear', { ink: SOFT_INK }),
    label(LEFT + 78, y, 'front', { anchor: 'end', ink: SOFT_INK }),
    straight(LEFT + 84, y - 4, LEFT + 104, y - 4, { ink: SOFT_INK }),
    arrowHead([LEFT + 84, y - 4], [LEFT + 106, y - 4], SOFT_INK),
    straight(start, y - 4, end, y - 4, { width: 2, part: 'scale bar' }),
    label(start - 5, y, bar.text, { anchor: 'end', ink: SOFT_INK }),
  ]}`;
}

/** Box about a hard point in the drawing. */
function hardPointBox(view: View, point: HardPoint): Box {
  const [xs, zs] =
    point.shape === 'circle'
      ? [
          [point.ahead - point.radius, point.ahead + point.radius],
          [point.above - point.radius, point.above + point.radius],
        ]
      : [
          Array.from(point.xy).filter((_, i) => i % 2 === 0),
          Array.from(point.xy).filter((_, i) => i % 2 === 1),
        ];
  return {
    left: view.x(Math.min(...xs)),
    right: view.x(Math.max(...xs)),
    top: view.y(Math.max(...zs)),
    bottom: view.y(Math.min(...zs)),
  };
}

/** The same where the body has brought the point, m. */
function movedBox(view: View, point: HardPoint, { back, down }: { back: number; down: number }): Box {
  const { left, right, top, bottom } = hardPointBox(view, point);
  const [x, y] = [view.scale * back, view.scale * down];
  return { left: left - x, right: right - x, top: top + y, bottom: bottom + y };
}

/** Hard points, as far back and down as the body has brought them, m. */
export const hardPointShapes = (
  view: View,
  hardPoints: StandingPicture['hardPoints'],
  back: number,
  down: number,
): Markup =>
  markup`${hardPoints.map(
    ({ point }) =>
      markup`<path d="${hardPointPath(view, point, back, down)}" fill="${GRID_INK}" stroke="${INK}" data-part="hard point"/>`,
  )}`;

const SKIN_PIECES = 24;

/** A tub's arc as straight pieces, for names to keep clear of. */
function skinLines(view: View, { tub }: StandingPicture, centre: Layout['atRest']): [Point, Point][] {
  const at = (k: number): Point => {
    const angle = tub.halfExtent * ((2 * k) / SKIN_PIECES - 1);
    const [x, z] = [tub.radius * Math.sin(angle), tub.radius * Math.cos(angle)];
    return [view.x(centre.ahead + x), view.y(centre.above + z)];
  };
  return Array.from({ length: SKIN_PIECES }, (_, k) => [at(k), at(k + 1)]);
}

/**
 * The hard points' names, clear of the tub's skin, of the lines to the gaps, of what the gaps say and of one another.
 * @param moved  how far back and down the same points are drawn once more, m
 */
export function hardPointNames(
  { width, view, atRest }: Layout,
  drawn: StandingPicture,
  callouts: readonly Callout[],
  moved?: { back: number; down: number },
): Markup {
  const lines = callouts.map(({ x, y, point }) => [[x, y], point] as const);
  const skin = skinLines(view, drawn, atRest);
  const boxes: Box[] = [
    ...callouts.flatMap(calloutBoxes),
    ...drawn.hardPoints.map(({ point }) => hardPointBox(view, point)),
    ...(moved === undefined ? [] : drawn.hardPoints.map(({ point }) => movedBox(view, point, moved))),
  ];
  return markup`${drawn.hardPoints.map(({ name, point }) => {
    const own = hardPointBox(view, point);
    const texts = wrapped(name, 12);
    const taken = { lines, boxes, skin, left: 0, right: width, top: 0 };
    const { x, y, anchor } = clearPlace(own, texts, LETTERS, taken, own.right < view.x(0));
    boxes.push(textBox({ x, y, anchor }, texts, LETTERS));
    return labels(x, y, texts, { anchor, halo: true });
  })}`;
}

/** Room between the middles of what two gaps say. */
const COLUMN = 76;

/** A gap with the tyre's point that it is measured from. */
export type GapCallout = Callout & { tyre: Point; main: boolean };

/**
 * Where the gaps' lines run and what stands at them: from the tyre's point at each hub angle the shortest way to the tub.
 * @param radii  of the tyre at the angles, m
 * @param centre  of the tub's arc from the axle, m
 */
export function gapCallouts(
  { width, view, crownY }: Layout,
  { angles, tub }: StandingPicture,
  gaps: readonly GapShown[],
  radii: readonly number[],
  centre: { ahead: number; above: number },
): GapCallout[] {
  const behind = gaps.filter(({ angle }) => angle < -1e-6).length;
  const before = behind === 0 ? 0.5 : behind;
  return gaps.flatMap(({ angle, texts, main = false }, i) => {
    const nearest = angles.findIndex((own) => Math.abs(own - angle) < 1e-6);
    const radius = radii[nearest];
    if (radius === undefined) return [];
    const [x, z] = [radius * Math.sin(angle), radius * Math.cos(angle)];
    const foot = footOnTub(tub, centre, x, z);
    const half = 0.5 * COLUMN;
    return [
      {
        tyre: [view.x(x), view.y(z)] as const,
        x: Math.min(width - half, Math.max(half, view.x(0) + (i - before) * COLUMN)),
        y: crownY - 16,
        point: [view.x(foot.x), view.y(foot.z)] as const,
        texts,
        main,
      },
    ];
  });
}

/** The hub's rays to the tyre's points, the gaps from there to the tub, and what they are. */
export const gapShapes = ({ view }: Layout, callouts: readonly GapCallout[]): Markup =>
  markup`${callouts.flatMap((one) => [
    straight(view.x(0), view.y(0), one.tyre[0], one.tyre[1], {
      ...(one.main ? { width: 1.3 } : { ink: SOFT_INK, width: 0.6 }),
      dashes: '9 2 2 2',
      part: 'hub ray',
    }),
    doubleArrow(one.tyre, one.point, 'gap'),
    callout(one),
  ])}`;

export const axleCross = ({ view }: Layout): Markup => {
  const [x, y] = [view.x(0), view.y(0)];
  return markup`${[
    straight(x - 9, y, x + 9, y),
    straight(x, y - 9, x, y + 9),
    markup`<circle cx="${x}" cy="${y}" r="3.5" fill="none" stroke="${INK}"/>`,
  ]}`;
};

export function centreCross(view: View, ahead: number, above: number): Markup {
  const [x, y] = [view.x(ahead), view.y(above)];
  return markup`${[
    straight(x - 5, y - 5, x + 5, y + 5, { ink: SOFT_INK }),
    straight(x - 5, y + 5, x + 5, y - 5, { ink: SOFT_INK }),
  ]}`;
}

/** How far from the axle, to either side, the heights of axle and centre are dimensioned: inside the tyre. */
const INSIDE = 78;

/** Heights of top, axle and arc's centre above the track, and how far the centre stands from the axle. */
export function placeDimensions({ view, crownY, trackY, atRest }: Layout, drawn: StandingPicture): Markup {
  const [x, cx] = [view.x(0), view.x(atRest.ahead)];
  const [y, cy] = [view.y(0), view.y(atRest.above)];
  return markup`${[
    uprightDimension(LEFT - 20, crownY, trackY, [cx, LEFT - 26], drawn.topTexts, 'top height'),
    uprightDimension(x + INSIDE, y, trackY, [x + 12, x + INSIDE], drawn.axleTexts, 'axle height'),
    uprightDimension(x - INSIDE, cy, trackY, [cx - 8, x - INSIDE], drawn.centreTexts, 'centre height'),
    levelDimension(x, cx, Math.max(y, cy) + 20, [y + 10, cy + 7], drawn.offsetText, 'offset'),
  ]}`;
}
