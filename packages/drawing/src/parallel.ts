import { BLUE, INK, PALE_BLUE, PAPER, PLUM, RAMP, RUST, SOFT_INK, strokeOf } from './ink.ts';
import { type Markup, markup, shortNumber } from './markup.ts';
import {
  LEADING,
  LETTERS,
  type LineStyle,
  label,
  labels,
  type PictureWords,
  picture,
  straight,
  stroke,
  textWidth,
  WIDTH,
  wrapped,
} from './picture.ts';

/** One axis, and what is written at its ends. */
export interface ParallelAxis {
  title: string;
  low: string;
  high: string;
}

/** A point: where it stands on each axis, from 0 at the low end to 1 at the high one. */
export interface ParallelLine {
  at: readonly number[];
  /** Of the figure, from its least, 0, to its most, 1; undefined: it has none. */
  share: number | undefined;
  /** Drawn over all others, with its name. */
  name?: string | undefined;
}

/** Points that differ in several inputs at once: each a line across the axes of the inputs to the axis of its figure. */
export interface Parallel {
  words: PictureWords;
  axes: readonly ParallelAxis[];
  /** What the lines end at, and are shaded by. */
  figure: ParallelAxis;
  /** What a line without a figure ends at: 'no height'. */
  none: string;
  lines: readonly ParallelLine[];
  note: string;
}

/** From the most of the figure to the least, which is drawn last and darkest; points with a name are darker still. */
const SHADES = [PALE_BLUE, RAMP[3]!.fill, BLUE, PLUM];
const shadeOf = (share: number): string =>
  SHADES[Math.min(SHADES.length - 1, Math.floor((1 - share) * SHADES.length))]!;

const SIDE = 44;
const APART = 88;
const TALL = 220;

/** Points in parallel coordinates. Source of the kind of picture: A. Inselberg (1985), The Visual Computer 1:69 (from memory). */
export function parallel({ words, axes, figure, none, lines, note }: Parallel): string {
  const all = [...axes, figure];
  const width = Math.max(WIDTH, 2 * SIDE + APART * (all.length - 1));
  const apart = (width - 2 * SIDE) / Math.max(1, all.length - 1);
  const x = (axis: number): number => SIDE + apart * axis;
  const room = Math.floor((apart - 6) / textWidth('m'));
  const titles = all.map(({ title }) => wrapped(title, room));
  const hasNone = lines.some(({ share }) => share === undefined);
  const top = 16 + LEADING * Math.max(...titles.map((title) => title.length)) + (hasNone ? 38 : 20);
  const bottom = top + TALL;
  const y = (share: number): number => bottom - share * TALL;
  const noneAt = top - 24;

  const wayOf = ({ at, share }: ParallelLine): string =>
    [...at.map(y), share === undefined ? noneAt : y(share)]
      .map((to, axis) => `${axis === 0 ? 'M' : 'L'}${shortNumber(x(axis))} ${shortNumber(to)}`)
      .join('');
  const named = lines.filter(({ name }) => name !== undefined);
  /** Of a point with a name by its place among these, so that two are told apart without their shade. */
  const nameStyle = (line: ParallelLine): LineStyle => ({
    ink: INK,
    width: 3,
    dashes: named.indexOf(line) === named.length - 1 ? 'none' : strokeOf(named.indexOf(line) + 1).dashes,
  });
  const drawn = (line: ParallelLine): Markup => {
    const { share, name } = line;
    const way = wayOf(line);
    if (name !== undefined) {
      return markup`<path d="${way}" ${stroke({ ink: PAPER, width: 6 })}/><path d="${way}" ${stroke({ ...nameStyle(line), part: 'named point' })}/>`;
    }
    const style = share === undefined ? { ink: RUST, dashes: '4 3' } : { ink: shadeOf(share), width: 1.3 };
    return markup`<path d="${way}" ${stroke({ ...style, part: 'point' })}/>`;
  };
  const rank = ({ share, name }: ParallelLine): number => (name === undefined ? (share ?? 2) : -1);
  const notes = wrapped(note, Math.floor((width - 16) / (0.5 * LETTERS)));
  const key = bottom + 34;
  return picture(
    words,
    width,
    key + 18 + LEADING * (named.length + notes.length) + 8,
    markup`${lines.toSorted((a, b) => rank(b) - rank(a)).map(drawn)}
${all.map(({ low, high }, axis) => {
  const isLast = axis === all.length - 1;
  // At the sides of the picture words stand inwards.
  const [anchor, at] = isLast
    ? (['end', width - 8] as const)
    : axis === 0
      ? (['start', 8] as const)
      : (['middle', x(axis)] as const);
  const end = { anchor: 'middle', halo: true, ink: SOFT_INK } as const;
  return markup`${[
    straight(x(axis), top, x(axis), bottom, { width: isLast ? 1.6 : 1, part: 'axis' }),
    label(x(axis), top - 6, high, end),
    label(x(axis), bottom + 15, low, end),
    labels(at, 16, titles[axis]!, { anchor, bold: isLast }),
  ]}`;
})}
${hasNone && label(x(all.length - 1), noneAt - 4, none, { anchor: 'middle', ink: RUST, halo: true })}
${keyAt(key, figure)}
${named.map((one, i) => {
  const at = key + 18 + LEADING * i;
  return markup`${straight(8, at - 4, 34, at - 4, nameStyle(one))}${label(41, at, one.name!)}`;
})}
${labels(8, key + 18 + LEADING * named.length, notes, { ink: SOFT_INK })}`,
  );
}

/** The shades from least to most, with the figure at either end. */
function keyAt(y: number, { low, high }: ParallelAxis): Markup {
  const from = 8 + textWidth(low) + 8;
  const size = 22;
  return markup`${label(8, y, low)}${SHADES.toReversed().map((ink, i) =>
    straight(from + size * i, y - 4, from + size * (i + 1), y - 4, { ink, width: 5 }),
  )}${label(from + size * SHADES.length + 8, y, high)}`;
}
