import { INCH } from '@tubgap/units';
import type { BoardPoint, Dummy } from './dummy.ts';

/** A sheet size of a printer, m. */
export interface Paper {
  name: 'A4' | 'Letter';
  width: number;
  height: number;
}

/** ISO 216 and ANSI/ASME Y14.1 A size. */
export const A4: Paper = { name: 'A4', width: 0.21, height: 0.297 };
export const LETTER: Paper = { name: 'Letter', width: 8.5 * INCH, height: 11 * INCH };

/** Kept free round the page for any printer, and under the drawing for the scale bars, m. */
export const MARGIN = 0.012;
export const FOOT = 0.02;
/** Drawn on both of two neighbours, m. */
export const OVERLAP = 0.01;
const AIR = 0.005;

/** One page of a tiled drawing. */
export interface Tile {
  /** Column by letter, row by number: 'B2'. */
  name: string;
  /** Place of the page's upper left drawing corner, m from the wheel centre. */
  left: number;
  top: number;
}

/** Pages that together hold a drawing at full size. */
export interface Tiling {
  paper: Paper;
  columns: number;
  rows: number;
  /** Drawing area of each page, m. */
  width: number;
  height: number;
  tiles: Tile[];
}

/** Corner values of the board with some air round it, m. */
function extent({ outline, holes }: Dummy): { left: number; right: number; top: number; bottom: number } {
  const points: readonly BoardPoint[] = [...outline, ...holes];
  return {
    left: Math.min(...points.map((point) => point.ahead)) - AIR,
    right: Math.max(...points.map((point) => point.ahead)) + AIR,
    top: Math.max(...points.map((point) => point.above)) + AIR,
    bottom: Math.min(...points.map((point) => point.above)) - AIR,
  };
}

/** Pages across a length that is shared with an overlap. */
const pages = (length: number, page: number): number => Math.ceil((length - OVERLAP) / (page - OVERLAP));

/** Kept between a seam and what is drilled or held plumb, m: the arms of a hole's cross. */
const CLEAR = 0.006;

/** Pages across a length, and where the first begins so that none of the places lies in a seam, m. */
interface Seams {
  count: number;
  start: number;
}

/**
 * Lays pages over a length with their spare room on both sides as even as it can be while every place keeps clear of the
 * seams; with one page more where it cannot be.
 */
function seamsClear(from: number, to: number, page: number, places: readonly number[]): Seams {
  const least = pages(to - from, page);
  for (let count = least; count <= least + 1; count++) {
    const spare = count * (page - OVERLAP) + OVERLAP - (to - from);
    for (let shift = 0; shift <= 0.5 * spare; shift += 0.001) {
      for (const side of [-1, 1]) {
        const start = from - 0.5 * spare + side * shift;
        const seams = Array.from({ length: count - 1 }, (_, i) => start + (i + 1) * (page - OVERLAP));
        const isClear = seams.every((seam) =>
          places.every((place) => place < seam - CLEAR || place > seam + OVERLAP + CLEAR),
        );
        if (isClear) return { count, start };
      }
    }
  }
  return { count: least, start: from - 0.5 * (least * (page - OVERLAP) + OVERLAP - (to - from)) };
}

function tiled(dummy: Dummy, paper: Paper): Tiling {
  const width = paper.width - 2 * MARGIN;
  const height = paper.height - 2 * MARGIN - FOOT;
  const { left, right, top, bottom } = extent(dummy);
  const across = seamsClear(left, right, width, [0, ...dummy.holes.map(({ ahead }) => ahead)]);
  // From the top down.
  const down = seamsClear(
    -top,
    -bottom,
    height,
    dummy.holes.map(({ above }) => -above),
  );
  const [columns, rows] = [across.count, down.count];
  const tiles: Tile[] = [];
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      tiles.push({
        name: `${String.fromCharCode(65 + column)}${row + 1}`,
        left: across.start + column * (width - OVERLAP),
        top: -down.start - row * (height - OVERLAP),
      });
    }
  }
  return { paper, columns, rows, width, height, tiles };
}

/** Divides the board among pages of one size, upright or on their side, whichever takes fewer; drawing in their middle. */
export function tilesOf(dummy: Dummy, paper: Paper): Tiling {
  const upright = tiled(dummy, paper);
  const onSide = tiled(dummy, { ...paper, width: paper.height, height: paper.width });
  return onSide.tiles.length < upright.tiles.length ? onSide : upright;
}
