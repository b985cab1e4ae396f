import { SIXTEENTH } from '@tubgap/units';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { addTally, emptyTally, HEIGHT_STEPS, stepsBelow, touchesByHeight } from '../src/tally.ts';

describe('a tally of required heights', () => {
  it('counts at each height the runs that need more, whatever they need', () => {
    fc.assert(
      fc.property(fc.array(fc.double({ min: 0.5, max: 2.5, noNaN: true }), { maxLength: 60 }), (needed) => {
        const lowest = 16 * 30 * SIXTEENTH;
        const steps = new Float64Array(HEIGHT_STEPS + 1);
        for (const height of needed) steps[stepsBelow(height, lowest)]!++;
        const touches = touchesByHeight(steps);
        for (let n = 0; n < HEIGHT_STEPS; n += 37) {
          const height = lowest + n * SIXTEENTH;
          const clear = needed.every((value) => Math.abs(value - height) > 1e-9);
          if (clear) expect(touches[n]).toBe(needed.filter((value) => value > height).length);
        }
        for (let n = 1; n < HEIGHT_STEPS; n++) expect(touches[n]).toBeLessThanOrEqual(touches[n - 1]!);
      }),
    );
  });

  it('gives the same sum in any order', () => {
    const part = (n: number) => {
      const tally = emptyTally([1], 1);
      tally.events = n;
      tally.tubs[0]!.steps[n]! += n;
      tally.hardTouches[0] = n;
      return tally;
    };
    const forward = emptyTally([1], 1);
    const backward = emptyTally([1], 1);
    for (const n of [1, 2, 3, 4]) addTally(forward, part(n));
    for (const n of [4, 3, 2, 1]) addTally(backward, part(n));
    expect(forward).toEqual(backward);
    expect(forward.events).toBe(10);
  });

  it('counts a run that no height helps at every height', () => {
    const steps = new Float64Array(HEIGHT_STEPS + 1);
    steps[stepsBelow(Number.POSITIVE_INFINITY, 1)]!++;
    expect(touchesByHeight(steps).every((count) => count === 1)).toBe(true);
  });
});
