import { CLOUD, cloudPath } from './cloud.ts';
import { BLUE, GRID_INK, PALE, RUST } from './ink.ts';
import { type LegendRow, legend, legendHeight } from './legend.ts';
import { type Markup, markup } from './markup.ts';
import { labels, type PictureWords, picture, straight, stroke, wrapped } from './picture.ts';
import { hardPointPath, outlinePath, polar, radiusBetween, standingPath } from './shapes.ts';
import {
  axleCross,
  centreCross,
  gapCallouts,
  gapShapes,
  hardPointNames,
  hardPointShapes,
  type Layout,
  layoutOf,
  placeDimensions,
  SKIN,
  type StandingPicture,
  trackAndScale,
  tubShape,
} from './side-parts.ts';
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

/** The standing tyre in its tub with, over it, what runs do. */
export interface SideView extends StandingPicture {
  words: PictureWords;
  standingLabel: string;
  /** A run over the standing tyre; none when it is not known. */
  rare?: RunShown;
  dropped?: Dropped;
  /** Outlines of single runs, faint, under everything: how far they scatter. */
  cloud?: { runs: readonly (readonly number[])[]; label: string };
}

/** The tub and the hard points where the run's drop brings them. */
function droppedShapes({ view }: Layout, { tub, hardPoints, dropped }: SideView): Markup | undefined {
  if (dropped === undefined) return undefined;
  return markup`${hardPoints.map(
    ({ point }) =>
      markup`<path d="${hardPointPath(view, point, dropped.back, dropped.down)}" ${stroke({ dashes: '3 2', width: 0.7 })}/>`,
  )}<path d="${tubPath(view, tub, dropped.ahead, dropped.above, 0)}" ${stroke(DROPPED)}/>`;
}

function tightSpot({ view }: Layout, { rare, dropped, angles }: SideView): Markup | undefined {
  if (rare === undefined || dropped === undefined) return undefined;
  const { tightAngle, tightTexts } = dropped;
  const radius = radiusBetween(angles, rare.radii, tightAngle);
  const [x, y] = polar(view, radius, tightAngle);
  const [nearX, nearY] = polar(view, 0.66 * radius, tightAngle);
  return markup`${[
    markup`<circle cx="${x}" cy="${y}" r="7" ${stroke({ ink: RUST, width: 1.6 })}/>`,
    straight(nearX, nearY - 2, x + (nearX - x) * 0.2, y + (nearY - y) * 0.2, { ink: RUST, width: 0.7 }),
    labels(nearX, nearY + 10, tightTexts, { anchor: 'middle', ink: RUST, halo: true }),
  ]}`;
}

/** None where only tub and standing tyre are drawn: the tyre then carries its name. */
function legendRows(drawn: SideView): LegendRow[] {
  if (isBare(drawn)) return [];
  return [
    { style: { width: SKIN }, text: 'tub, car standing' },
    { style: { width: 7, ink: GRID_INK }, text: drawn.standingLabel },
    ...(drawn.cloud ? [{ style: { ...CLOUD, width: 5 }, text: drawn.cloud.label }] : []),
    ...(drawn.rare ? [{ style: RARE, text: drawn.rare.label }] : []),
    ...(drawn.dropped ? [{ style: DROPPED, text: drawn.dropped.label }] : []),
  ];
}

const isBare = ({ cloud, rare, dropped }: SideView): boolean =>
  [cloud, rare, dropped].every((part) => part === undefined);

const RARE = { ink: RUST, width: 2, part: 'rare run' };
const DROPPED = { width: 1.1, dashes: '4 2.5', part: 'tub in the rare run' };

/** The standing tyre's body. */
export const standingShape = ({ view }: Layout, drawn: StandingPicture): Markup =>
  markup`<path d="${standingPath(view, drawn.angles, drawn.standing, drawn.axleHeight)}" fill="${PALE}" stroke="${BLUE}" stroke-width="1.3" data-part="standing tyre"/>`;

/** The standing tyre's name, inside it, behind the rays to the gaps. */
export const standingName = ({ view }: Layout, name: string): Markup =>
  labels(view.x(0) - 12, view.y(0) - 52, wrapped(name, 14), { anchor: 'end', ink: BLUE, halo: true });

/** What a drawing says of its own scale and place, for whoever reads it back. */
export const factsOf = ({ view }: Layout): Readonly<Record<`data-${string}`, number>> => ({
  'data-units-per-metre': view.scale,
  'data-axle-x': view.x(0),
  'data-axle-y': view.y(0),
});

/** The shapes of a side view with their size, for a picture of its own or as part of another. */
export interface SideShapes {
  width: number;
  height: number;
  body: Markup;
  facts: Readonly<Record<`data-${string}`, number>>;
}

/** Side view to scale: tub, tyre at rest and in a run, the tub where the body's drop brings it, with what to measure. */
export function sideShapes(drawn: SideView): SideShapes {
  const place = layoutOf(drawn);
  const { view, trackY, atRest } = place;
  const { angles, rare } = drawn;
  const callouts = gapCallouts(place, drawn, drawn.gaps, drawn.standing, atRest);
  const rows = legendRows(drawn);
  const height = trackY + (rows.length > 0 ? 42 : 24) + legendHeight(rows);
  const body = markup`${standingShape(place, drawn)}
${drawn.cloud !== undefined && cloudPath(view, angles, drawn.cloud.runs)}
${trackAndScale(place, drawn.bar)}
${hardPointShapes(view, drawn.hardPoints, 0, 0)}
${droppedShapes(place, drawn)}
${tubShape(view, drawn, atRest.ahead, atRest.above, 'tub')}
${rare !== undefined && markup`<path d="${outlinePath(view, angles, rare.radii)}" ${stroke(RARE)}/>`}
${hardPointNames(place, drawn, callouts, drawn.dropped)}
${gapShapes(place, callouts)}
${axleCross(place)}
${centreCross(view, atRest.ahead, atRest.above)}
${placeDimensions(place, drawn)}
${isBare(drawn) && standingName(place, drawn.standingLabel)}
${tightSpot(place, drawn)}
${legend(14, trackY + 46, rows)}`;
  return { width: place.width, height, body, facts: factsOf(place) };
}

/** Side view as a picture of its own. */
export function sideView(drawn: SideView): string {
  const { width, height, body, facts } = sideShapes(drawn);
  return picture(drawn.words, width, height, body, facts);
}
