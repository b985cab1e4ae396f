import { type Box, textBox } from './clear-place.ts';
import { INK } from './ink.ts';
import { type Markup, markup } from './markup.ts';
import { LETTERS, label, labels, straight } from './picture.ts';
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
 * Upright dimension at x between two heights of the drawing, its first text on the left of the line, the second right.
 * @param reach  x to which the thin lines from both ends run
 */
export function uprightDimension(
  x: number,
  top: number,
  bottom: number,
  reach: readonly [top: number, bottom: number],
  texts: readonly string[],
  part: string,
): Markup {
  const middle = 0.5 * (top + bottom);
  const thin = (from: number, y: number): Markup =>
    straight(from, y, x + (from > x ? -3 : 3), y, { width: 0.5 });
  return markup`${[
    thin(reach[0], top),
    thin(reach[1], bottom),
    doubleArrow([x, top], [x, bottom], part),
    ...texts.map((text, i) =>
      label(i === 0 ? x - 5 : x + 14, middle, text, {
        anchor: 'middle',
        turn: -90,
        bold: i === 0,
        halo: true,
      }),
    ),
  ]}`;
}

/** Level dimension between two places, its arrows outside where there is no room between; its text below. */
export function levelDimension(
  from: number,
  to: number,
  y: number,
  reach: readonly [from: number, to: number],
  text: string,
  part: string,
): Markup {
  const [left, right] = from < to ? [from, to] : [to, from];
  const outside = right - left < 4 * ARROW;
  const arrows = outside
    ? [
        straight(left, y, right, y, { width: 0.9, part }),
        straight(left - 16, y, left, y, { width: 0.9 }),
        straight(right, y, right + 16, y, { width: 0.9 }),
        arrowHead([left - 16, y], [left, y]),
        arrowHead([right + 16, y], [right, y]),
      ]
    : [doubleArrow([left, y], [right, y], part)];
  return markup`${[
    straight(from, reach[0], from, y + 3, { width: 0.5 }),
    straight(to, reach[1], to, y + 3, { width: 0.5 }),
    ...arrows,
    label(0.5 * (left + right), y + 15, text, { anchor: 'middle', bold: true, halo: true }),
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
    label(x, y - UNDER - 14 * rest.length, heading, { anchor: 'middle' }),
    labels(x, y - UNDER - 14 * (rest.length - 1), rest, { anchor: 'middle', bold: true }),
  ]}`;
}

/** Boxes that the texts of a callout take. */
export const calloutBoxes = ({ x, y, texts }: Callout): Box[] =>
  texts.map((text, i) =>
    textBox({ x, y: y - UNDER - 14 * (texts.length - 1 - i), anchor: 'middle' }, [text], LETTERS),
  );
