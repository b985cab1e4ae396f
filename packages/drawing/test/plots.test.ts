import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { labelledBars } from '../src/bars.ts';
import { gapByAngle } from '../src/gap-by-angle.ts';
import { growthPicture } from '../src/growth-curve.ts';
import { heightDots } from '../src/height-dots.ts';
import { textWidth, WIDTH } from '../src/picture.ts';
import { type RiskPoint, riskChart } from '../src/risk-chart.ts';
import { waterfall } from '../src/waterfall.ts';
import { barWidths, cornersOf, linesOf, pathsOf } from './read-back.ts';

const INCH = 0.0254;
const words = { id: 'plot', title: 'plot', description: 'plot' };

/** A risk that falls tenfold in an inch from 1 at 36 in, every 1/4 in. */
const falling = (steps: number): RiskPoint[] =>
  Array.from({ length: steps }, (_, n) => {
    const estimate = 10 ** (-n / 4);
    return { height: (36 + n / 4) * INCH, estimate, low: estimate / 2, high: Math.min(1, 2 * estimate) };
  });

const riskOf = (points: RiskPoint[], least: number, accepted = 1e-3): string =>
  riskChart({
    words,
    curves: [{ label: 'tyre', points }],
    least,
    leastText: 'goes on below',
    accepted,
    acceptedText: 'accepted',
    pick: { height: 39 * INCH, text: '39 in' },
  });

describe('risk by height', () => {
  it('crosses the accepted risk where the pick stands, and falls in equal steps on the scale of tens', () => {
    const svg = riskOf(falling(21), 1e-5);
    const curve = cornersOf(pathsOf(svg, 'risk')[0]!);
    const [accepted] = linesOf(svg, 'accepted');
    const [pick] = linesOf(svg, 'pick');
    const at = curve.find(([x]) => Math.abs(x - pick!.x1) < 0.02);
    expect(at![1]).toBeCloseTo(accepted!.y1, 1);
    const falls = curve.slice(1).map(([, y], i) => y - curve[i]![1]);
    for (const fall of falls) expect(fall).toBeCloseTo(falls[0]!, 1);
    expect(falls[0]!).toBeGreaterThan(0);
  });

  it('stops at the lowest risk that is shown and says that it goes on, never running along the axis', () => {
    const svg = riskOf(falling(33), 0.99e-5);
    const curve = cornersOf(pathsOf(svg, 'risk')[0]!);
    expect(curve).toHaveLength(21);
    expect(svg.match(/h8l-4,7z/g)).toHaveLength(2);
    const zeros = falling(33).map((point) => (point.estimate < 0.99e-4 ? { ...point, estimate: 0 } : point));
    expect(cornersOf(pathsOf(riskOf(zeros, 0.99e-5), 'risk')[0]!)).toHaveLength(17);
  });

  it('has no line in its legend for a tyre that lies below all that is drawn, and says so', () => {
    const rare = falling(33).map((point) => ({ ...point, estimate: 1e-3 * point.estimate }));
    const plot = (least: number): string =>
      riskChart({
        words,
        curves: [
          { label: 'tall', points: falling(9) },
          { label: 'small', points: rare },
        ],
        least,
        leastText: 'goes on below',
        accepted: 1e-2,
        acceptedText: 'accepted',
      });
    const lines = (svg: string): number => svg.split('<line').length;
    expect(pathsOf(plot(2e-3), 'risk')).toHaveLength(1);
    expect(plot(2e-3)).toMatch(/>below all that is drawn: small</);
    expect(plot(2e-3)).not.toMatch(/>small</);
    expect(plot(1e-4)).toMatch(/>small</);
    expect(plot(1e-4)).not.toContain('below all that is drawn');
    expect(lines(plot(2e-3))).toBeLessThan(lines(plot(1e-4)));
  });

  it('cuts no figure off at its end, where heights of a thousand millimetres stand beside inches', () => {
    for (const units of ['inch', 'mm'] as const) {
      const svg = riskChart({
        words,
        units,
        curves: [{ label: 'tyre', points: falling(21) }],
        least: 1e-5,
        leastText: 'goes on below',
        accepted: 1e-3,
        acceptedText: 'accepted',
      });
      const figures = [...svg.matchAll(/<text x="([\d.]+)"[^>]*"middle"[^>]*>(\(?[\d,]+\)?)<\/text>/g)];
      expect(figures.length).toBeGreaterThan(6);
      for (const [, x, text] of figures) expect(Number(x) + textWidth(text!) / 2, text).toBeLessThan(WIDTH);
    }
  });

  it('keeps the accepted risk inside the plot when it is rarer than anything that was seen', () => {
    const svg = riskOf(falling(9), 1e-2, 5e-7);
    const [accepted] = linesOf(svg, 'accepted');
    const [axis] = linesOf(svg, 'pick');
    expect(accepted!.y1).toBeLessThan(axis!.y2 - 5);
  });
});

