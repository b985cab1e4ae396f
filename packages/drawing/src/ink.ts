/**
 * Every ink of the drawings, by what it means. The five that lines and letters are drawn with stay apart for the
 * colour-blind and in grey, each some ten steps of lightness from the next: `ink.test.ts` holds them to that, by the
 * formulas of the field. Text inks have a contrast of 4.5 to 1 and more on paper and on the pale tyre.
 */

/** What is built, and every letter and dimension that has no meaning of its own. */
export const INK = '#1b1b1b';
/** What is said beside. */
export const SOFT_INK = '#555555';
/** Standing still: what is seen with a tape. */
export const BLUE = '#22509b';
/** In a run at its tightest, and what must not be passed. */
export const RUST = '#aa512e';
/** Further curves of a family, whose inks are names and no more. */
export const PLUM = '#402f53';
export const SEA = '#4c9e78';

export const GRID_INK = '#d4d4d4';
/** The body of a tyre, and ranges of what was assumed. */
export const PALE = '#efefec';
/** Ranges of what has the full ink. */
export const PALE_BLUE = '#b3cae4';
export const PALE_RUST = '#f7e0d2';
/** Outlines of single runs. */
export const FAINT_BLUE = '#9db8d3';
export const PAPER = '#ffffff';

/**
 * How the lines of several curves are told apart: ink and dashes together. Those with a meaning elsewhere come last, so
 * that few pictures ask for them.
 */
export const STROKES: readonly { ink: string; dashes: string }[] = [
  { ink: INK, dashes: 'none' },
  { ink: SEA, dashes: '7 3' },
  { ink: PLUM, dashes: '2 3' },
  { ink: BLUE, dashes: '9 3 2 3' },
  { ink: RUST, dashes: '1 2' },
];

/**
 * From least to most, one hue that darkens: it stays in order for the colour-blind and in grey. Each has an ink in which
 * figures on it can be read, so nothing is known by its shade alone.
 */
export const RAMP: readonly { fill: string; ink: string }[] = [
  { fill: '#f7f9fc', ink: INK },
  { fill: '#d9e4f1', ink: INK },
  { fill: PALE_BLUE, ink: INK },
  { fill: '#7f9fcc', ink: INK },
  { fill: BLUE, ink: PAPER },
];

/** Step of the ramp for a share from 0 to 1. */
export const rampOf = (share: number): { fill: string; ink: string } =>
  RAMP[Math.min(RAMP.length - 1, Math.max(0, Math.floor(share * RAMP.length)))]!;

export const strokeOf = (index: number): { ink: string; dashes: string } => STROKES[index % STROKES.length]!;
