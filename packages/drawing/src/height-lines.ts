import { INCH, type LengthUnits, MM_PER_INCH } from '@tubgap/units';
import { scaleLinear } from 'd3-scale';
import { area, line, symbol, symbolCircle } from 'd3-shape';
import { type Box, bottomAxis, leftAxis, multiples, rightAxis, stepFor } from './axes.ts';
import { PAPER, SOFT_INK, strokeOf } from './ink.ts';
import { type LegendRow, legend, legendHeight } from './legend.ts';
import { axisUnits, unitTicks } from './length-axis.ts';
import { markup } from './markup.ts';
import { label, labels, type PictureWords, picture, straight, stroke, WIDTH, wrapped } from './picture.ts';

/** Height that one value asks for; m. `low` and `high`: the interval of its difference to the base, laid about the base. */
export interface HeightPoint {
  /** In the unit that the axis names. */
  value: number;
  height: number;
  low: number;
  high: number;
}

/** One line of the plot: points by rising value, in pieces where a value between two has no height. */
export interface HeightCurve {
  label: string;
  pieces: readonly (readonly HeightPoint[])[];
}

export interface HeightLines {
  words: PictureWords;
  /** Units that lead on the axes of lengths; left out: inches. */
  units?: LengthUnits | undefined;
  /** What is varied, with its unit: 'trap speed, mph'. */
  axis: string;
  /** Five at most. */
  curves: readonly HeightCurve[];
  /** Where the case itself stands, and what to write there. */
  own?: { value: number; text: string };
  /** A line under the picture. */
  note: string;
  noneText: string;
}

const BOX: Box = { left: 40, right: 310, top: 34, bottom: 250 };
/** Least range of heights that is drawn, m: a flat line stays flat. */
const LEAST_RANGE = 1 * INCH;

/** Lowest top height against the values of one input, with the intervals of the differences as bands. */
export function heightLines({ words, units, axis, curves, own, note, noneText }: HeightLines): string {
  const points = curves.flatMap(({ pieces }) => pieces.flat());
  if (points.length === 0) return picture(words, WIDTH, 40, label(14, 24, noneText));
  const values = [...points.map(({ value }) => value), ...(own === undefined ? [] : [own.value])];
  const heights = points.flatMap(({ height, low, high }) => [height, low, high]);
  const middle = 0.5 * (Math.min(...heights) + Math.max(...heights));
  const half = Math.max(0.55 * (Math.max(...heights) - Math.min(...heights)), 0.5 * LEAST_RANGE);
  const { own: unit, other } = axisUnits(units);
  const step = stepFor((2 * half) / unit.size, unit.steps, 9);
  const bottom = Math.floor((middle - half) / unit.size / step) * step;
  const top = Math.ceil((middle + half) / unit.size / step) * step;
  const x = scaleLinear([Math.min(...values), Math.max(...values)], [BOX.left + 8, BOX.right - 8]);
  const y = scaleLinear([bottom * unit.size, top * unit.size], [BOX.bottom, BOX.top]);
  const curve = line<HeightPoint>(
    (point) => x(point.value),
    (point) => y(point.height),
  ).digits(2);
  const band = area<HeightPoint>(
    (point) => x(point.value),
    (point) => y(point.low),
    (point) => y(point.high),
  ).digits(2);
  const dot = symbol(symbolCircle, 22).digits(2)() ?? '';
  const ticks = multiples(step, bottom, top);
  const rows: LegendRow[] = curves.map((one, i) => ({
    style: { ...strokeOf(i), width: 1.8 },
    text: one.label,
  }));
  const legendTop = BOX.bottom + 52;
  const noteTop = legendTop + legendHeight(rows) + 4;
  const notes = wrapped(note, 50);
  const body = markup`${leftAxis(
    BOX,
    ticks.map((count) => ({ at: y(count * unit.size), text: String(count) })),
    `lowest top height, ${unit.name}`,
  )}
${rightAxis(
  BOX,
  unit.name === 'in'
    ? ticks.map((inch) => ({ at: y(inch * INCH), text: (inch * MM_PER_INCH).toFixed(0) }))
    : unitTicks(other, other.steps, bottom * unit.size, top * unit.size, 9, y),
  other.name,
)}
${bottomAxis(
  BOX,
  x.ticks(7).map((value) => ({ at: x(value), text: String(value) })),
  axis,
)}
${
  own !== undefined &&
  markup`${straight(x(own.value), BOX.top, x(own.value), BOX.bottom, { dashes: '3 3', part: 'own' })}
${label(x(own.value), BOX.top - 5, own.text, { anchor: x(own.value) > 200 ? 'end' : 'middle' })}`
}
${curves.map(
  ({ pieces }, i) =>
    markup`${pieces.map(
      (piece) => markup`<path d="${band(piece) ?? ''}" fill="${strokeOf(i).ink}" fill-opacity="0.16"/>
<path d="${curve(piece) ?? ''}" ${stroke({ ...strokeOf(i), width: 1.8, part: 'height' })}/>`,
    )}${pieces
      .flat()
      .map(
        ({ value, height }) =>
          markup`<path d="${dot}" transform="translate(${x(value)} ${y(height)})" fill="${PAPER}" stroke="${strokeOf(i).ink}"/>`,
      )}`,
)}
${legend(BOX.left, legendTop, rows)}
${labels(14, noteTop, notes, { ink: SOFT_INK })}`;
  return picture(words, WIDTH, noteTop + 14 * notes.length - 3, body);
}
