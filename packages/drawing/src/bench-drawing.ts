import { arrowHead, doubleArrow, levelDimension, uprightDimension } from './dimension.ts';
import { type EndView, endView, endWidth } from './end-view.ts';
import { SOFT_INK } from './ink.ts';
import { type Markup, markup } from './markup.ts';
import { LEADING, label, labels, type PictureWords, picture, straight, stroke } from './picture.ts';
import { hardPointPath, standingPath, type View, viewAt } from './shapes.ts';
import type { StandingPicture } from './side-parts.ts';
import { tubPath } from './tub-path.ts';

/** A tub as a bench drawing: from the side and from behind, first angle, at one scale. Lengths in m, angles in rad. */
export interface BenchDrawing {
  words: PictureWords;
  side: Pick<StandingPicture, 'tub' | 'liner' | 'topHeight' | 'axleHeight' | 'angles' | 'standing'>;
  standingLabel: string;
  end: EndView;
  topTexts: readonly string[];
  axleTexts: readonly string[];
  centreTexts: readonly string[];
  offsetText: string;
  radiusText: string;
  /** Along a leg; left out where the tub has none. */
  legText?: string;
  legEndTexts: readonly string[];
  hardPoints: readonly { point: Parameters<typeof hardPointPath>[1]; texts: readonly string[] }[];
  notches: readonly { angle: number; depth: number; texts: readonly string[] }[];
  /** The rows of the title block: what, and its value. */
  block: readonly { name: string; text: string }[];
}

/**
 * Units a millimetre of paper: the least letters are 12 units, so that their capitals are 2.5 mm high in print (type of
 * ISO 3098; capitals of 0.716 of the size as in the sheet's usual letters, from memory). The picture is 195 mm wide.
 */
export const UNITS_PER_MM = 12 / 3.55;
export const SHEET_WIDTH = 195 * UNITS_PER_MM;
/** Wide and narrow lines, 0.7 and 0.35 mm: 2 to 1 as ISO 128 has it (from memory). */
export const WIDE = 0.7 * UNITS_PER_MM;
export const NARROW = 0.3 * UNITS_PER_MM;

/** Inches of a foot first, then the preferred reductions of ISO 5455 (from memory). */
const SCALES = [10, 12, 15, 20, 50];
const LEFT = 56;
const BETWEEN = 118;
/** Over the crown: room for what stands over the end view, and for a hard point's two lines. */
const TOP = 64;
const POINT_ROW = 34;
const BLOCK_ROW = 17;

/** The largest scale of the list at which both views stand side by side. */
function scaleOf({ side, end }: BenchDrawing): number {
  const across = 2 * (side.tub.radius + side.liner) + endWidth(end);
  const room = SHEET_WIDTH - LEFT - BETWEEN - 24;
  return SCALES.find((scale) => (across * 1000 * UNITS_PER_MM) / scale <= room) ?? SCALES.at(-1)!;
}

const centreLine = (x1: number, y1: number, x2: number, y2: number): Markup =>
  straight(x1, y1, x2, y2, { width: NARROW, dashes: '14 3 3 3', ink: SOFT_INK });

/** Text at the end of a thin line that points at something. */
const pointed = (
  from: readonly [number, number],
  at: readonly [number, number],
  texts: readonly string[],
  anchor: 'start' | 'middle' | 'end' = 'start',
): Markup =>
  markup`${[
    straight(from[0], from[1], at[0], at[1], { width: NARROW }),
    arrowHead(from, at),
    labels(from[0] + (anchor === 'start' ? 3 : anchor === 'end' ? -3 : 0), from[1] + 4, texts, {
      anchor,
      halo: true,
    }),
  ]}`;

type HardPointDrawn = BenchDrawing['hardPoints'][number]['point'];

const aheadOf = (point: HardPointDrawn): number => (point.shape === 'circle' ? point.ahead : point.xy[0]!);

/** Hard points with their names over the tub, those behind the axle on the left, one under another. */
function hardPointsDrawn(view: View, drawn: BenchDrawing, right: number): Markup {
  const rows = { rear: 0, front: 0 };
  return markup`${drawn.hardPoints.map(({ point, texts }) => {
    const [ahead, above] =
      point.shape === 'circle' ? [point.ahead, point.above + point.radius] : [point.xy[0]!, point.xy[1]!];
    const end = ahead < 0 ? 'rear' : 'front';
    const y = 14 + POINT_ROW * rows[end]++;
    const x = end === 'rear' ? 4 : right;
    const from = y + LEADING * (texts.length - 1) + 5;
    return markup`<path d="${hardPointPath(view, point, 0, 0)}" ${stroke({ width: WIDE, part: 'hard point' })}/>${[
      straight(end === 'rear' ? x + 70 : x - 70, from, view.x(ahead), view.y(above), { width: NARROW }),
      labels(x, y, texts, { anchor: end === 'rear' ? 'start' : 'end', halo: true }),
    ]}`;
  })}`;
}

