import { line } from 'd3-shape';
import { type Box, bottomAxis } from './axes.ts';
import { BLUE, GRID_INK, INK, RUST, SOFT_INK } from './ink.ts';
import { type Markup, markup } from './markup.ts';
import { label, type PictureWords, picture, straight, stroke, WIDTH } from './picture.ts';

/** One quantity along the track: what it is, its figures at the places, and how they are said. */
export interface TracedQuantity {
  name: string;
  values: readonly number[];
  /** Words for the value at the place in hand: '182 mph'. */
  text: string;
  /** Value that is drawn across, and its words: the gap to be kept. */
  limit?: { value: number; text: string };
}

/** A run along the track. Places in m from the start, rising. */
export interface RunTrace {
  words: PictureWords;
  places: readonly number[];
  quantities: readonly TracedQuantity[];
  /** Moments of the run with their own states, such as the gear change: a mark in every row. */
  moments: readonly { place: number; name: string; values: readonly number[] }[];
  /** Index into `moments` of the tightest. */
  tightest: number;
  tightestText: string;
  /** Place in hand. */
  here: number;
  marks: readonly { place: number; text: string }[];
  marksTitle: string;
}

const LEFT = 12;
const RIGHT = WIDTH - 12;
const TOP = 18;
const ROW = 62;
const GAP = 30;

const rowTop = (q: number): number => TOP + q * (ROW + GAP) + 16;

/** Name of a row and its value at the place in hand, over all lines. */
const heading = (name: string, text: string, y: number): Markup =>
  markup`${[label(LEFT, y, name, { halo: true }), label(LEFT + 150, y, text, { bold: true, halo: true })]}`;

/** One row: its curve, its limit and the marks of the moments. */
function row(drawn: RunTrace, quantity: TracedQuantity, q: number, x: (place: number) => number): Markup {
  const top = rowTop(q);
  const own = drawn.moments.map(({ values }) => values[q]!);
  const all = [...quantity.values, ...own, 0, ...(quantity.limit ? [quantity.limit.value] : [])];
  const least = Math.min(...all);
  const y = (value: number): number => top + ROW - (ROW * (value - least)) / (Math.max(...all) - least || 1);
  const curve = line<number>(
    (k) => x(drawn.places[k]!),
    (k) => y(quantity.values[k]!),
  ).digits(2);
  const tight = drawn.moments[drawn.tightest];
  const { limit } = quantity;
  return markup`${straight(LEFT, y(0), RIGHT, y(0), { ink: GRID_INK })}${
    limit !== undefined &&
    markup`${straight(LEFT, y(limit.value), RIGHT, y(limit.value), { ink: INK, dashes: '2 2', part: 'reserve' })}${label(
      LEFT + 3,
      y(limit.value) - 3,
      limit.text,
      { halo: true },
    )}`
  }<path d="${curve(drawn.places.map((_, k) => k)) ?? ''}" ${stroke({ ink: BLUE, width: 2, part: quantity.name })}/>${own.map(
    (value, m) =>
      markup`<circle cx="${x(drawn.moments[m]!.place)}" cy="${y(value)}" r="${m === drawn.tightest ? 5 : 2.5}" fill="${m === drawn.tightest ? 'none' : SOFT_INK}" stroke="${m === drawn.tightest ? RUST : SOFT_INK}" stroke-width="${m === drawn.tightest ? 2 : 0.8}"/>`,
  )}${
    tight !== undefined &&
    q === drawn.quantities.length - 1 &&
    label(
      x(tight.place) > 0.5 * WIDTH ? x(tight.place) - 9 : x(tight.place) + 9,
      y(own[drawn.tightest]!) + 15,
      drawn.tightestText,
      {
        anchor: x(tight.place) > 0.5 * WIDTH ? 'end' : 'start',
        bold: true,
        ink: RUST,
        halo: true,
      },
    )
  }`;
}

/** Speed, growth, drop and gap of one run against the distance, one over another, with its tightest moment marked. */
export function runTrace(drawn: RunTrace): string {
  const last = Math.max(...drawn.places, ...drawn.moments.map(({ place }) => place));
  const x = (place: number): number => LEFT + ((RIGHT - LEFT) * place) / last;
  const bottom = TOP + drawn.quantities.length * (ROW + GAP) + 6;
  const box: Box = { left: LEFT, right: RIGHT, top: TOP, bottom };
  const body = markup`${bottomAxis(
    box,
    drawn.marks.map(({ place, text }) => ({ at: x(place), text })),
    drawn.marksTitle,
  )}
${drawn.quantities.map((quantity, q) => row(drawn, quantity, q, x))}
${straight(x(drawn.here), TOP, x(drawn.here), bottom, { ink: INK, width: 1.5, part: 'here' })}
${drawn.quantities.map(({ name, text }, q) => heading(name, text, rowTop(q) - 9))}`;
  return picture(drawn.words, WIDTH, bottom + 36, body);
}
