import { describe, expect, it } from 'vitest';
import { INK, PALE, PAPER, RUST, SOFT_INK, STROKES } from '../src/ink.ts';

/** Relative luminance and contrast ratio as WCAG 2.1 defines them (section "relative luminance"). */
function luminance(colour: string): number {
  const [red, green, blue] = [1, 3, 5].map((at) => {
    const share = Number.parseInt(colour.slice(at, at + 2), 16) / 255;
    return share <= 0.03928 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * red! + 0.7152 * green! + 0.0722 * blue!;
}

function contrast(one: string, other: string): number {
  const [light, dark] = [luminance(one), luminance(other)].sort((a, b) => b - a);
  return (light! + 0.05) / (dark! + 0.05);
}

describe('inks', () => {
  it('are reckoned by a contrast that gives 21 for black on white', () => {
    expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 10);
  });

  // Success criterion 1.4.3: 4.5 for text; 1.4.11: 3 for lines that carry meaning.
  it('of text stand out from the paper and from the pale tyre', () => {
    for (const ink of [INK, SOFT_INK, RUST])
      for (const ground of [PAPER, PALE]) expect(contrast(ink, ground)).toBeGreaterThan(4.5);
  });

  it('of curves stand out from the paper, and no two share their dashes', () => {
    for (const { ink } of STROKES) expect(contrast(ink, PAPER)).toBeGreaterThan(3);
    expect(new Set(STROKES.map(({ dashes }) => dashes)).size).toBe(STROKES.length);
  });
});
