import { scaleLinear } from 'd3-scale';
import { hatching } from './detail.ts';
import { BLUE, INK, PALE_BLUE, PALE_RUST, PAPER, RUST, SOFT_INK } from './ink.ts';
import { type Markup, markup } from './markup.ts';
import { label, type PictureWords, picture, straight, WIDTH } from './picture.ts';

/** One step of a gap's way: what it is, and from where to where it takes the gap, m. */
export interface WaterfallStep {
  label: string;
  text: string;
  from: number;
  to: number;
}

/** How a gap that is seen becomes the gap that is left: the steps add up. Lengths in m. */
export interface Waterfall {
  words: PictureWords;
  start: { label: string; text: string; gap: number };
  /** Each from where the one before ended. */
  steps: readonly WaterfallStep[];
  left: { label: string; text: string; gap: number };
  reserve: number;
  reserveText: string;
}

const ROW = 40;
const BAR = 16;
const LEFT = 8;
const RIGHT = WIDTH - 8;

/** A run's gap as bars one under another, each beginning where the last one ended; of what is left the reserve is hatched. */
export function waterfall(drawn: Waterfall): string {
  const { words, start, steps, left, reserve } = drawn;
  const ends = [0, start.gap, left.gap, reserve, ...steps.flatMap(({ from, to }) => [from, to])];
  const x = scaleLinear([Math.min(...ends), Math.max(...ends)], [LEFT, RIGHT]);
  const hatch = `${words.id}-hatch`;
  const bar = (row: number, from: number, to: number, fill: string, edge: string): Markup => {
    const [a, b] = [x(Math.min(from, to)), x(Math.max(from, to))];
    return markup`<rect x="${a}" y="${row * ROW + 18}" width="${b - a}" height="${BAR}" fill="${fill}" stroke="${edge}" stroke-width="0.8" data-part="step"/>`;
  };
  const named = (row: number, name: string, text: string): Markup =>
    markup`${label(LEFT, row * ROW + 13, name)}${label(RIGHT, row * ROW + 13, text, { anchor: 'end', bold: true })}`;
  const fall = (row: number, at: number): Markup =>
    straight(x(at), row * ROW + 18 + BAR, x(at), (row + 1) * ROW + 18, {
      ink: SOFT_INK,
      width: 0.8,
      dashes: '2 2',
    });
  const last = steps.length + 1;
  const kept = Math.max(0, Math.min(reserve, left.gap));
  const bottom = (last + 1) * ROW + 4;
  const body = markup`<defs>${hatching(hatch)}</defs>
${[named(0, start.label, start.text), bar(0, 0, start.gap, PALE_BLUE, BLUE), fall(0, start.gap)]}
${steps.flatMap((step, i) => [
  named(i + 1, step.label, step.text),
  bar(i + 1, step.from, step.to, PALE_RUST, RUST),
  fall(i + 1, step.to),
])}
${[named(last, left.label, left.text), bar(last, 0, left.gap, PAPER, INK)]}
<rect x="${x(0)}" y="${last * ROW + 18}" width="${x(kept) - x(0)}" height="${BAR}" fill="url(#${hatch})" data-part="reserve"/>
${straight(x(0), 14, x(0), bottom - 4, { width: 0.8 })}
<rect x="${LEFT}" y="${bottom + 2}" width="26" height="11" fill="url(#${hatch})" stroke="${INK}" stroke-width="0.6"/>
${label(LEFT + 34, bottom + 12, drawn.reserveText)}`;
  return picture(words, WIDTH, bottom + 20, body);
}
