import { describe, expect, it } from 'vitest';
import { heatMap } from '../src/heat-map.ts';
import { RAMP } from '../src/ink.ts';
import { tornado } from '../src/tornado.ts';
import { contrast } from './colour.ts';

const INCH = 0.0254;
const words = { id: 'map', title: 'a map', description: 'of figures' };
/** Middle of every text, and what it says. */
const textsOf = (svg: string): { x: number; y: number; text: string }[] =>
  [...svg.matchAll(/<text x="([\d.-]+)" y="([\d.-]+)"[^>]*>([^<]*)</g)].map(([, x, y, text]) => ({
    x: Number(x),
    y: Number(y),
    text: text!,
  }));

describe('the ramp', () => {
  it('darkens step by step in grey, and figures on every step can be read', () => {
    const onPaper = RAMP.map(({ fill }) => contrast(fill, '#ffffff'));
    for (const [i, each] of onPaper.entries())
      if (i > 0) expect(each / onPaper[i - 1]!).toBeGreaterThan(1.15);
    for (const { fill, ink } of RAMP) expect(contrast(fill, ink)).toBeGreaterThan(4.5);
  });
});

describe('a map', () => {
  it('shows a grid of any size whole: every cell once, with its figure, the first row lowest', () => {
    const n = 23;
    const names = Array.from({ length: n }, (_, i) => `v${i}`);
    const cells = names.map((_, r) =>
      names.map((__, c) => ({ text: `${r}:${c}`, share: (r + c) / (2 * n - 2) })),
    );
    const svg = heatMap({
      words,
      figure: 'height',
      columns: { title: 'speed', texts: names },
      rows: { title: 'pressure', texts: names },
      panels: [{ title: '', cells }],
      ends: ['low', 'high'],
      note: 'a note',
    });
    const [width, height] = /viewBox="0 0 ([\d.]+) ([\d.]+)"/.exec(svg)!.slice(1).map(Number) as [
      number,
      number,
    ];
    const found = textsOf(svg).filter(({ text }) => /^\d+:\d+$/.test(text));
    expect(new Set(found.map(({ text }) => text)).size).toBe(n * n);
    for (const { x, y } of found) expect(x > 0 && x < width && y > 0 && y < height).toBe(true);
    const at = (text: string) => found.find((one) => one.text === text)!;
    expect(at('0:0').y).toBeGreaterThan(at('1:0').y);
    expect(at('0:1').x).toBeGreaterThan(at('0:0').x);
    expect(svg.match(/data-part="cell"/g)).toHaveLength(n * n);
    expect(svg).toContain(`fill="${RAMP[4]!.fill}"`);
  });
});

describe('a tornado', () => {
  it('draws what an input gives and takes to one scale about the case, and names both ends', () => {
    const end = (eighths: number) => ({
      change: (eighths * INCH) / 8,
      low: ((eighths - 0.1) * INCH) / 8,
      high: ((eighths + 0.1) * INCH) / 8,
      text: `end ${eighths}`,
    });
    const alone = end(1);
    const svg = tornado({
      words,
      rows: [
        { label: 'travel', least: end(-2), most: end(4) },
        { label: 'tyre', least: alone, most: alone },
      ],
      note: '',
    });
    const bars = [...svg.matchAll(/<rect x="([\d.]+)" y="[\d.]+" width="([\d.]+)"[^>]*data-part="bar"/g)].map(
      ([, x, width]) => [Number(x), Number(width)] as const,
    );
    expect(bars).toHaveLength(3);
    const [less, more, one] = bars as [[number, number], [number, number], [number, number]];
    expect(less[0] + less[1]).toBeCloseTo(more[0], 1);
    expect(more[1] / less[1]).toBeCloseTo(2, 2);
    expect(more[1] / one[1]).toBeCloseTo(4, 1);
    for (const text of ['end -2', 'end 4', 'travel', 'tyre']) expect(svg).toContain(`>${text}<`);
  });
});
