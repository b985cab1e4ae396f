import { INCH, type LengthUnits, wholeText } from '@tubgap/units';
import { scaleLinear } from 'd3-scale';
import { symbol, symbolCircle, symbolDiamond, symbolSquare, symbolTriangle } from 'd3-shape';
import { type Box, bottomAxis, multiples, secondRow, stepFor } from './axes.ts';
import { GRID_INK, INK, PAPER, SOFT_INK, strokeOf } from './ink.ts';
import { axisUnits, heightsBeside } from './length-axis.ts';
import { type Markup, markup } from './markup.ts';
import { label, type PictureWords, picture, straight, WIDTH } from './picture.ts';

/** Lowest top heights in one tub, m; undefined where no height helps. */
export interface TubHeightDots {
  tub: string;
  /** Each tyre alone, in the order of the tyres. */
  alone: readonly (number | undefined)[];
  /** All tyres of the car together. */
  together: number | undefined;
}

export interface HeightDots {
  words: PictureWords;
  /** Units that lead on the axes of lengths; left out: inches. */
  units?: LengthUnits | undefined;
  tyres: readonly string[];
  rows: readonly TubHeightDots[];
  noneText: string;
}

const LEFT = 14;
const ROW = 30;
const SHAPES = [symbolCircle, symbolSquare, symbolTriangle, symbolDiamond] as const;

function mark(index: number, x: number, y: number): Markup {
  const shape = symbol(SHAPES[index % SHAPES.length]!, 62).digits(2)() ?? '';
  return markup`<path d="${shape}" transform="translate(${x} ${y})" fill="${PAPER}" stroke="${strokeOf(index).ink}" stroke-width="1.8" data-part="alone"/>`;
}

/** For every tub the lowest top height of each tyre alone, and of all together as an upright bar. */
export function heightDots({ words, units, tyres, rows, noneText }: HeightDots): string {
  const heights = rows
    .flatMap((row) => [...row.alone, row.together])
    .filter((height) => height !== undefined);
  const low = Math.floor(Math.min(...heights) / INCH - 0.25) * INCH;
  const high = Math.ceil(Math.max(...heights) / INCH + 0.25) * INCH;
  const { own, other } = axisUnits(units);
  const box: Box = { left: 96, right: 338, top: 20 + 16 * (tyres.length + 1), bottom: 0 };
  box.bottom = box.top + rows.length * ROW;
  if (heights.length === 0) return picture(words, WIDTH, 40, label(LEFT, 24, noneText));
  const x = scaleLinear([low, high], [box.left, box.right]);
  const steps = own.name === 'in' ? [1, 2, 5, 10] : [20, 50, 100, 200];
  const ticks = multiples(stepFor((high - low) / own.size, steps, 5), low / own.size, high / own.size);
  const keys = [
    ...tyres.map(
      (tyre, i) => markup`${mark(i, LEFT + 5, 12 + 16 * i)}${label(LEFT + 17, 16 + 16 * i, `${tyre} alone`)}`,
    ),
    markup`${straight(LEFT + 5, 5 + 16 * tyres.length, LEFT + 5, 19 + 16 * tyres.length, { width: 3 })}${label(LEFT + 17, 16 + 16 * tyres.length, 'all tyres of the car, and the season')}`,
  ];
  const body = markup`${keys}
${bottomAxis(
  box,
  ticks.map((count) => ({ at: x(count * own.size), text: wholeText(count) })),
  `lowest top height, ${own.name} (${other.name})`,
  14,
)}
${secondRow(box, heightsBeside(own.name, ticks, low, high, x), 44)}
${rows.map((row, r) => {
  const y = box.top + (r + 0.5) * ROW;
  const known = row.alone.some((height) => height !== undefined) || row.together !== undefined;
  return markup`${straight(box.left, y, box.right, y, { ink: GRID_INK })}${label(LEFT, y + 4, row.tub)}${
    row.together !== undefined &&
    straight(x(row.together), y - 10, x(row.together), y + 10, { width: 3, ink: INK, part: 'together' })
  }${row.alone.map((height, i) => (height === undefined ? markup`` : mark(i, x(height), y)))}${
    !known && label(box.left + 4, y + 4, noneText, { ink: SOFT_INK, halo: true })
  }`;
})}`;
  return picture(words, WIDTH, box.bottom + 52, body);
}
