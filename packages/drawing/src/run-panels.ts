import { detail, hatching, type RunPlaceShown, reserveBand, TIMES } from './detail.ts';
import { doubleArrow } from './dimension.ts';
import { INK, PALE, RUST, SOFT_INK } from './ink.ts';
import { type Markup, markup } from './markup.ts';
import { label, labels, type PictureWords, picture, straight, stroke, WIDTH, wrapped } from './picture.ts';
import { outlinePath, polar, radiusBetween } from './shapes.ts';
import {
  axleCross,
  centreCross,
  type GapShown,
  gapCallouts,
  gapShapes,
  hardPointNames,
  hardPointShapes,
  layoutOf,
  placeDimensions,
  type StandingPicture,
  trackAndScale,
  tubShape,
} from './side-parts.ts';
import { factsOf, type SideShapes, standingName, standingShape } from './side-view.ts';
import { tubPath } from './tub-path.ts';

/** A tub standing, and under it the same tub in a run, at the same scale. Lengths in m, angles in rad. */
export interface RunPanels extends StandingPicture {
  words: PictureWords;
  standingTitle: string;
  standingLabel: string;
  run: RunPlaceShown & {
    title: string;
    /** How far hard points came back and down with the body. */
    back: number;
    down: number;
    downText: string;
    /** The gap in the run along one of the rays that the standing tub shows. */
    gap: GapShown;
    /** What the detail says, in its circle's legend. */
    tightTexts: readonly string[];
    reserveText: string;
    runLabel: string;
  };
}

const LEADING = 17;
const TITLE = 14;
const GAP = 12;
/** Of the enlarged circle. */
const DETAIL = 50;

const titled = (texts: readonly string[]): Markup =>
  labels(8, 18, texts, { bold: true, size: TITLE }, LEADING);

const titleHeight = (texts: readonly string[]): number => 8 + LEADING * texts.length;

const titleLines = (title: string): string[] => wrapped(title, 42);

/** The run: the tub where the body has brought it, the outline in it, the reserve between them, and where it is tightest. */
function runPanel(drawn: RunPanels): Markup {
  const { run, angles, words } = drawn;
  const place = layoutOf(drawn);
  const { view, atRest } = place;
  const hatch = `${words.id}-hatch`;
  // At the place where the standing tub has it.
  const gaps = drawn.gaps.map((own) => (own.angle === run.gap.angle ? run.gap : own));
  const callout = gapCallouts(place, drawn, gaps, run.radii, run).find(({ main }) => main);
  const radius = radiusBetween(angles, run.radii, run.tightAngle);
  const [tightX, tightY] = polar(view, radius, run.tightAngle);
  const side = run.tightAngle < 0 ? 1 : -1;
  const middle = [view.x(0) + side * 30, view.y(0) - 16] as const;
  const away = Math.hypot(tightX - middle[0], tightY - middle[1]);
  const [ux, uy] = [(tightX - middle[0]) / away, (tightY - middle[1]) / away];
  const ring = (1.15 * DETAIL) / TIMES;
  const crown = view.y(run.above + drawn.tub.radius);
  const downX = view.x(run.ahead) - 24;
  return markup`<defs>${hatching(hatch)}</defs>
<path d="${outlinePath(view, angles, run.radii)}Z" fill="${PALE}"/>
${hardPointShapes(view, drawn.hardPoints, run.back, run.down)}
<path d="${tubPath(view, drawn.tub, atRest.ahead, atRest.above, 0)}" ${stroke({ ink: SOFT_INK, width: 0.8, dashes: '4 3', part: 'tub standing' })}/>
${reserveBand(view, drawn, run, hatch)}
${tubShape(view, drawn, run.ahead, run.above, 'tub in the run')}
<path d="${outlinePath(view, angles, run.radii)}" ${stroke({ ink: RUST, width: 2, part: 'run' })}/>
${callout !== undefined && gapShapes(place, [callout])}
${axleCross(place)}
${centreCross(view, run.ahead, run.above)}
${[
  doubleArrow([downX, place.crownY], [downX, crown], 'body down'),
  label(downX - 8, place.crownY - 8, run.downText, { anchor: 'end', halo: true }),
  straight(middle[0] + ux * DETAIL, middle[1] + uy * DETAIL, tightX - ux * ring, tightY - uy * ring, {
    ink: RUST,
    width: 1.2,
  }),
]}
<circle cx="${tightX}" cy="${tightY}" r="${ring}" ${stroke({ ink: RUST, width: 1.4, part: 'tight' })}/>
${detail(view, drawn, run, middle, DETAIL, words.id)}
${labels(view.x(0), middle[1] + DETAIL + 16, run.tightTexts, { anchor: 'middle', bold: true, ink: RUST })}
${label(view.x(0), middle[1] + DETAIL + 31, `${TIMES} : 1`, { anchor: 'middle', ink: SOFT_INK })}`;
}

