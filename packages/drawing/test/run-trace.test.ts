import { describe, expect, it } from 'vitest';
import { type RunTrace, runTrace } from '../src/run-trace.ts';
import { cornersOf, linesOf, pathsOf } from './read-back.ts';

const PLACES = Array.from({ length: 21 }, (_, k) => 3 + (k * 397) / 20);
const trace: RunTrace = {
  words: { id: 'trace', title: 'One run', description: 'a run' },
  places: PLACES,
  quantities: [
    { name: 'speed', values: PLACES.map((x) => Math.sqrt(20 * x)), text: '89 m/s' },
    {
      name: 'gap',
      values: PLACES.map((x) => 0.15 - 0.0003 * x),
      text: '0.03 m',
      limit: { value: 0.0127, text: 'to be kept' },
    },
  ],
  moments: [
    { place: 3, name: 'launch', values: [7.7, 0.149] },
    { place: 400, name: 'finish', values: [89.4, 0.03] },
    { place: 416, name: 'after the lift', values: [89.4, 0.02] },
  ],
  tightest: 2,
  tightestText: 'tightest: after the lift',
  here: 200,
  marks: [{ place: 400, text: '400 m' }],
  marksTitle: 'from the start',
};
const svg = runTrace(trace);

/** Places of the drawing's circles, ringed or filled. */
const circles = (ring: boolean): { cx: number; cy: number }[] =>
  [...svg.matchAll(/<circle cx="([\d.]+)" cy="([\d.]+)" r="[\d.]+" fill="([^"]+)"/g)]
    .filter(([, , , fill]) => (fill === 'none') === ring)
    .map(([, cx, cy]) => ({ cx: Number(cx), cy: Number(cy) }));

describe('a run along the track, read back', () => {
  it('draws every quantity in proportion, the same place of the track under one another', () => {
    const curves = trace.quantities.map(({ name }) => cornersOf(pathsOf(svg, name)[0]!));
    trace.quantities.forEach(({ values }, q) => {
      const curve = curves[q]!;
      expect(curve).toHaveLength(PLACES.length);
      const slope = (curve.at(-1)![1] - curve[0]![1]) / (values.at(-1)! - values[0]!);
      expect(slope).toBeLessThan(0);
      curve.forEach(([x, y], k) => {
        expect(x).toBeCloseTo(curves[0]![k]![0], 6);
        expect(y).toBeCloseTo(curve[0]![1] + slope * (values[k]! - values[0]!), 1);
      });
    });
  });

  it('rings the tightest moment in every row at its place, and dots the others', () => {
    expect(circles(true)).toHaveLength(2);
    expect(circles(false)).toHaveLength(4);
    const [ring] = circles(true);
    const [x] = cornersOf(pathsOf(svg, 'gap')[0]!).at(-1)!;
    expect(ring!.cx).toBeGreaterThan(x);
    expect(svg).toContain('tightest: after the lift');
  });

  it('draws the gap to be kept in its row and a line at the place in hand', () => {
    const [reserve] = linesOf(svg, 'reserve');
    const curve = cornersOf(pathsOf(svg, 'gap')[0]!);
    expect(reserve!.y1).toBeGreaterThan(curve.at(-1)![1]);
    const [here] = linesOf(svg, 'here');
    const share = (200 - 3) / 397;
    expect(here!.x1).toBeCloseTo(curve[0]![0] + share * (curve.at(-1)![0] - curve[0]![0]), 1);
  });
});