function sideDrawn(view: View, drawn: BenchDrawing, trackY: number): Markup {
  const { side, notches } = drawn;
  const { tub, liner, topHeight, axleHeight } = side;
  const above = topHeight - axleHeight - tub.radius;
  const ahead = tub.centreForward;
  const [x, y, cx, cy] = [view.x(0), view.y(0), view.x(ahead), view.y(above)];
  const out = view.scale * (tub.radius + liner);
  const sin = Math.sin(tub.halfExtent);
  const cos = Math.cos(tub.halfExtent);
  const rim = (angle: number): readonly [number, number] => [
    view.x(ahead + tub.radius * Math.sin(angle)),
    view.y(above + tub.radius * Math.cos(angle)),
  ];
  const arcEnd = view.y(above + tub.radius * cos);
  const legX = view.x(ahead + tub.radius * sin + tub.legLength * cos);
  const legEnd = view.y(above + tub.radius * cos - tub.legLength * sin);
  const [radiusX, radiusY] = rim(-0.75);
  const skin = liner + (0.5 * WIDE) / view.scale;
  return markup`<path d="${standingPath(view, side.angles, side.standing, axleHeight)}" ${stroke({ ink: SOFT_INK, width: NARROW, dashes: '12 3 2 3 2 3', part: 'standing tyre' })}/>
<path d="${tubPath(view, tub, ahead, above, skin)}" ${stroke({ width: WIDE })}/>
<path d="${tubPath(view, tub, ahead, above, 0)}" ${stroke({ width: 0.5, part: 'tub' })}/>
${[
  straight(LEFT - 46, trackY, cx + out + 64, trackY, { width: WIDE, part: 'track' }),
  centreLine(cx - out - 8, cy, cx + out + 8, cy),
  centreLine(cx, cy - out - 10, cx, cy + 34),
  straight(x - 9, y, x + 9, y, { width: NARROW }),
  straight(x, y - 9, x, y + 9, { width: NARROW }),
  doubleArrow([cx, cy], [radiusX, radiusY], 'inside radius'),
  label(0.5 * (cx + radiusX), 0.5 * (cy + radiusY) - 5, drawn.radiusText, {
    anchor: 'middle',
    bold: true,
    halo: true,
  }),
  uprightDimension(22, view.y(topHeight - axleHeight), trackY, [cx, LEFT - 46], drawn.topTexts, 'top height'),
  uprightDimension(x - 92, cy, trackY, [cx - 12, x - 92], drawn.centreTexts, 'centre height'),
  uprightDimension(x + 92, y, trackY, [x + 12, x + 92], drawn.axleTexts, 'axle height'),
  levelDimension(x, cx, y + 26, [y + 10, cy + 12], drawn.offsetText, 'offset'),
  uprightDimension(cx + out + 28, legEnd, trackY, [legX + 4, cx + out + 28], [], 'leg end'),
  labels(cx + out + 34, 0.5 * (legEnd + trackY) - 8, drawn.legEndTexts, { bold: true, halo: true }),
  ...(drawn.legText === undefined
    ? []
    : [
        uprightDimension(cx + out + 28, arcEnd, legEnd, [legX + 4, legX + 4], [], 'leg'),
        label(cx + out + 34, 0.5 * (arcEnd + legEnd) + 4, drawn.legText, { bold: true, halo: true }),
      ]),
  label(x, trackY - 8, drawn.standingLabel, { anchor: 'middle', ink: SOFT_INK, halo: true }),
  label(LEFT - 46, trackY + 16, 'rear'),
  label(cx + out, trackY + 16, 'front', { anchor: 'end' }),
]}
${notches.map(({ angle, depth, texts }) => {
  const far = tub.radius - depth;
  const at = [view.x(ahead + far * Math.sin(angle)), view.y(above + far * Math.cos(angle))] as const;
  const from = [at[0] - 46 * Math.sin(angle), at[1] + 46 * Math.cos(angle)] as const;
  return pointed(from, at, texts, 'middle');
})}
${hardPointsDrawn(view, drawn, cx + out + 20)}`;
}

/** Name, scale and issue in ruled rows, as a drawing carries them. */
function titleBlock(rows: BenchDrawing['block'], top: number): Markup {
  const width = SHEET_WIDTH - 4;
  return markup`${rows.map(({ name, text }, i) => {
    const y = top + BLOCK_ROW * i;
    return markup`<rect x="2" y="${y}" width="${width}" height="${BLOCK_ROW}" ${stroke({ width: NARROW })}/>${label(8, y + 13, name, { ink: SOFT_INK })}${label(104, y + 13, text)}`;
  })}<rect x="2" y="${top}" width="${width}" height="${BLOCK_ROW * rows.length}" ${stroke({ width: WIDE })}/>`;
}

/** The bench drawing, 195 mm wide in print at the scale that its block names. */
export function benchDrawing(drawn: BenchDrawing): string {
  const { side, end } = drawn;
  const scale = scaleOf(drawn);
  const units = (1000 * UNITS_PER_MM) / scale;
  const { tub, liner, topHeight, axleHeight } = side;
  const out = tub.radius + liner;
  const most = Math.max(
    drawn.hardPoints.filter(({ point }) => aheadOf(point) < 0).length,
    drawn.hardPoints.filter(({ point }) => aheadOf(point) >= 0).length,
  );
  const top = TOP + POINT_ROW * Math.max(0, most - 1) + WIDE;
  const view = viewAt(
    units,
    LEFT + units * (out - tub.centreForward),
    top + units * (topHeight - axleHeight),
  );
  const trackY = view.y(-axleHeight);
  const left = view.x(tub.centreForward + out) + BETWEEN;
  const blockTop = trackY + 46;
  const rows = [
    { name: 'scale', text: `1 : ${scale}, first angle: side view, and from behind` },
    ...drawn.block,
  ];
  const body = markup`${sideDrawn(view, drawn, trackY)}
${endView(end, { left, units, crownY: view.y(topHeight - axleHeight), trackY, legEndY: view.y(topHeight - axleHeight - tub.radius + tub.radius * Math.cos(tub.halfExtent) - tub.legLength * Math.sin(tub.halfExtent)) })}
${titleBlock(rows, blockTop)}`;
  return picture(drawn.words, SHEET_WIDTH, blockTop + BLOCK_ROW * rows.length + 3, body, {
    'data-units-per-metre': units,
    'data-scale': scale,
  });
}
