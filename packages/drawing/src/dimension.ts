import { type Box, textBox } from './clear-place.ts';
import { INK } from './ink.ts';
import { type Markup, markup } from './markup.ts';
import { label, labels, straight } from './picture.ts';
import type { Point } from './shapes.ts';

const ARROW = 6;
const ARROW_HALF = 2;

/** Filled arrow head with its tip at `tip`, pointing away from `from`. */
export function arrowHead(from: Point, tip: Point, ink = INK): Markup {
  const length = Math.hypot(tip[0] - from[0], tip[1] - from[1]) || 1;
  const ux = (tip[0] - from[0]) / length;
  const uy = (tip[1] - from[1]) / length;
  const head = Math.min(ARROW, 0.45 * length);
  const half = (ARROW_HALF * head) / ARROW;
  const bx = tip[0] - head * ux;
  const by = tip[1] - head * uy;
  return markup`<path d="M${tip[0]},${tip[1]}L${bx - half * uy},${by + half * ux}L${bx + half * uy},${by - half * ux}Z" fill="${ink}"/>`;
}

/** Line with an arrow head at both ends. */
export const doubleArrow = (from: Point, to: Point, part: string, ink = INK): Markup =>
  markup`${[
    straight(from[0], from[1], to[0], to[1], { ink, width: 0.9, part }),
    arrowHead(to, from, ink),
    arrowHead(from, to, ink),
  ]}`;

/**
 * Upright dimension at x between two heights of the drawing, its text along the line.
 * @param reach  x to which the thin lines from both ends run
 */
export function uprightDimension(
  x: number,
  top: number,
  bottom: number,
  reach: readonly [top: number, bottom: number],
  text: string,
  part: string,
): Markup {
  const middle = 0.5 * (top + bottom);
  const side = reach[0] > x ? -1 : 1;
  return markup`${[
    straight(reach[0], top, x + side * 3, top, { width: 0.5 }),
    straight(reach[1], bottom, x + side * 3, bottom, { width: 0.5 }),
    doubleArrow([x, top], [x, bottom], part),
    label(side < 0 ? x - 5 : x + 13, middle, text, { anchor: 'middle', turn: -90, bold: true }),
  ]}`;
}

/** Lines of text over a point and the thin line that joins them; the second line is the one to read. */
export interface Callout {
  /** Upper end of the line, under the middle of the texts. */
  x: number;
  y: number;
  point: Point;
  texts: readonly string[];
}

const UNDER = 4;

export function callout({ x, y, point, texts: [heading = '', ...rest] }: Callout): Markup {
  return markup`${[
    straight(x, y, point[0], point[1], { width: 0.5, part: 'leader' }),
    label(x, y - UNDER - 13 * rest.length, heading, { anchor: 'middle', size: 10 }),
    labels(x, y - UNDER - 13 * (rest.length - 1), rest, { anchor: 'middle', bold: true }),
  ]}`;
}

/** Boxes that the texts of a callout take. */
export const calloutBoxes = ({ x, y, texts }: Callout): Box[] =>
  texts.map((text, i) =>
    textBox({ x, y: y - UNDER - 13 * (texts.length - 1 - i), anchor: 'middle' }, text, 11),
  );
