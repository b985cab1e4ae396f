import { spawnSync } from 'node:child_process';

/** Pages of a template as poppler sees them, put together by what the pages say of themselves. */

const DPI = 127;
/** Dots a millimetre. */
const DOTS = DPI / 25.4;
/** Darker than this is ink; the grey of frames and marks is lighter. */
const DARK = 0x60;
/** As the pages have them: frame, foot and overlap, mm. */
const MARGIN = 12;
const FOOT = 20;
const OVERLAP = 10;

export const canRead = spawnSync('pdftoppm', ['-v']).error === undefined;

/** Names of the tiles in their order: 'A1', 'B1'. */
export function names(file: string): string[] {
  const { stdout } = spawnSync('pdftotext', ['-f', '2', file, '-'], { encoding: 'utf8' });
  return [...stdout.matchAll(/Tile ([A-Z]\d+)/g)].map(([, name]) => name!);
}

interface Grey {
  width: number;
  height: number;
  at: (x: number, y: number) => number;
}

function pageOf(file: string, page: number): Grey {
  const asked = ['-r', String(DPI), '-gray', '-f', String(page), '-l', String(page), file];
  const { stdout } = spawnSync('pdftoppm', asked, { maxBuffer: 64 * 1024 * 1024 });
  const head = /^P5\s+(\d+)\s+(\d+)\s+255\s/.exec(stdout.subarray(0, 40).toString('latin1'))!;
  const [width, height] = [Number(head[1]), Number(head[2])];
  const from = head[0].length;
  return { width, height, at: (x, y) => stdout[from + y * width + x]! };
}

/** The ink of all tiles, in mm from the upper left of the first one's frame. */
interface Joined {
  left: number;
  right: number;
  top: number;
  bottom: number;
  /** How far the next ink is from a place, mm; Infinity beyond a millimetre. */
  inkNear: (x: number, y: number) => number;
}

/** @param paper  size of each page, mm; a page of dots is a little larger */
export function joined(
  file: string,
  columns: number,
  count: number,
  paper: { width: number; height: number },
): Joined {
  const ink = new Set<number>();
  const key = (x: number, y: number): number => x * 100_000 + y;
  let [left, right, top, bottom] = [Infinity, -Infinity, Infinity, -Infinity];
  const wide = paper.width - 2 * MARGIN - OVERLAP;
  const tall = paper.height - 2 * MARGIN - FOOT - OVERLAP;
  for (let tile = 0; tile < count; tile++) {
    const page = pageOf(file, tile + 2);
    const shiftX = Math.round((wide * (tile % columns) - MARGIN) * DOTS);
    const shiftY = Math.round((tall * Math.floor(tile / columns) - MARGIN) * DOTS);
    const first = Math.ceil((MARGIN + 0.3) * DOTS);
    for (let y = first; y < page.height - (MARGIN + FOOT + 0.3) * DOTS; y++)
      for (let x = first; x < page.width - first; x++) {
        if (page.at(x, y) >= DARK) continue;
        const [atX, atY] = [x + shiftX, y + shiftY];
        ink.add(key(atX, atY));
        left = Math.min(left, atX);
        right = Math.max(right, atX + 1);
        top = Math.min(top, atY);
        bottom = Math.max(bottom, atY + 1);
      }
  }
  const reach = Math.ceil(DOTS);
  const inkNear = (x: number, y: number): number => {
    let nearest = Infinity;
    const [cx, cy] = [Math.floor(x * DOTS), Math.floor(y * DOTS)];
    for (let i = cx - reach; i <= cx + reach; i++)
      for (let j = cy - reach; j <= cy + reach; j++)
        if (ink.has(key(i, j)))
          nearest = Math.min(nearest, Math.hypot((i + 0.5) / DOTS - x, (j + 0.5) / DOTS - y));
    return nearest;
  };
  return { left: left / DOTS, right: right / DOTS, top: top / DOTS, bottom: bottom / DOTS, inkNear };
}
