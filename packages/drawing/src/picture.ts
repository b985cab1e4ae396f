import { INK, PAPER } from './ink.ts';
import { type Markup, markup } from './markup.ts';

/** What a picture says to those who cannot see it, and the name under which a page holds it. */
export interface PictureWords {
  /** Letters, digits and hyphens; one on a page only. */
  id: string;
  title: string;
  /** What there is to see, with its main numbers. */
  description: string;
}

/**
 * Width of a picture that stands in a page's column, and the least letters in it. So they are 12 px high on a phone of
 * 390 px, and 9 pt where two pictures share the width of an A4 sheet.
 */
export const WIDTH = 352;
export const LETTERS = 12;
/** From one line of text to the next. */
export const LEADING = 14;

const FONT = "system-ui, -apple-system, 'Segoe UI', Roboto, 'Helvetica Neue', Arial, 'Open Sans', sans-serif";

/** Wraps shapes as a picture that stands in a page or in a file of its own. */
export function picture(
  words: PictureWords,
  width: number,
  height: number,
  body: Markup,
  facts: Readonly<Record<`data-${string}`, number>> = {},
): string {
  const more = Object.entries(facts).map(
    ([name, value]): Markup => ({ markup: ` ${name}="${Number(value.toPrecision(9))}"` }),
  );
  return markup`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${width} ${height}" role="img" aria-labelledby="${words.id}-title ${words.id}-text" font-family="${FONT}" font-size="${LETTERS}" fill="${INK}"${more}>
<title id="${words.id}-title">${words.title}</title>
<desc id="${words.id}-text">${words.description}</desc>
<rect width="${width}" height="${height}" fill="${PAPER}"/>
${body}
</svg>`.markup;
}

/** How a line of text stands. */
export interface TextStyle {
  anchor?: 'start' | 'middle' | 'end';
  size?: number;
  bold?: boolean;
  ink?: string;
  /** Degrees, about its place. */
  turn?: number;
  /** White round the letters, where lines run behind them. */
  halo?: boolean;
}

/** One line of text. */
export function label(x: number, y: number, text: string, style: TextStyle = {}): Markup {
  const { anchor = 'start', size = LETTERS, bold = false, ink = INK, turn, halo = false } = style;
  return markup`<text x="${x}" y="${y}" text-anchor="${anchor}" font-size="${size}" fill="${ink}"${
    bold && markup` font-weight="600"`
  }${turn !== undefined && markup` transform="rotate(${turn} ${x} ${y})"`}${
    halo && markup` stroke="${PAPER}" stroke-width="3" stroke-linejoin="round" paint-order="stroke"`
  }>${text}</text>`;
}

/** Lines of text under one another. */
export const labels = (
  x: number,
  y: number,
  texts: readonly string[],
  style: TextStyle = {},
  leading = LEADING,
): Markup => markup`${texts.map((text, i) => label(x, y + i * leading, text, style))}`;

/** Breaks a text into lines of about so many characters; a no-break space holds. */
export function wrapped(text: string, width: number): string[] {
  const lines: string[] = [];
  for (const word of text.split(/[ \n]+/)) {
    const last = lines.at(-1);
    if (last !== undefined && last.length + 1 + word.length <= width)
      lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  return lines;
}

/** Width that a text takes at a size, about: for leaving room, not for setting. */
export const textWidth = (text: string, size = LETTERS): number => text.length * size * 0.56;

export interface LineStyle {
  ink?: string;
  width?: number;
  dashes?: string;
  /** Name for whoever reads the drawing back. */
  part?: string;
}

/** Attributes of a stroked line without a fill. */
export const stroke = ({ ink = INK, width = 1, dashes = 'none', part }: LineStyle = {}): Markup =>
  markup`fill="none" stroke="${ink}" stroke-width="${width}"${
    dashes !== 'none' && markup` stroke-dasharray="${dashes}"`
  }${part !== undefined && markup` data-part="${part}"`}`;

export const straight = (x1: number, y1: number, x2: number, y2: number, style: LineStyle = {}): Markup =>
  markup`<line x1="${x1}" y1="${y1}" x2="${x2}" y2="${y2}" ${stroke(style)}/>`;