/** What the run's panel means by its lines, under it. */
function runKey(drawn: RunPanels, y: number): Markup {
  const { run, words } = drawn;
  return markup`<rect x="14" y="${y - 10}" width="26" height="11" fill="url(#${words.id}-hatch)" stroke="${INK}" stroke-width="0.6"/>
${[
  label(48, y, run.reserveText),
  straight(14, y + 12, 40, y + 12, { ink: RUST, width: 2 }),
  label(48, y + 16, run.runLabel),
  straight(14, y + 28, 40, y + 28, { ink: SOFT_INK, width: 0.8, dashes: '4 3' }),
  label(48, y + 32, 'tub, car standing'),
]}`;
}

/** Shapes of the two panels with their size, for a picture of its own or as part of another. */
export function panelShapes(drawn: RunPanels): SideShapes {
  const place = layoutOf(drawn);
  const { view, trackY, atRest } = place;
  const { run, angles } = drawn;
  const callouts = gapCallouts(place, drawn, drawn.gaps, drawn.standing, atRest);
  const first = titleLines(drawn.standingTitle);
  const second = titleLines(run.title);
  const top = titleHeight(first);
  const next = top + trackY + 30 + GAP;
  const lower = next + titleHeight(second);
  // Below its last angles nothing is known of the outline: the panel ends there.
  const ends = angles.map((angle, k) => polar(view, run.radii[k]!, angle)[1]);
  const bottom = lower + Math.max(...ends) + 26;
  const body = markup`${titled(first)}<g transform="translate(0 ${top})">
${standingShape(place, drawn)}
${trackAndScale(place, drawn.bar)}
${hardPointShapes(view, drawn.hardPoints, 0, 0)}
${tubShape(view, drawn, atRest.ahead, atRest.above, 'tub')}
${hardPointNames(place, drawn, callouts)}
${gapShapes(place, callouts)}
${axleCross(place)}
${centreCross(view, atRest.ahead, atRest.above)}
${placeDimensions(place, drawn)}
${standingName(place, drawn.standingLabel)}
</g>
${straight(8, next - 2, WIDTH - 8, next - 2, { ink: SOFT_INK, width: 0.6 })}
<g transform="translate(0 ${next})">${titled(second)}</g>
<g transform="translate(0 ${lower})">${runPanel(drawn)}</g>
${runKey(drawn, bottom)}`;
  return {
    width: WIDTH,
    height: bottom + 42,
    body,
    facts: { ...factsOf(place), 'data-standing-top': top, 'data-run-top': lower },
  };
}

/**
 * Two panels to scale: the tub standing, with what to measure, and the run that the accepted risk allows in it, with
 * what is left and how much of that is the reserve.
 */
export function runPanels(drawn: RunPanels): string {
  const { width, height, body, facts } = panelShapes(drawn);
  return picture(drawn.words, width, height, body, facts);
}
