import { INCH, type LengthUnits, wholeText } from '@tubgap/units';
import { scaleLinear, scaleLog } from 'd3-scale';
import { area, line } from 'd3-shape';
import { type Box, bottomAxis, leftAxis, multiples, secondRow, stepFor } from './axes.ts';
import { GRID_INK, INK, PAPER, SOFT_INK, strokeOf } from './ink.ts';
import { type LegendRow, legend, legendHeight } from './legend.ts';
import { axisUnits, heightsBeside } from './length-axis.ts';
import { type Markup, markup } from './markup.ts';
import {
  type LineStyle,
  label,
  type PictureWords,
  picture,
  straight,
  stroke,
  WIDTH,
  wrapped,
} from './picture.ts';

/** Risk of a run, or of a season, at one top height, with its 95 % interval. */
export interface RiskPoint {
  /** m */
  height: number;
  estimate: number;
  low: number;
  high: number;
}

export interface RiskCurve {
  label: string;
  /** By rising height. */
  points: readonly RiskPoint[];
}

export interface RiskChart {
  words: PictureWords;
  /** Units that lead on the axes of lengths; left out: inches. */
  units?: LengthUnits | undefined;
  /** Five at most; the first is drawn strong, with its interval as a band. */
  curves: readonly RiskCurve[];
  /** Least risk that is drawn, above 0; what lies under it is said to be below. */
  least: number;
  leastText: string;
  accepted: number;
  acceptedText: string;
  /** Height of the pick and what to write there. */
  pick?: { height: number; text: string };
}

/** On its right half of the longest figure that may stand under its end, '(1,041)'. */
const BOX: Box = { left: 88, right: 326, top: 34, bottom: 270 };
const ROW = 44;

const decadeText = (decade: number): string =>
  decade === 0 ? 'every one' : `1 in ${wholeText(10 ** decade)}`;

/** The points of a curve up to the last that is not below what is drawn. */
function drawnPoints(curve: RiskCurve, least: number): RiskPoint[] {
  const end = curve.points.findIndex((point) => point.estimate < least);
  return end < 0 ? [...curve.points] : curve.points.slice(0, end);
}

const look = (index: number): Required<Omit<LineStyle, 'part'>> => ({
  ...strokeOf(index),
  width: index === 0 ? 2.4 : 1.6,
});

/** Says that a curve goes on below what is drawn. */
const endMark = (x: number, y: number, ink: string): Markup =>
  markup`<path d="M${x - 4},${y - 3}h8l-4,7z" fill="${PAPER}" stroke="${ink}"/>`;

/** Leaves out points between two that have the same figures as their neighbours. */
const thinned = (points: readonly RiskPoint[]): RiskPoint[] =>
  points.filter(
    (point, i) => point.estimate !== points[i - 1]?.estimate || point.estimate !== points[i + 1]?.estimate,
  );

/**
 * Risk against top height on a scale of tenfold steps. A curve stops at the lowest risk that is shown, with a mark that
 * says it goes on below; it never runs along the axis.
 */
export function riskChart(drawn: RiskChart): string {
  const { least, curves, pick } = drawn;
  const decades = Math.ceil(-Math.log10(Math.min(least, drawn.accepted)) - 1e-9);
  const shown = curves.map((curve) => thinned(drawnPoints(curve, least)));
  const heights = shown.flat().map((point) => point.height);
  const low = Math.floor(Math.min(...heights, pick?.height ?? Infinity) / INCH) * INCH;
  const high = Math.ceil(Math.max(...heights, pick?.height ?? -Infinity) / INCH + 0.25) * INCH;
  const x = scaleLinear([low, high], [BOX.left, BOX.right]);
  const y = scaleLog([10 ** -decades, 1], [BOX.bottom, BOX.top]).clamp(true);
  const curve = line<RiskPoint>(
    (point) => x(point.height),
    (point) => y(point.estimate),
  ).digits(2);
  const band = area<RiskPoint>(
    (point) => x(point.height),
    (point) => y(Math.max(point.low, 10 ** -decades)),
    (point) => y(point.high),
  ).digits(2);
  const minor = Array.from({ length: decades }, (_, d) =>
    [2, 3, 4, 5, 6, 7, 8, 9].map((n) => y(n * 10 ** -(d + 1))),
  ).flat();
  const { own: unit, other } = axisUnits(drawn.units);
  const steps = unit.name === 'in' ? [0.5, 1, 2, 5, 10] : [10, 20, 50, 100, 200];
  const step = stepFor((high - low) / unit.size, steps, 5);
  const ticks = multiples(step, low / unit.size, high / unit.size);
  const rows = curves.flatMap((own, i): LegendRow[] =>
    shown[i]!.length === 0 ? [] : [{ style: look(i), text: own.label }],
  );
  const below = curves.filter((_, i) => shown[i]!.length === 0).map((own) => own.label);
  const note = wrapped(drawn.leastText, 44);
  const belowNote = below.length === 0 ? [] : wrapped(`below all that is drawn: ${below.join(', ')}`, 44);
  const legendTop = BOX.bottom + ROW + 20;
  const noteTop = legendTop + legendHeight(rows);
  // The first over the others.
  const order = [...curves.keys()].reverse();
  const body = markup`${minor.map((at) => straight(BOX.left, at, BOX.right, at, { ink: GRID_INK, width: 0.25 }))}
${leftAxis(
  BOX,
  Array.from({ length: decades + 1 }, (_, d) => ({ at: y(10 ** -d), text: decadeText(d) })),
  'risk of a run',
)}
${bottomAxis(
  BOX,
  ticks.map((count) => ({ at: x(count * unit.size), text: wholeText(count) })),
  `top of the tub above the track, ${unit.name} (${other.name})`,
  14,
)}
${secondRow(BOX, heightsBeside(unit.name, ticks, low, high, x), 44)}
<path d="${band(shown[0] ?? []) ?? ''}" fill="${strokeOf(0).ink}" fill-opacity="0.16"/>
${order.map((i) => {
  const own = curves[i]!;
  const end = shown[i]!.at(-1);
  if (end === undefined) return markup``;
  const goesOn = drawnPoints(own, least).length < own.points.length;
  return markup`<path d="${curve(shown[i]!) ?? ''}" ${stroke({ ...look(i), part: 'risk' })}/>${
    goesOn && endMark(x(end.height), y(end.estimate) + 4, look(i).ink)
  }`;
})}
${straight(BOX.left, y(drawn.accepted), BOX.right, y(drawn.accepted), { ink: INK, dashes: '5 3', part: 'accepted' })}
${label(BOX.right, y(drawn.accepted) - 4, drawn.acceptedText, { anchor: 'end', halo: true })}
${
  pick !== undefined &&
  markup`${straight(x(pick.height), BOX.top, x(pick.height), BOX.bottom, { width: 1.2, part: 'pick' })}
${label(x(pick.height), BOX.top - 8, pick.text, { anchor: x(pick.height) > 260 ? 'end' : 'middle', bold: true })}`
}
${legend(BOX.left, legendTop, rows)}
${endMark(BOX.left + 13, noteTop - 3.5, INK)}
${[...note, ...belowNote].map((text, i) => label(BOX.left + 33, noteTop + i * 14, text, { ink: SOFT_INK }))}`;
  return picture(drawn.words, WIDTH, noteTop + (note.length + belowNote.length) * 14 - 4, body);
}
