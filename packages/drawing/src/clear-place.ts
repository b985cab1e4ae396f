import { LEADING, textWidth } from './picture.ts';
import type { Point } from './shapes.ts';

/** Upright box in the drawing's units, y down. */
export interface Box {
  left: number;
  right: number;
  top: number;
  bottom: number;
}

/** A line of text and where it may stand. */
interface TextPlace {
  x: number;
  /** Of the first base line. */
  y: number;
  anchor: 'start' | 'middle' | 'end';
}

/** What a text must keep clear of. */
interface Taken {
  /** Straight lines from end to end. */
  lines: readonly (readonly [from: Point, to: Point])[];
  boxes: readonly Box[];
  /** A long line in pieces, to be crossed only where something else would be. */
  skin: readonly (readonly [from: Point, to: Point])[];
  /** The drawing's sides and top. */
  left: number;
  right: number;
  top: number;
}

const START = { start: 0, middle: 0.5, end: 1 };
/** Room between a text and the shape beside it. */
const AWAY = 5;
/** Lines of text by which a name moves away from its shape where nearer there is no room. */
const FURTHER = [0, 1, 2, 3];
/** Leaving the drawing is worse than to cross several lines. */
const OUTSIDE = 20;
/** Room that a text keeps from lines and other texts. */
const CLEAR = 2;

/** Box that lines of text take, about. */
export function textBox({ x, y, anchor }: TextPlace, texts: readonly string[], size: number): Box {
  const width = Math.max(...texts.map((text) => textWidth(text, size)));
  const left = x - START[anchor] * width;
  return {
    left,
    right: left + width,
    top: y - 0.8 * size,
    bottom: y + LEADING * (texts.length - 1) + 0.25 * size,
  };
}

const widened = (box: Box, by: number): Box => ({
  left: box.left - by,
  right: box.right + by,
  top: box.top - by,
  bottom: box.bottom + by,
});

const overlap = (a: Box, b: Box): boolean =>
  a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;

/** Whether a straight line passes through a box: what is left of it between the box's sides (Liang and Barsky). */
function crosses(box: Box, [x1, y1]: Point, [x2, y2]: Point): boolean {
  let from = 0;
  let to = 1;
  for (const [start, step, low, high] of [
    [x1, x2 - x1, box.left, box.right],
    [y1, y2 - y1, box.top, box.bottom],
  ] as const) {
    if (step === 0) {
      if (start <= low || start >= high) return false;
      continue;
    }
    const ends = [(low - start) / step, (high - start) / step];
    from = Math.max(from, Math.min(...ends));
    to = Math.min(to, Math.max(...ends));
  }
  return from < to;
}

/** Places about a shape, so far from it, where its name reads as its own, the likeliest first. */
function places({ left, right, top, bottom }: Box, count: number, size: number, away: number): TextPlace[] {
  const more = LEADING * (count - 1);
  const middle = 0.5 * (left + right);
  const beside = 0.5 * (top + bottom) + 0.3 * size - 0.5 * more;
  const above = top - away - more;
  const below = bottom + away + 0.8 * size;
  return [
    { x: middle, y: above, anchor: 'end' },
    { x: middle, y: above, anchor: 'start' },
    { x: middle, y: above, anchor: 'middle' },
    { x: right + away, y: beside, anchor: 'start' },
    { x: middle, y: below, anchor: 'start' },
    { x: middle, y: below, anchor: 'middle' },
    { x: middle, y: below, anchor: 'end' },
    { x: left - away, y: beside, anchor: 'end' },
  ];
}

/**
 * Where the name of a shape stands clear of lines and of other texts, near the shape; where every place has something
 * in the way, the one with the least.
 * @param size  of the text
 * @param toStart  whether the name runs to the right rather than to the left where both are clear
 */
export function clearPlace(
  shape: Box,
  texts: readonly string[],
  size: number,
  taken: Taken,
  toStart = false,
): TextPlace {
  const tried = FURTHER.flatMap((further) => {
    const [first, second, ...rest] = places(shape, texts.length, size, AWAY + further * size);
    return toStart ? [second!, first!, ...rest] : [first!, second!, ...rest];
  });
  let best = tried[0]!;
  let fewest = Number.POSITIVE_INFINITY;
  for (const place of tried) {
    const box = widened(textBox(place, texts, size), CLEAR);
    const inTheWay =
      taken.lines.filter(([from, to]) => crosses(box, from, to)).length +
      (taken.skin.some(([from, to]) => crosses(box, from, to)) ? 0.5 : 0) +
      taken.boxes.filter((other) => overlap(box, other)).length +
      (box.left < taken.left || box.right > taken.right || box.top < taken.top ? OUTSIDE : 0);
    if (inTheWay < fewest) {
      best = place;
      fewest = inTheWay;
    }
  }
  return best;
}
