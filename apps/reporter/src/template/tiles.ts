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

function tiled(dummy: Dummy, paper: Paper): Tiling {
  const width = paper.width - 2 * MARGIN;
  const height = paper.height - 2 * MARGIN - FOOT;
  const { left, right, top, bottom } = extent(dummy);
  const columns = pages(right - left, width);
  const rows = pages(top - bottom, height);
  const spareWidth = columns * (width - OVERLAP) + OVERLAP - (right - left);
  const spareHeight = rows * (height - OVERLAP) + OVERLAP - (top - bottom);
  const tiles: Tile[] = [];
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      tiles.push({
        name: `${String.fromCharCode(65 + column)}${row + 1}`,
        left: left - 0.5 * spareWidth + column * (width - OVERLAP),
        top: top + 0.5 * spareHeight - row * (height - OVERLAP),
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
