import { doubleArrow } from './dimension.ts';
import { INK, PAPER, RUST } from './ink.ts';
import { type Markup, markup } from './markup.ts';
import { stroke } from './picture.ts';
import { footOnTub, outlinePath, radiusBetween, type View, viewAt } from './shapes.ts';
import { SKIN, type StandingPicture } from './side-parts.ts';
import { tubPath } from './tub-path.ts';

/** A run at the moment that leaves it least, from the axle; lengths in m, angle in rad. */
export interface RunPlaceShown {
  /** Outline at the angles of the standing one. */
  radii: readonly number[];
  /** Centre of the tub's arc. */
  ahead: number;
  above: number;
  tightAngle: number;
  /** Gap to be kept. */
  reserve: number;
}

/** A pattern of slanted lines: what is hatched has to stay free. */
export const hatching = (id: string): Markup =>
  markup`<pattern id="${id}" width="4" height="4" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><path d="M0,0V4" stroke="${INK}" stroke-width="1.3"/></pattern>`;

/** The reserve along the inside of a tub, hatched. */
export const reserveBand = (
  view: View,
  { tub }: Pick<StandingPicture, 'tub'>,
  { ahead, above, reserve }: RunPlaceShown,
  id: string,
): Markup =>
  markup`<path d="${tubPath(view, tub, ahead, above, 0)}Z${tubPath(view, tub, ahead, above, -reserve)}Z" fill="url(#${id})" fill-rule="evenodd" data-part="reserve"/>`;

/** How much larger a detail is drawn than its panel. */
export const TIMES = 6;

/**
 * The tightest place of a run, enlarged, in a circle: outline, tub, the hatched reserve between them and the gap as a
 * dimension line.
 * @param middle  of the circle in the drawing
 * @param size  its radius
 */
export function detail(
  view: View,
  drawn: Pick<StandingPicture, 'tub' | 'angles' | 'liner'>,
  run: RunPlaceShown,
  middle: readonly [x: number, y: number],
  size: number,
  id: string,
): Markup {
  const radius = radiusBetween(drawn.angles, run.radii, run.tightAngle);
  const [x, z] = [radius * Math.sin(run.tightAngle), radius * Math.cos(run.tightAngle)];
  const foot = footOnTub(drawn.tub, run, x, z);
  const scale = TIMES * view.scale;
  // The middle of the gap stands in the middle of the circle.
  const large = viewAt(scale, middle[0] - 0.5 * scale * (x + foot.x), middle[1] + 0.5 * scale * (z + foot.z));
  const skin = drawn.liner + (0.5 * SKIN) / view.scale;
  return markup`<clipPath id="${id}-clip"><circle cx="${middle[0]}" cy="${middle[1]}" r="${size}"/></clipPath>
<circle cx="${middle[0]}" cy="${middle[1]}" r="${size}" fill="${PAPER}"/>
<g clip-path="url(#${id}-clip)">${reserveBand(large, drawn, run, `${id}-hatch`)}
<path d="${tubPath(large, drawn.tub, run.ahead, run.above, skin)}" ${stroke({ width: SKIN * TIMES })}/>
<path d="${tubPath(large, drawn.tub, run.ahead, run.above, 0)}" ${stroke({ width: 0.5, part: 'tub enlarged' })}/>
<path d="${outlinePath(large, drawn.angles, run.radii)}" ${stroke({ ink: RUST, width: 2.4, part: 'run enlarged' })}/>
${doubleArrow([large.x(x), large.y(z)], [large.x(foot.x), large.y(foot.z)], 'gap enlarged')}</g>
<circle cx="${middle[0]}" cy="${middle[1]}" r="${size}" ${stroke({ ink: RUST, width: 1.2 })}/>`;
}
