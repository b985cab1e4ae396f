const INCH = 0.0254;

const divisor = (a: number, b: number): number => (b === 0 ? a : divisor(b, a % b));

/** Metres as inches and sixteenths: a height up, a gap down, a difference to the nearest. */
export function sixteenths(metres: number, rounding: 'up' | 'down' | 'nearest'): string {
  const exact = (metres / INCH) * 16;
  const count =
    rounding === 'up'
      ? Math.ceil(exact - 1e-6)
      : rounding === 'down'
        ? Math.floor(exact + 1e-6)
        : Math.round(exact);
  const size = Math.abs(count);
  const whole = Math.floor(size / 16);
  const part = size % 16;
  const shared = divisor(part, 16);
  const fraction = part === 0 ? '' : `${part / shared}/${16 / shared}`;
  const text = [whole === 0 && fraction !== '' ? '' : String(whole), fraction].filter(Boolean).join(' ');
  return `${count < 0 ? '-' : ''}${text} in`;
}

const grouped = new Intl.NumberFormat('en-GB');

/** Rarer than this, few draws cannot tell one chance from another. */
const RAREST = 1e-6;

/** A chance as '1 in N', N rounded down, so that it is never said smaller than it is. */
export function oneIn(chance: number): string {
  if (chance < RAREST) return 'fewer than 1 in 1,000,000';
  if (chance >= 0.5) return `${Math.round(chance * 100)} in 100`;
  const n = 1 / chance;
  const digits = 10 ** Math.max(0, Math.floor(Math.log10(n)) - 1);
  return `1 in ${grouped.format(Math.max(1, Math.floor(n / digits + 1e-9) * digits))}`;
}

/** '13/16 in lower', '1/8 in higher', 'the same'. */
export function heightChange(metres: number): string {
  if (Math.abs(metres) < INCH / 32) return 'the same';
  return `${sixteenths(Math.abs(metres), 'nearest')} ${metres < 0 ? 'lower' : 'higher'}`;
}

/** Inches to two decimals. */
export const hundredths = (metres: number): string => `${(metres / INCH).toFixed(2)} in`;

export const mph = (speed: number): string => `${Math.round(speed / 0.44704)} mph`;

export const feet = (metres: number): string => `${grouped.format(Math.round(metres / 0.3048))} ft`;

export const percent = (share: number): string => `${Math.round(share * 100)} %`;

/** Words broken into lines no longer than a width, the first of them after a label. */
export function labelled(label: string, text: string, width = 100, indent = 16): string {
  const lines: string[] = [];
  for (const word of text.split(' ')) {
    const last = lines.at(-1);
    if (last !== undefined && last.length + 1 + word.length <= width - indent) {
      lines[lines.length - 1] = `${last} ${word}`;
    } else lines.push(word);
  }
  return lines.map((line, i) => (i === 0 ? `  ${label}` : '').padEnd(indent) + line).join('\n');
}
