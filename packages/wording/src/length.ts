const INCH = 0.0254;
/** A length within this of a sixteenth is that sixteenth, in sixteenths: rounding of the last digits moves nothing. */
const SLACK = 1e-6;

const FRACTIONS = [
  '',
  '1/16',
  '1/8',
  '3/16',
  '1/4',
  '5/16',
  '3/8',
  '7/16',
  '1/2',
  '9/16',
  '5/8',
  '11/16',
  '3/4',
  '13/16',
  '7/8',
  '15/16',
];

const ROUNDED = {
  up: (count: number): number => Math.ceil(count - SLACK),
  down: (count: number): number => Math.floor(count + SLACK),
  nearest: Math.round,
} as const;

/**
 * Metres as inches and sixteenths, as a tape shows them: '39 3/8 in'. A height is rounded up, a gap that is there
 * down, a difference to the nearest: the safe way is the caller's to know.
 */
export function sixteenths(metres: number, rounding: keyof typeof ROUNDED): string {
  const count = ROUNDED[rounding]((metres / INCH) * 16);
  const inches = Math.floor(Math.abs(count) / 16);
  const fraction = FRACTIONS[Math.abs(count) % 16]!;
  const text = [inches === 0 && fraction !== '' ? '' : String(inches), fraction].filter(Boolean).join(' ');
  return `${count < 0 ? '-' : ''}${text} in`;
}

/** Keeps a figure and its unit on one line, '39 1/4 in' or '1 in 2,000', by no-break spaces. */
export const unbroken = (text: string): string =>
  text
    .replace(/(?<=\d) (?=\d+\/\d+ in\b|in\b|mm\b|psi\b|lb\b|mph\b|ft\b|%)/g, '\u00a0')
    .replace(/(?<=\b1\u00a0in) (?=[\d,]+\b)/g, '\u00a0');
