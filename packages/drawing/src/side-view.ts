import type { HardPoint, Tub } from '@tubgap/core';
import { type Box, clearPlace, textBox } from './clear-place.ts';
import { CLOUD, cloudPath } from './cloud.ts';
import {
  arrowHead,
  type Callout,
  callout,
  calloutBoxes,
  doubleArrow,
  uprightDimension,
} from './dimension.ts';
import { BLUE, GRID_INK, INK, PALE, RUST, SOFT_INK } from './ink.ts';
import { type LegendRow, legend, legendHeight } from './legend.ts';
import { type Markup, markup } from './markup.ts';
import { label, labels, type PictureWords, picture, straight, stroke } from './picture.ts';
import {
  footOnTub,
  hardPointPath,
  outlinePath,
  type Point,
  polar,
  standingPath,
  type View,
  viewAt,
} from './shapes.ts';
import { tubPath } from './tub-path.ts';

/** A tyre in a run, and the tub as it stands over the axle at that moment. */
export interface RunShown {
  radii: readonly number[];
  label: string;
}

/** What the rare run does to the body: where it brings the tub, and the hard points with it. Lengths in m. */
export interface Dropped {
  /** Centre of the tub's arc from the axle. */
  ahead: number;
  above: number;
  /** How far body and hard points came back and down, seen from the axle. */
  back: number;
  down: number;
  label: string;
  /** Hub angle of the tightest point, rad, and what to write there. */
  tightAngle: number;
  tightTexts: readonly string[];
}

/** Everything of a tub with its tyre from the right side, front of the car to the right. Lengths in m, angles in rad. */
export interface SideView {
  words: PictureWords;
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
  standingLabel: string;
  /** Gaps to see, each with its heading and figures. */
  gaps: readonly { angle: number; texts: readonly string[] }[];
  topHeightText: string;
  axleHeightText: string;
  centreTexts: readonly string[];
  /** A middling run and a rare one; none when they are not known. */
  middling?: RunShown;
  rare?: RunShown;
  dropped?: Dropped;
  hardPoints: readonly { name: string; point: HardPoint }[];
  /** Length of the scale bar and its text. */
  bar: { length: number; text: string };
  /** Outlines of single runs, faint, under everything: how far they scatter. */
  cloud?: { runs: readonly (readonly number[])[]; label: string };
  /** Keeps scale and place of the axle while the tub moves: what must fit, from the axle, m. Left out: all that is drawn. */
  frame?: { rear: number; front: number; top: number };
}

const WIDTH = 400;
const SIDE = 36;
const TOP = 62;
const SKIN = 1.8;
const COLUMN = 66;

interface Layout {
  view: View;
  crownY: number;
  trackY: number;
  atRest: { ahead: number; above: number };
}

function layout(drawn: SideView): Layout {
  const { tub, topHeight, axleHeight } = drawn;
  const outside = tub.radius + drawn.liner;
  const ends = drawn.hardPoints.flatMap(({ point }) =>
    point.shape === 'circle'
      ? [point.ahead - point.radius, point.ahead + point.radius]
      : Array.from(point.xy).filter((_, i) => i % 2 === 0),
  );
  const flare = Math.max(0, tub.legLength * Math.cos(tub.halfExtent));
  const rear = drawn.frame?.rear ?? Math.min(tub.centreForward - outside - flare, ...ends);
  const front = drawn.frame?.front ?? Math.max(tub.centreForward + outside + flare, ...ends);
  const scale = (WIDTH - 2 * SIDE - 2 * SKIN) / (front - rear);
  const axleY = TOP + SKIN + scale * (drawn.frame?.top ?? topHeight - axleHeight);
  const crownY = axleY - scale * (topHeight - axleHeight);
  return {
    view: viewAt(scale, SIDE + SKIN - scale * rear, axleY),
    crownY,
    trackY: axleY + scale * axleHeight,
    atRest: { ahead: tub.centreForward, above: topHeight - axleHeight - tub.radius },
  };
}

function tubAtRest({ view, atRest }: Layout, { tub, liner }: SideView): Markup {
  const { ahead, above } = atRest;
  const skin = liner + (0.5 * SKIN) / view.scale;
  return markup`<path d="${tubPath(view, tub, ahead, above, skin)}" ${stroke({ width: SKIN })}/>
<path d="${tubPath(view, tub, ahead, above, 0)}" ${stroke({ width: 0.5, part: 'tub' })}/>`;
}