describe('gap by angle', () => {
  it('puts equal gaps at equal heights and less gap lower, on both sides of the top alike', () => {
    const angles = Array.from({ length: 49 }, (_, k) => ((k - 24) * Math.PI) / 36);
    const gap = angles.map((angle) => 0.1 + 0.02 * Math.cos(angle));
    const spread = (add: number) => ({
      low: gap.map((g) => g + add - 0.01),
      middle: gap.map((g) => g + add),
      high: gap.map((g) => g + add + 0.01),
    });
    const svg = gapByAngle({
      words,
      angles,
      atRest: spread(0.05),
      inRun: spread(0),
      rare: { gaps: gap.map((g) => g - 0.05), label: 'rare' },
      reserve: 0.0127,
      reserveText: 'reserve',
      from: -Math.PI / 2,
      to: Math.PI / 2,
    });
    const rest = cornersOf(pathsOf(svg, 'at rest')[0]!);
    const run = cornersOf(pathsOf(svg, 'in a run')[0]!);
    expect(rest).toHaveLength(37);
    rest.forEach(([x, y], k) => {
      const [mirrored, level] = rest[36 - k]!;
      expect(x + mirrored).toBeCloseTo(2 * rest[18]![0], 1);
      expect(y).toBeCloseTo(level, 1);
      expect(run[k]![1] - y).toBeCloseTo(run[0]![1] - rest[0]![1], 1);
    });
    const [reserve] = linesOf(svg, 'reserve');
    const perMetre = (run[0]![1] - rest[0]![1]) / 0.05;
    expect((reserve!.y1 - run[0]![1]) / perMetre).toBeCloseTo(0.1 - 0.0127, 3);
  });
});

describe('a gap’s way to what is left', () => {
  it('is bars that begin where the last one ended and add up, the reserve hatched from zero', () => {
    const svg = waterfall({
      words,
      start: { label: 'seen', text: '6 in', gap: 0.15 },
      steps: [
        { label: 'body', text: '3 in', from: 0.15, to: 0.07 },
        { label: 'tyre', text: '2 in', from: 0.07, to: 0.016 },
      ],
      left: { label: 'left', text: '5/8 in', gap: 0.016 },
      reserve: 0.0127,
      reserveText: 'reserve',
    });
    const rects = [
      ...svg.matchAll(/<rect x="([\d.]+)" y="[\d.]+" width="([\d.]+)"[^>]*data-part="(\w+)"/g),
    ].map(([, x, width, part]) => ({ from: Number(x), to: Number(x) + Number(width), part }));
    const [seen, body, tyre, left, reserve] = rects;
    expect(body!.to).toBeCloseTo(seen!.to, 1);
    expect(tyre!.to).toBeCloseTo(body!.from, 1);
    expect(left!.to).toBeCloseTo(tyre!.from, 1);
    expect([left!.from, reserve!.from]).toEqual([seen!.from, seen!.from]);
    expect((reserve!.to - reserve!.from) / (seen!.to - seen!.from)).toBeCloseTo(0.0127 / 0.15, 2);
  });
});

describe('bars', () => {
  it('are as long as what they show, whatever the sign', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: -5, max: 50, noNaN: true }), { minLength: 2, maxLength: 12 }),
        (values) => {
          const most = Math.max(...values.map(Math.abs));
          fc.pre(most > 0.01);
          const widths = barWidths(
            labelledBars({
              words,
              series: ['one'],
              rows: values.map((value) => ({ label: 'row', bars: [{ value, text: 'text' }] })),
            }),
          );
          expect(widths).toHaveLength(values.length);
          const longest = Math.max(...widths);
          widths.forEach((width, i) => {
            expect(Math.abs(width / longest - Math.abs(values[i]!) / most)).toBeLessThan(0.001);
          });
        },
      ),
    );
  });
});

describe('heights by tub and tyre', () => {
  it('marks every height that is known, and says so where there is none', () => {
    const svg = heightDots({
      words,
      tyres: ['a', 'b'],
      rows: [
        { tub: 'one', alone: [1, 0.9], together: 1 },
        { tub: 'two', alone: [undefined, 0.95], together: undefined },
        { tub: 'three', alone: [undefined, undefined], together: undefined },
      ],
      noneText: 'no height at all',
    });
    expect(pathsOf(svg, 'alone')).toHaveLength(2 + 3);
    expect(linesOf(svg, 'together')).toHaveLength(1);
    expect(svg.match(/no height at all/g)).toHaveLength(1);
  });
});

describe('growth by speed', () => {
  const speeds = [0, 50, 100];
  const band = { low: [0, 0.005, 0.02], middle: [0, 0.01, 0.03], high: [0, 0.015, 0.04] };
  const drawn = {
    words,
    speeds,
    before: band,
    after: band,
    points: [
      { speed: 20, value: -0.004, sd: 0.001, free: true },
      { speed: 60, value: 0.012, sd: 0.002, free: true },
      { speed: 90, value: 0.025, sd: 0.5, free: false },
    ],
    finish: 100,
  };
  const dots = (svg: string) =>
    [...svg.matchAll(/<circle cx="([\d.]+)" cy="([\d.]+)"[^>]*data-part/g)].map((one) => Number(one[2]));

  it('has every point where it belongs, those below 0 too, and no bar over the edge', () => {
    const svg = growthPicture(drawn);
    const [below, above] = dots(svg) as [number, number, number];
    expect(dots(svg)).toHaveLength(3);
    const [zero] = linesOf(svg, 'no growth');
    const perMetre = (zero!.y1 - above) / 0.012;
    expect(below - zero!.y1).toBeCloseTo(0.004 * perMetre, 1);
    const upright = [...svg.matchAll(/<line x1="([\d.]+)" y1="[\d.]+" x2="\1" y2="([\d.]+)"/g)];
    expect(upright.length).toBeGreaterThan(3);
    for (const [, , end] of upright) expect(Number(end)).toBeLessThanOrEqual(270);
  });

  it('is told in the units that it is asked for, and draws no line at 0 where nothing lies below', () => {
    expect(growthPicture({ ...drawn, units: 'mm' })).toContain('growth of the radius, mm');
    expect(linesOf(growthPicture({ ...drawn, points: [] }), 'no growth')).toEqual([]);
  });
});
