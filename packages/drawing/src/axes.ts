import { GRID_INK, INK, SOFT_INK } from './ink.ts';
import { type Markup, markup } from './markup.ts';
import { label, straight } from './picture.ts';

/** How far an axis' title stands above the axis: clear of the topmost figure. */
const TITLE_ABOVE = 12;

/** Where a plot's axes stand in its picture. */
export interface Box {
  left: number;
  right: number;
  top: number;
  bottom: number;
}

/** A tick: its place in the drawing and what is written there; without words only the grid line is drawn. */
export interface Tick {
  at: number;
  text: string;
}

/** Marks along the bottom with grid lines, and what is plotted under them. */
export const bottomAxis = (box: Box, ticks: readonly Tick[], title: string, below = 15): Markup =>
  markup`${[
    ...ticks.flatMap(({ at, text }) => [
      straight(at, box.top, at, box.bottom, { ink: GRID_INK, width: 0.6 }),
      label(at, box.bottom + below, text, { anchor: 'middle', ink: SOFT_INK }),
    ]),
    straight(box.left, box.bottom, box.right, box.bottom, { ink: INK }),
    label(0.5 * (box.left + box.right), box.bottom + below + 17, title, { anchor: 'middle' }),
  ]}`;

/** A second row of figures along the bottom, in another unit. */
export const secondRow = (box: Box, ticks: readonly Tick[], below: number): Markup =>
  markup`${ticks.map(({ at, text }) =>
    label(at, box.bottom + below, text, { anchor: 'middle', ink: SOFT_INK }),
  )}`;

/** Marks along the left with grid lines; the title stands over the axis. */
export const leftAxis = (box: Box, ticks: readonly Tick[], title: string): Markup =>
  markup`${[
    ...ticks.flatMap(({ at, text }) => [
      straight(box.left, at, box.right, at, { ink: GRID_INK, width: 0.6 }),
      label(box.left - 5, at + 4, text, { anchor: 'end', ink: SOFT_INK }),
    ]),
    straight(box.left, box.top, box.left, box.bottom, { ink: INK }),
    label(4, box.top - TITLE_ABOVE, title),
  ]}`;

/** Figures along the right, in another unit. */
export const rightAxis = (box: Box, ticks: readonly Tick[], title: string): Markup =>
  markup`${[
    ...ticks.map(({ at, text }) => label(box.right + 5, at + 4, text, { ink: SOFT_INK })),
    label(box.right + 5, box.top - TITLE_ABOVE, title, { ink: SOFT_INK }),
  ]}`;

/** Multiples of a step from low to high, both taken in. */
export function multiples(step: number, low: number, high: number): number[] {
  const first = Math.ceil(low / step - 1e-9);
  const last = Math.floor(high / step + 1e-9);
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, i) => (first + i) * step);
}

/** The first of some steps that gives at most `most` ticks over a range. */
export const stepFor = (range: number, steps: readonly number[], most: number): number =>
  steps.find((step) => range / step <= most) ?? steps.at(-1)!;