function rearAndFront({ trackY }: Layout, bar: SideView['bar'], scale: number): Markup {
  const y = trackY + 15;
  const start = WIDTH - SIDE - scale * bar.length;
  return markup`${[
    straight(SIDE - 14, trackY, WIDTH - SIDE + 14, trackY, { width: 1.4, part: 'track' }),
    label(SIDE - 14, y, 'rear', { ink: SOFT_INK, size: 10 }),
    label(SIDE + 112, y, 'front of the car', { anchor: 'end', ink: SOFT_INK, size: 10 }),
    straight(SIDE + 117, y - 3.5, SIDE + 134, y - 3.5, { ink: SOFT_INK }),
    arrowHead([SIDE + 117, y - 3.5], [SIDE + 138, y - 3.5], SOFT_INK),
    straight(start, y - 4, WIDTH - SIDE, y - 4, { width: 2, part: 'scale bar' }),
    label(start - 5, y, bar.text, { anchor: 'end', ink: SOFT_INK, size: 10 }),
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

function hardPointShapes({ view }: Layout, { hardPoints, dropped }: SideView): Markup {
  return markup`${hardPoints.map(
    ({ point }) =>
      markup`<path d="${hardPointPath(view, point, 0, 0)}" fill="${GRID_INK}" stroke="${INK}" data-part="hard point"/>${
        dropped !== undefined &&
        markup`<path d="${hardPointPath(view, point, dropped.back, dropped.down)}" ${stroke({ dashes: '3 2', width: 0.7 })}/>`
      }`,
  )}`;
}

/** The hard points' names, clear of the lines to the gaps, of what the gaps say and of one another. */
function hardPointNames({ view }: Layout, { hardPoints }: SideView, callouts: readonly Callout[]): Markup {
  const lines = callouts.map(({ x, y, point }) => [[x, y], point] as const);
  const boxes: Box[] = [
    ...callouts.flatMap(calloutBoxes),
    ...hardPoints.map(({ point }) => hardPointBox(view, point)),
  ];
  return markup`${hardPoints.map(({ name, point }) => {
    const own = hardPointBox(view, point);
    const taken = { lines, boxes, left: 0, right: WIDTH, top: 0 };
    const { x, y, anchor } = clearPlace(own, name, NAME_SIZE, taken, own.right < view.x(0));
    boxes.push(textBox({ x, y, anchor }, name, NAME_SIZE));
    return label(x, y, name, { anchor, size: NAME_SIZE, halo: true });
  })}`;
}

const NAME_SIZE = 10;

/** Where the gaps' lines run and what stands at them. */
function gapCallouts({ view, atRest, crownY }: Layout, drawn: SideView): (Callout & { tyre: Point })[] {
  return drawn.gaps.flatMap(({ angle, texts }, i) => {
    const nearest = drawn.angles.findIndex((own) => Math.abs(own - angle) < 1e-6);
    const radius = drawn.standing[nearest];
    if (radius === undefined) return [];
    const x = radius * Math.sin(angle);
    const z = radius * Math.cos(angle);
    const foot = footOnTub(drawn.tub, atRest, x, z);
    return [
      {
        tyre: [view.x(x), view.y(z)],
        x: view.x(0) + i * COLUMN,
        y: crownY - 16,
        point: [view.x(foot.x), view.y(foot.z)],
        texts,
      },
    ];
  });
}

function tightSpot({ view }: Layout, { rare, dropped, angles }: SideView): Markup | undefined {
  if (rare === undefined || dropped === undefined) return undefined;
  const { tightAngle, tightTexts } = dropped;
  const after = Math.max(
    1,
    angles.findIndex((angle) => angle >= tightAngle),
  );
  const share = (tightAngle - angles[after - 1]!) / (angles[after]! - angles[after - 1]!);
  const radius = rare.radii[after - 1]! + share * (rare.radii[after]! - rare.radii[after - 1]!);
  const [x, y] = polar(view, radius, tightAngle);
  const [nearX, nearY] = polar(view, 0.66 * radius, tightAngle);
  return markup`${[
    markup`<circle cx="${x}" cy="${y}" r="7" ${stroke({ ink: RUST, width: 1.6 })}/>`,
    straight(nearX, nearY - 2, x + (nearX - x) * 0.2, y + (nearY - y) * 0.2, { ink: RUST, width: 0.7 }),
    labels(nearX, nearY + 10, tightTexts, { anchor: 'middle', ink: RUST, halo: true }),
  ]}`;
}

function axleAndCentre({ view, atRest }: Layout, texts: readonly string[]): Markup {
  const x = view.x(0);
  const y = view.y(0);
  const cx = view.x(atRest.ahead);
  const cy = view.y(atRest.above);
  return markup`${[
    straight(x - 9, y, x + 9, y),
    straight(x, y - 9, x, y + 9),
    markup`<circle cx="${x}" cy="${y}" r="3.5" fill="none" stroke="${INK}"/>`,
    straight(cx - 5, cy - 5, cx + 5, cy + 5, { ink: SOFT_INK }),
    straight(cx - 5, cy + 5, cx + 5, cy - 5, { ink: SOFT_INK }),
    labels(x, Math.max(y, cy) + 25, texts, { anchor: 'middle', size: 10, halo: true }, 12),
  ]}`;
}

/** None where only tub and standing tyre are drawn: the tyre then carries its name. */
function legendRows(drawn: SideView): LegendRow[] {
  if (isBare(drawn)) return [];
  return [
    { style: { width: SKIN }, text: 'tub, car standing' },
    { style: { width: 7, ink: GRID_INK }, text: drawn.standingLabel },
    ...(drawn.cloud ? [{ style: { ...CLOUD, width: 5 }, text: drawn.cloud.label }] : []),
    ...(drawn.middling ? [{ style: MIDDLING, text: drawn.middling.label }] : []),
    ...(drawn.rare ? [{ style: RARE, text: drawn.rare.label }] : []),
    ...(drawn.dropped ? [{ style: DROPPED, text: drawn.dropped.label }] : []),
  ];
}

const isBare = ({ cloud, middling, rare, dropped }: SideView): boolean =>
  [cloud, middling, rare, dropped].every((part) => part === undefined);

const MIDDLING = { ink: BLUE, width: 1.3, dashes: '6 3', part: 'middling run' };
const RARE = { ink: RUST, width: 2, part: 'rare run' };
const DROPPED = { width: 1.1, dashes: '4 2.5', part: 'tub in the rare run' };

/** The shapes of a side view with their size, for a picture of its own or as part of another. */
export interface SideShapes {
  width: number;
  height: number;
  body: Markup;
  facts: Readonly<Record<`data-${string}`, number>>;
}

/** Shapes of the side view, drawn to scale: tub, tyre at rest and at speed, the tub where the body's drop brings it. */
export function sideShapes(drawn: SideView): SideShapes {
  const place = layout(drawn);
  const { view, trackY, crownY } = place;
  const { angles, middling, rare, dropped } = drawn;
  const callouts = gapCallouts(place, drawn);
  const rows = legendRows(drawn);
  const height = trackY + (rows.length > 0 ? 40 : 22) + legendHeight(rows);
  const outline = (run: RunShown | undefined, style: typeof RARE): Markup | false =>
    run !== undefined && markup`<path d="${outlinePath(view, angles, run.radii)}" ${stroke(style)}/>`;
  const body = markup`<path d="${standingPath(view, angles, drawn.standing, drawn.axleHeight)}" fill="${PALE}" stroke="${SOFT_INK}" data-part="standing tyre"/>
${drawn.cloud !== undefined && cloudPath(view, angles, drawn.cloud.runs)}
${rearAndFront(place, drawn.bar, view.scale)}
${hardPointShapes(place, drawn)}
${
  dropped !== undefined &&
  markup`<path d="${tubPath(view, drawn.tub, dropped.ahead, dropped.above, 0)}" ${stroke(DROPPED)}/>`
}
${tubAtRest(place, drawn)}
${outline(middling, MIDDLING)}
${outline(rare, RARE)}
${hardPointNames(place, drawn, callouts)}
${callouts.flatMap((one) => [doubleArrow(one.tyre, one.point, 'gap'), callout(one)])}
${axleAndCentre(place, isBare(drawn) ? [...drawn.centreTexts, drawn.standingLabel] : drawn.centreTexts)}
${tightSpot(place, drawn)}
${uprightDimension(18, crownY, trackY, [view.x(place.atRest.ahead), SIDE - 14], drawn.topHeightText, 'top height')}
${uprightDimension(WIDTH - 18, view.y(0), trackY, [view.x(0) + 12, WIDTH - SIDE + 14], drawn.axleHeightText, 'axle height')}
${legend(SIDE - 14, trackY + 44, rows)}`;
  return {
    width: WIDTH,
    height,
    body,
    facts: {
      'data-units-per-metre': view.scale,
      'data-axle-x': view.x(0),
      'data-axle-y': view.y(0),
    },
  };
}

/** Side view as a picture of its own, with what to measure. */
export function sideView(drawn: SideView): string {
  const { width, height, body, facts } = sideShapes(drawn);
  return picture(drawn.words, width, height, body, facts);
}
