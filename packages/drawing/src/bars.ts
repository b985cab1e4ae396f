import { scaleLinear } from 'd3-scale';
import { GRID_INK, INK, PAPER, PLUM, SOFT_INK } from './ink.ts';
import { type Markup, markup } from './markup.ts';
import {
  LEADING,
  label,
  labels,
  type PictureWords,
  picture,
  straight,
  textWidth,
  WIDTH,
  wrapped,
} from './picture.ts';

/** One bar of a row; an interval is drawn as a whisker over its end. */
export interface Bar {
  value: number;
  low?: number;
  high?: number;
  /** Written at its end. */
  text: string;
}

export interface BarRow {
  label: string;
  /** In the order of the series. */
  bars: readonly Bar[];
  /** A line over it parts it from those above. */
  apart?: boolean;
}

/** Rows of labelled bars on one scale; what they measure is the caller's. */
export interface Bars {
  words: PictureWords;
  series: readonly string[];
  rows: readonly BarRow[];
}

const LEFT = 10;
const RIGHT = WIDTH - 8;
const BAR = 10;
const FILLS = [
  { fill: PLUM, edge: PLUM },
  { fill: PAPER, edge: PLUM },
];

const fillOf = (index: number): { fill: string; edge: string } => FILLS[index % FILLS.length]!;

/** Labelled bars, one row a cause and one bar a series, with the zero marked. */
export function labelledBars({ words, series, rows }: Bars): string {
  const all = rows.flatMap((row) => row.bars);
  const low = Math.min(0, ...all.flatMap((bar) => [bar.value, bar.low ?? 0]));
  const high = Math.max(0, ...all.flatMap((bar) => [bar.value, bar.high ?? 0]));
  const room = Math.max(0, ...all.map((bar) => textWidth(bar.text))) + 10;
  const x = scaleLinear([low, high > low ? high : low + 1], [LEFT, RIGHT - room]);
  const rowHeight = 17 + series.length * (BAR + 2) + 6;
  const top = series.length > 1 ? 24 : 6;
  let y = top;
  const drawn: Markup[] = [];
  for (const row of rows) {
    if (row.apart) {
      drawn.push(straight(LEFT, y + 1, RIGHT, y + 1, { ink: GRID_INK }));
      y += 4;
    }
    const lines = wrapped(row.label, 48);
    drawn.push(labels(LEFT, y + 13, lines));
    y += LEADING * (lines.length - 1);
    for (const [i, bar] of row.bars.entries()) drawn.push(oneBar(bar, i, x, y + 17 + i * (BAR + 2)));
    drawn.push(straight(x(0), y + 16, x(0), y + 16 + row.bars.length * (BAR + 2), { ink: INK, width: 0.8 }));
    y += rowHeight;
  }
  const body = markup`${series.length > 1 && key(series)}
${drawn}`;
  return picture(words, WIDTH, y + 4, body);
}

function oneBar(bar: Bar, series: number, x: (value: number) => number, y: number): Markup {
  const from = Math.min(x(0), x(bar.value));
  const wide = Math.abs(x(bar.value) - x(0));
  const { fill, edge } = fillOf(series);
  const end = Math.max(x(bar.value), x(bar.high ?? 0), x(0)) + 4;
  const middle = y + BAR / 2;
  const whisker =
    bar.low !== undefined &&
    bar.high !== undefined &&
    bar.high > bar.low &&
    markup`${straight(x(bar.low), middle, x(bar.high), middle, { width: 1.4, ink: PAPER })}${[
      straight(x(bar.low), middle, x(bar.high), middle, { width: 0.9 }),
      straight(x(bar.low), middle - 3, x(bar.low), middle + 3, { width: 0.9 }),
      straight(x(bar.high), middle - 3, x(bar.high), middle + 3, { width: 0.9 }),
    ]}`;
  return markup`<rect x="${from}" y="${y}" width="${wide}" height="${BAR}" fill="${fill}" stroke="${edge}" stroke-width="0.6" data-part="bar"/>${whisker}${label(
    end,
    y + BAR - 1,
    bar.text,
    { ink: SOFT_INK },
  )}`;
}

function key(series: readonly string[]): Markup {
  let x = LEFT;
  return markup`${series.map((name, i) => {
    const { fill, edge } = fillOf(i);
    const here = x;
    x += 22 + textWidth(name);
    return markup`<rect x="${here}" y="5" width="10" height="10" fill="${fill}" stroke="${edge}" stroke-width="0.6"/>${label(here + 14, 14, name)}`;
  })}`;
}
