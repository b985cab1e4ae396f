import { describe, expect, it } from 'vitest';
import { RUST } from '../src/ink.ts';
import { parallel } from '../src/parallel.ts';
import { contrast } from './colour.ts';

const axis = (title: string, low: string, high: string) => ({ title, low, high });
const LINES = [
  { at: [0, 1, 0.5], share: 0, name: 'the best' },
  { at: [1, 0, 0.5], share: 1 },
  { at: [0.5, 0.5, 1], share: 0.5 },
  { at: [1, 1, 0], share: undefined },
];

describe('parallel coordinates', () => {
  const svg = parallel({
    words: { id: 'points', title: 'points', description: 'of a sweep' },
    axes: [axis('speed', '200', '240'), axis('pressure', '5', '8'), axis('travel', '1.4', '2')],
    figure: axis('top height, in', '38 3/4', '39 1/2'),
    none: 'no height',
    lines: LINES,
    note: 'a note',
  });
  const paths = [...svg.matchAll(/<path d="([^"]*)" [^>]*stroke="([^"]*)"[^>]*data-part="([^"]*)"/g)].map(
    ([, way, ink, part]) => ({
      places: way!
        .split(/[ML]/)
        .slice(1)
        .map((place) => place.split(' ').map(Number) as [number, number]),
      ink: ink!,
      part: part!,
    }),
  );

  it('draws every point once across all axes to its figure, the least last and darkest', () => {
    expect(paths).toHaveLength(LINES.length);
    for (const { places } of paths) expect(places).toHaveLength(4);
    const best = paths.at(-1)!;
    expect(best.part).toBe('named point');
    const most = paths.find(
      ({ places }) => places[0]![1] < best.places[0]![1] && places[1]![1] > best.places[1]![1],
    )!;
    // Lower on the paper is less.
    expect(best.places[3]![1]).toBeGreaterThan(most.places[3]![1]);
    expect(contrast(best.ink, '#ffffff')).toBeGreaterThan(contrast(most.ink, '#ffffff') * 4);
  });

  it('names the ends of every axis, tells a line without a figure by its dashes, and lies within the picture', () => {
    for (const text of ['200', '240', '5', '8', '1.4', '38 3/4', '39 1/2', 'no height', 'the best'])
      expect(svg).toContain(`>${text}<`);
    expect(paths.map(({ ink }) => ink).filter((ink) => ink === RUST)).toHaveLength(1);
    expect(svg.match(/stroke-dasharray/g)).toHaveLength(1);
    const [, wide, high] = /viewBox="0 0 ([\d.]+) ([\d.]+)"/.exec(svg)!.map(Number);
    for (const [x, y] of paths.flatMap(({ places }) => places)) {
      expect(x > 0 && x < wide! && y > 0 && y < high!).toBe(true);
    }
  });
});
