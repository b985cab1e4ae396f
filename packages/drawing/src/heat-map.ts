import { INK, PAPER, RAMP, rampOf, SOFT_INK } from './ink.ts';
import { type Markup, markup } from './markup.ts';
import { LEADING, label, labels, type PictureWords, picture, textWidth, WIDTH, wrapped } from './picture.ts';

/** One cell: what is written in it, and how dark it is. */
export interface HeatCell {
  text: string;
  /** From the least of the picture, 0, to the most, 1; undefined: blank, for there is no figure. */
  share: number | undefined;
}

/** Cells by row and column. Rows are drawn from below, as on an axis. */
export interface HeatPanel {
  /** What is held while rows and columns differ; empty where nothing else varies. */
  title: string;
  cells: readonly (readonly (HeatCell | undefined)[])[];
}

/** A figure over two varied inputs, every cell with its figure: as wide as its columns and as high as its panels. */
export interface HeatMap {
  words: PictureWords;
  /** What the figures are: 'lowest top height, in'. */
  figure: string;
  columns: { title: string; texts: readonly string[] };
  rows: { title: string; texts: readonly string[] };
  panels: readonly HeatPanel[];
  /** What the lightest and the darkest shade mean. */
  ends: readonly [string, string];
  note: string;
}

const LEFT = 10;
const CELL = 22;
const KEY = 16;

/** A map of figures over two inputs, for however many values. */
export function heatMap({ words, figure, columns, rows, panels, ends, note }: HeatMap): string {
  const written = panels.flatMap(({ cells }) => cells.flat().map((cell) => cell?.text ?? ''));
  const wide = Math.max(30, ...[...columns.texts, ...written].map((text) => textWidth(text) + 8));
  const left = LEFT + Math.max(0, ...rows.texts.map((text) => textWidth(text))) + 8;
  const width = Math.max(WIDTH, left + wide * columns.texts.length + LEFT);
  const letters = Math.floor((width - 2 * LEFT) / textWidth('m'));
  const drawn: Markup[] = [];
  let y = 18;
  const say = (text: string, style = {}): void => {
    const lines = wrapped(text, letters);
    drawn.push(labels(LEFT, y, lines, style));
    y += LEADING * lines.length;
  };
  say(figure, { bold: true });
  drawn.push(key(y, ends));
  y += KEY + 14;
  for (const { title, cells } of panels) {
    if (title !== '') say(title);
    say(`up: ${rows.title}`, { ink: SOFT_INK });
    const top = y - 6;
    const height = CELL * rows.texts.length;
    rows.texts.forEach((text, r) => {
      const at = top + height - CELL * (r + 1);
      drawn.push(label(left - 6, at + 15, text, { anchor: 'end' }));
      columns.texts.forEach((_, c) => {
        const cell = cells[r]?.[c];
        if (cell !== undefined) drawn.push(cellAt(cell, left + wide * c, at, wide));
      });
    });
    columns.texts.forEach((text, c) => {
      drawn.push(label(left + wide * (c + 0.5), top + height + 14, text, { anchor: 'middle' }));
    });
    y = top + height + 30;
    say(`along: ${columns.title}`, { ink: SOFT_INK });
    y += 12;
  }
  say(note, { ink: SOFT_INK });
  return picture(words, width, y, markup`${drawn}`);
}

function cellAt({ text, share }: HeatCell, x: number, y: number, wide: number): Markup {
  const { fill, ink } = share === undefined ? { fill: PAPER, ink: SOFT_INK } : rampOf(share);
  return markup`<rect x="${x}" y="${y}" width="${wide}" height="${CELL}" fill="${fill}" stroke="${INK}" stroke-width="0.4" data-part="cell"/>${label(
    x + 0.5 * wide,
    y + 15,
    text,
    { anchor: 'middle', ink },
  )}`;
}

/** The shades in a row, with what their ends mean beside them. */
function key(y: number, [least, most]: readonly [string, string]): Markup {
  const from = LEFT + textWidth(least) + 8;
  return markup`${label(LEFT, y + 6, least)}${RAMP.map(
    ({ fill }, i) =>
      markup`<rect x="${from + KEY * i}" y="${y - 5}" width="${KEY}" height="12" fill="${fill}" stroke="${INK}" stroke-width="0.4"/>`,
  )}${label(from + KEY * RAMP.length + 8, y + 6, most)}`;
}
