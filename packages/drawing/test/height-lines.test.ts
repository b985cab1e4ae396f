import { describe, expect, it } from 'vitest';
import { type HeightPoint, heightLines } from '../src/height-lines.ts';
import { cornersOf, linesOf, pathsOf } from './read-back.ts';

const INCH = 0.0254;
const words = { id: 'lines', title: 'lines', description: 'lines' };
const rest = { words, axis: 'speed, mph', note: 'a note', noneText: 'no height at all' };

/** Heights in inches at values, with an interval of a quarter inch either way. */
const points = (pairs: readonly [number, number][]): HeightPoint[] =>
  pairs.map(([value, inches]) => ({
    value,
    height: inches * INCH,
    low: (inches - 0.25) * INCH,
    high: (inches + 0.25) * INCH,
  }));

describe('height against the values of an input', () => {
  it('stands in proportion to value and height, marks the case, and breaks where a value has no height', () => {
    const svg = heightLines({
      ...rest,
      curves: [
        {
          label: 'one',
          pieces: [
            points([
              [200, 38],
              [210, 38.5],
              [240, 40],
            ]),
          ],
        },
        {
          label: 'two',
          pieces: [
            points([
              [200, 39],
              [210, 39.25],
            ]),
            points([
              [230, 39.75],
              [240, 40],
            ]),
          ],
        },
      ],
      own: { value: 220, text: 'as in the case' },
    });
    const paths = pathsOf(svg, 'height').map(cornersOf);
    expect(paths.map((path) => path.length)).toEqual([3, 2, 2]);
    const [from, middle, to] = paths[0]!;
    expect((middle![0] - from![0]) / (to![0] - from![0])).toBeCloseTo(10 / 40, 3);
    expect((middle![1] - from![1]) / (to![1] - from![1])).toBeCloseTo(0.5 / 2, 3);
    expect(to![1]).toBeLessThan(from![1]);
    expect(linesOf(svg, 'own')[0]!.x1).toBeCloseTo(0.5 * (from![0] + to![0]), 1);
    expect(svg).toContain('as in the case');
  });

  it('keeps a flat line flat, and says where there is nothing to draw', () => {
    const flat = heightLines({
      ...rest,
      curves: [
        {
          label: 'one',
          pieces: [
            points([
              [5, 39],
              [7, 39.01],
            ]),
          ],
        },
      ],
    });
    const [from, to] = cornersOf(pathsOf(flat, 'height')[0]!);
    expect(Math.abs(to![1] - from![1])).toBeLessThan(4);
    expect(heightLines({ ...rest, curves: [] })).toContain('no height at all');
  });
});
