import { INCH, type LengthUnits, tapeText } from '@tubgap/units';
import { scaleLinear } from 'd3-scale';
import { type Box, bottomAxis } from './axes.ts';
import { BLUE, INK, PALE_BLUE, PAPER, SOFT_INK } from './ink.ts';
import { axisUnits, unitTicks } from './length-axis.ts';
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

/** One end of what an input does, m of height against the case; `low` and `high`: its interval. */
export interface TornadoEnd {
  change: number;
  low: number;
  high: number;
  /** '230 mph: 1/4 in more' */
  text: string;
}

export interface TornadoRow {
  label: string;
  least: TornadoEnd;
  most: TornadoEnd;
}

/** What each input does alone to the height, the greatest first. */
export interface Tornado {
  words: PictureWords;
  rows: readonly TornadoRow[];
  /** Inches, where nothing is said. */
  units?: LengthUnits | undefined;
  note: string;
}

const LEFT = 18;
const RIGHT = WIDTH - 18;
const BAR = 12;

const STEPS: Readonly<Record<LengthUnits, readonly number[]>> = {
  inch: [1 / 16, 1 / 8, 1 / 4, 1 / 2, 1, 2, 5],
  mm: [0.5, 1, 2, 5, 10, 20, 50, 100],
};

/** A change on the axis in whole sixteenths: '−1/8'. */
const sixteenthsText = (change: number): string =>
  `${change < 0 ? '−' : ''}${tapeText(Math.round(16 * Math.abs(change)))}`;
const millimetres = (change: number): string => String(change).replace('-', '−');

/** Bars from the least to the most that each input alone moves the height, about the case as it stands. */
export function tornado({ words, rows, units = 'inch', note }: Tornado): string {
  const all = rows.flatMap(({ least, most }) =>
    [least, most].flatMap(({ change, low, high }) => [change, low, high]),
  );
  const reach = Math.max(INCH / 16, ...all.map(Math.abs));
  const x = scaleLinear([-reach, reach], [LEFT, RIGHT]);
  const drawn: Markup[] = [];
  let y = 8;
  for (const row of rows) {
    const lines = wrapped(row.label, 50);
    drawn.push(labels(8, y + 12, lines, { halo: true }));
    y += LEADING * lines.length + 4;
    drawn.push(bar(row, x, y));
    y += BAR + 13;
    const { least, most } = row;
    const beside = textWidth(least.text) + textWidth(most.text) < WIDTH - 24;
    drawn.push(label(8, y, least.text, { ink: SOFT_INK, halo: true }));
    if (least !== most) {
      if (!beside) y += LEADING;
      drawn.push(label(WIDTH - 8, y, most.text, { anchor: 'end', ink: SOFT_INK, halo: true }));
    }
    y += 10;
  }
  const box: Box = { left: LEFT, right: RIGHT, top: 4, bottom: y };
  const { own } = axisUnits(units);
  const ticks = unitTicks(
    own,
    STEPS[units],
    -reach,
    reach,
    9,
    x,
    units === 'mm' ? millimetres : sixteenthsText,
  );
  const notes = wrapped(note, 50);
  const body = markup`${bottomAxis(box, ticks, `change of the lowest top height, ${own.name}`)}
${straight(x(0), box.top, x(0), box.bottom, { ink: INK })}
${drawn}
${labels(8, y + 52, notes, { ink: SOFT_INK })}`;
  return picture(words, WIDTH, y + 48 + LEADING * notes.length, body);
}

function bar({ least, most }: TornadoRow, x: (change: number) => number, y: number): Markup {
  const ends = least === most ? [least] : [least, most];
  return markup`${ends.map((end) => {
    const fill = end.change < 0 ? PALE_BLUE : BLUE;
    const from = Math.min(x(0), x(end.change));
    const middle = y + BAR / 2;
    return markup`<rect x="${from}" y="${y}" width="${Math.abs(x(end.change) - x(0))}" height="${BAR}" fill="${fill}" stroke="${INK}" stroke-width="0.6" data-part="bar"/>${[
      straight(x(end.low), middle, x(end.high), middle, { width: 2.4, ink: PAPER }),
      straight(x(end.low), middle, x(end.high), middle, { width: 1 }),
      straight(x(end.low), middle - 3, x(end.low), middle + 3, { width: 1 }),
      straight(x(end.high), middle - 3, x(end.high), middle + 3, { width: 1 }),
    ]}`;
  })}`;
}
