import { describe, expect, it } from 'vitest';
import { BLUE, INK, PALE, PALE_BLUE, PALE_RUST, PAPER, RUST, SOFT_INK, STROKES } from '../src/ink.ts';
import { apart, ciede2000, contrast, linear, SEEN, type Triple } from './colour.ts';

/** Every two of a list. */
const pairs = (all: readonly string[]): [string, string][] =>
  all.flatMap((one, i) => all.slice(i + 1).map((other): [string, string] => [one, other]));

const eachEye = (all: readonly string[]): [string, string, string][] =>
  Object.keys(SEEN).flatMap((kind) =>
    pairs(all).map(([one, other]): [string, string, string] => [kind, one, other]),
  );

/** An sRGB colour from linear light, to 8 bits. */
const printed = (light: Triple): string =>
  `#${light
    .map((part) => {
      const share = part <= 0.0031308 ? 12.92 * part : 1.055 * part ** (1 / 2.4) - 0.055;
      return Math.round(255 * share)
        .toString(16)
        .padStart(2, '0');
    })
    .join('')}`;

describe('the measures of inks', () => {
  it('are a contrast of 21 for black on white, and what is printed elsewhere for others', () => {
    expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 3);
    // Widely printed with WCAG 2: #767676 just passes on white, #777777 does not.
    expect(contrast('#767676', '#ffffff')).toBeCloseTo(4.54, 2);
    expect(contrast('#777777', '#ffffff')).toBeCloseTo(4.48, 2);
  });

  // Sharma, Wu and Dalal 2005, Table 1.
  it.each<[Triple, Triple, number]>([
    [[50, 2.6772, -79.7751], [50, 0, -82.7485], 2.0425],
    [[50, 0, 0], [50, -1, 2], 2.3669],
    [[50, 2.49, -0.001], [50, -2.49, 0.001], 7.1792],
    [[50, 2.49, -0.001], [50, -2.49, 0.0011], 7.2195],
    [[50, -0.001, 2.49], [50, 0.0011, -2.49], 4.7461],
    [[50, 2.5, 0], [73, 25, -18], 27.1492],
    [[90.8027, -2.0831, 1.441], [91.1528, -1.6435, 0.0447], 1.4441],
    [[2.0776, 0.0795, -1.135], [0.9033, -0.0636, -0.5514], 0.9082],
  ])('are CIEDE2000: %j and %j lie %d apart, either way round', (one, other, far) => {
    expect(ciede2000(one, other)).toBeCloseTo(far, 4);
    expect(ciede2000(other, one)).toBeCloseTo(far, 4);
  });

  // Derived from the published matrices in another language.
  it.each([
    ['#ff0000', '#6d5f00', '#a39000'],
    ['#0000ff', '#0059ff', '#003dfb'],
    ['#d55e00', '#817100', '#9e8c00'],
    ['#009e73', '#9a9271', '#8a8676'],
  ])('see %s as %s where red is missing, as %s where green is', (colour, protan, deutan) => {
    expect(printed(SEEN.protan!(linear(colour)))).toBe(protan);
    expect(printed(SEEN.deutan!(linear(colour)))).toBe(deutan);
  });

  it('see red and green far apart, and leave grey grey', () => {
    expect(apart('#d62728', '#2ca02c', 'normal')).toBeCloseTo(71.828, 2);
    const grey = linear('#808080');
    for (const seen of Object.values(SEEN))
      for (const part of seen(grey)) expect(part).toBeCloseTo(grey[0], 5);
  });
});

describe('inks', () => {
  // Success criterion 1.4.3: 4.5 for text; 1.4.11: 3 for lines that carry meaning.
  it('of text stand out from the paper and from the pale tyre', () => {
    for (const ink of [INK, SOFT_INK, RUST, BLUE])
      for (const ground of [PAPER, PALE]) expect(contrast(ink, ground)).toBeGreaterThan(4.5);
  });

  it('of curves stand out from the paper, and no two share their dashes', () => {
    for (const { ink } of STROKES) expect(contrast(ink, PAPER)).toBeGreaterThan(3);
    expect(new Set(STROKES.map(({ dashes }) => dashes)).size).toBe(STROKES.length);
  });

  // A difference of one is just seen side by side; eight is told apart across a page. The limit is this project's own.
  it.each(eachEye(STROKES.map(({ ink }) => ink)))('stay apart, %s: %s and %s', (kind, one, other) => {
    expect(apart(one, other, kind)).toBeGreaterThan(8);
  });

  it.each(eachEye([PALE_BLUE, PALE_RUST, PAPER]))(
    'of bands stay apart, %s: %s and %s',
    (kind, one, other) => {
      expect(apart(one, other, kind)).toBeGreaterThan(5);
    },
  );
});
