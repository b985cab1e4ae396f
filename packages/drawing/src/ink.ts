/**
 * Greys and two hues that stay apart in greyscale and for colour-blind eyes; what matters is told apart by its dashes
 * too. Text inks have a contrast of 4.5 to 1 and more on white.
 */
export const INK = '#1b1b1b';
export const SOFT_INK = '#555555';
export const GRID_INK = '#d4d4d4';
export const PALE = '#e9e9e6';
export const PALE_BLUE = '#cfdeec';
export const BLUE = '#1d4f86';
export const RUST = '#a3390b';
export const PALE_RUST = '#f2d8c9';
/** Broad and pale, under the lines that add up to it. */
export const UNDER = '#bdbdb6';
export const PAPER = '#ffffff';

/** How the lines of several curves are told apart: colour and dashes together. */
export const STROKES: readonly { ink: string; dashes: string }[] = [
  { ink: BLUE, dashes: 'none' },
  { ink: RUST, dashes: '7 3' },
  { ink: INK, dashes: '2 3' },
  { ink: '#5d6b1e', dashes: '9 3 2 3' },
  { ink: '#6b3f78', dashes: '1 2' },
];

export const strokeOf = (index: number): { ink: string; dashes: string } => STROKES[index % STROKES.length]!;
