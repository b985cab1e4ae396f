import { tapeText } from '@tubgap/units';

/** What a key of the pad writes: a digit, sixteenths of an inch beside the whole ones, and the rest. */
export type Key =
  | { kind: 'digit'; digit: number }
  | { kind: 'sixteenths'; count: number }
  | { kind: 'point' }
  | { kind: 'sign' }
  | { kind: 'clear' };

/** What the keys have written: '-6 1/8', '154.5'; anything else was typed otherwise. */
const WRITTEN = /^(-?)(\d*)(?:(\.\d*)| ?(\d+\/\d+))?$/;

/** Most digits before the point: a top height stands under 100 in and under 10 m. */
const MOST = { inch: 2, mm: 4 } as const;

/** Sixteenths in lowest terms: '1/8'; none: ''. */
export const fractionText = (count: number): string => (count === 0 ? '' : tapeText(count));

/** What stands in a field after a key; what was typed there otherwise begins anew. */
export function pressed(text: string, key: Key, units: 'inch' | 'mm'): string {
  const [, sign = '', whole = '', decimals = '', fraction = ''] = WRITTEN.exec(text.trim()) ?? [];
  const put = (digits: string, rest: string): string => `${sign}${digits}${rest}`;
  switch (key.kind) {
    case 'clear':
      return '';
    case 'sign':
      return `${sign === '' ? '-' : ''}${text.trim().replace(/^-/, '')}`;
    case 'point':
      return decimals === '' && fraction === '' ? put(whole || '0', '.') : text;
    case 'sixteenths': {
      const written = fractionText(key.count);
      const inches = whole || (written === '' ? '0' : '');
      return put(inches, `${inches !== '' && written !== '' ? ' ' : ''}${written}`);
    }
    case 'digit':
      if (decimals !== '') return put(whole, `${decimals}${key.digit}`);
      // After a fraction, or with no room left, a digit begins another reading.
      return fraction !== '' || whole.length >= MOST[units]
        ? `${sign}${key.digit}`
        : put(`${whole === '0' ? '' : whole}${key.digit}`, '');
  }
}
