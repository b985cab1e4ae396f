import { type Markup, markup } from './markup.ts';
import { type LineStyle, label, straight } from './picture.ts';

/** One row of a legend: how the line looks, and what it is. */
export interface LegendRow {
  style: LineStyle;
  text: string;
}

const ROW = 15;

export const legendHeight = (rows: readonly LegendRow[]): number => ROW * rows.length;

/** Rows of line samples with their names, the first at y. */
export const legend = (x: number, y: number, rows: readonly LegendRow[]): Markup =>
  markup`${rows.flatMap(({ style, text }, i) => {
    const { part: _, ...plain } = style;
    return [straight(x, y + i * ROW - 4, x + 26, y + i * ROW - 4, plain), label(x + 33, y + i * ROW, text)];
  })}`;
