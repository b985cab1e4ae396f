import { gapAtAngle, outlineRadius, tubGap } from '@tubgap/core';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Box, textBox } from '../src/clear-place.ts';
import { footOnTub } from '../src/shapes.ts';
import { type SideView, sideView } from '../src/side-view.ts';
import { cornersOf, factOf, linesOf, pathsOf, tubOutline } from './read-back.ts';
import { roundOutline } from './round-outline.ts';

const ANGLES = Array.from({ length: 49 }, (_, k) => ((k - 24) * Math.PI) / 36);
const DEGREE = Math.PI / 180;

/** A tub, axle and tyre in the sizes of a car; lengths in m. */
const cars = fc.record({
  radius: fc.double({ min: 0.48, max: 0.65, noNaN: true }),
  halfExtent: fc.double({ min: 80 * DEGREE, max: 100 * DEGREE, noNaN: true }),
  legLength: fc.double({ min: 0, max: 0.25, noNaN: true }),
  centreForward: fc.double({ min: -0.05, max: 0.05, noNaN: true }),
  topHeight: fc.double({ min: 0.85, max: 1.1, noNaN: true }),
  axleHeight: fc.double({ min: 0.32, max: 0.42, noNaN: true }),
  tyre: fc.double({ min: 0.36, max: 0.44, noNaN: true }),
});
type Car = typeof cars extends fc.Arbitrary<infer T> ? T : never;

function drawnCar({ topHeight, axleHeight, tyre, ...tub }: Car): SideView {
  const outline = roundOutline(tyre);
  const radii = ANGLES.map((angle) => outlineRadius(outline, angle));
  return {
    words: { id: 'side', title: 'side', description: 'side' },
    tub,
    liner: 0.0015,
    topHeight,
    axleHeight,
    angles: ANGLES,
    standing: radii,
    standingLabel: 'standing',
    gaps: [0, 15, 30].map((degrees) => ({ angle: degrees * DEGREE, texts: ['', 'gap', ''] })),
    topTexts: ['top'],
    axleTexts: ['axle'],
    centreTexts: ['centre'],
    offsetText: 'offset',
    rare: { radii: radii.map((r) => 1.1 * r), label: 'rare' },
    hardPoints: [],
    bar: { length: 0.254, text: '10 in' },
  };
}

/** Whether any of a thousand points of a line lies in a box. */
const segmentMeets = (box: Box, x1: number, y1: number, x2: number, y2: number): boolean =>
  Array.from({ length: 1001 }, (_, i) => [x1 + (i / 1000) * (x2 - x1), y1 + (i / 1000) * (y2 - y1)]).some(
    ([x, y]) => x! > box.left && x! < box.right && y! > box.top && y! < box.bottom,
  );

/** Half of the drawing's last digit on either end of a line. */
const ROUNDING = 0.011;

describe('the side view, read back', () => {
  it('names the tyre once: in a legend beside runs, in the tyre itself without any', () => {
    const [car] = fc.sample(cars, { numRuns: 1, seed: 1 });
    const { rare: _, ...bare } = drawnCar(car!);
    for (const svg of [sideView(bare), sideView(drawnCar(car!))]) {
      expect(svg.match(/>standing</g)).toHaveLength(1);
    }
    expect(sideView(bare)).not.toContain('>tub, car standing<');
    expect(sideView(drawnCar(car!))).toContain('>tub, car standing<');
  });

  it('draws the tub’s arc and legs where the core has its wall', () => {
    fc.assert(
      fc.property(cars, (car) => {
        const svg = sideView(drawnCar(car));
        const scale = factOf(svg, 'units-per-metre');
        const centre = [
          factOf(svg, 'axle-x') + scale * car.centreForward,
          factOf(svg, 'axle-y') - scale * (car.topHeight - car.axleHeight - car.radius),
        ] as const;
        const { points, arcs } = tubOutline(pathsOf(svg, 'tub')[0]!);
        expect(arcs).toHaveLength(1);
        expect(arcs[0]!.radius / scale).toBeCloseTo(car.radius, 4);
        // Near half a circle the centre hangs on the last digit of the ends: √(2 · 160 · 0.01).
        expect(Math.hypot(arcs[0]!.x - centre[0], arcs[0]!.y - centre[1])).toBeLessThan(2);
        expect(points).toHaveLength(4);
        for (const [x, y] of points) {
          const away = tubGap(car, (x - centre[0]) / scale, (centre[1] - y) / scale);
          expect(Math.abs(away) * scale).toBeLessThan(2 * ROUNDING);
        }
      }),
    );
  });

  it('draws the flat of a notch where the core has it, and the gap to it', () => {
    fc.assert(
      fc.property(
        cars,
        fc.double({ min: -0.6, max: 0.6, noNaN: true }),
        fc.double({ min: 0.01, max: 0.08, noNaN: true }),
        (car, angle, depth) => {
          const tub = { ...car, notches: [{ angle, depth }] };
          const svg = sideView({ ...drawnCar(car), tub });
          const scale = factOf(svg, 'units-per-metre');
          const centre = [
            factOf(svg, 'axle-x') + scale * car.centreForward,
            factOf(svg, 'axle-y') - scale * (car.topHeight - car.axleHeight - car.radius),
          ] as const;
          const { points, arcs } = tubOutline(pathsOf(svg, 'tub')[0]!);
          expect(arcs).toHaveLength(2);
          for (const arc of arcs) expect(Math.hypot(arc.x - centre[0], arc.y - centre[1])).toBeLessThan(0.5);
          const [, , from, to] = points;
          const middle = [0.5 * (from![0] + to![0]), 0.5 * (from![1] + to![1])] as const;
          const away = tubGap(tub, (middle[0] - centre[0]) / scale, (centre[1] - middle[1]) / scale);
          expect(Math.abs(away) * scale).toBeLessThan(2 * ROUNDING);
          const place = { ahead: car.centreForward, above: car.topHeight - car.axleHeight - car.radius };
          linesOf(svg, 'gap').forEach((arrow, i) => {
            const gap = gapAtAngle(roundOutline(car.tyre), tub, place, i * 15 * DEGREE);
            const length = Math.hypot(arrow.x2 - arrow.x1, arrow.y2 - arrow.y1);
            expect(Math.abs(length - Math.abs(gap) * scale)).toBeLessThan(2 * ROUNDING);
          });
        },
      ),
    );
  });

  it('draws flats that overlap, or reach into a leg, as one wall: every piece lies where the core has it', () => {
    const notch = fc.record({
      angle: fc.double({ min: -75 * DEGREE, max: 75 * DEGREE, noNaN: true }),
      depth: fc.double({ min: 0.005, max: 0.12, noNaN: true }),
    });
    let overlaps = 0;
    fc.assert(
      fc.property(cars, fc.array(notch, { minLength: 2, maxLength: 4 }), (car, notches) => {
        const tub = { ...car, notches };
        const svg = sideView({ ...drawnCar(car), tub });
        const scale = factOf(svg, 'units-per-metre');
        const x0 = factOf(svg, 'axle-x') + scale * car.centreForward;
        const y0 = factOf(svg, 'axle-y') - scale * (car.topHeight - car.axleHeight - car.radius);
        const path = pathsOf(svg, 'tub')[0]!;
        const { points } = tubOutline(path);
        const isArc = [...path.matchAll(/[MLA]/g)].map(([command]) => command === 'A');
        if (isArc.filter((arc) => arc).length < notches.length) overlaps++;
        const wall = (x: number, y: number): number =>
          tubGap(tub, (x - x0) / scale, (y0 - y) / scale) * scale;
        points.forEach(([x, y], k) => {
          if (k === 0) return;
          const [x1, y1] = points[k - 1]!;
          expect(Math.abs(wall(x, y))).toBeLessThan(3 * ROUNDING);
          // Middle of the piece: on the chord for a flat or a leg, on the circle for a piece of the arc.
          const across = 0.5 * (x + x1) - x0;
          const down = 0.5 * (y + y1) - y0;
          const turns = Math.atan2(across, -down);
          const out = isArc[k] ? scale * car.radius : Math.hypot(across, down);
          expect(Math.abs(wall(x0 + out * Math.sin(turns), y0 - out * Math.cos(turns)))).toBeLessThan(
            3 * ROUNDING,
          );
        });
      }),
      { numRuns: 300 },
    );
    expect(overlaps).toBeGreaterThan(50);
  });

  it('draws gaps to see as long as the core reckons them', () => {
    fc.assert(
      fc.property(cars, (car) => {
        const svg = sideView(drawnCar(car));
        const scale = factOf(svg, 'units-per-metre');
        const outline = roundOutline(car.tyre);
        const place = {
          ahead: car.centreForward,
          above: car.topHeight - car.axleHeight - car.radius,
        };
        const arrows = linesOf(svg, 'gap');
        expect(arrows).toHaveLength(3);
        arrows.forEach((arrow, i) => {
          const gap = gapAtAngle(outline, car, place, i * 15 * DEGREE);
          const length = Math.hypot(arrow.x2 - arrow.x1, arrow.y2 - arrow.y1);
          expect(Math.abs(length - Math.abs(gap) * scale)).toBeLessThan(2 * ROUNDING);
        });
      }),
    );
  });

  it('dimensions the top height and the axle height to scale, from the track up', () => {
    fc.assert(
      fc.property(cars, (car) => {
        const svg = sideView(drawnCar(car));
        const scale = factOf(svg, 'units-per-metre');
        const [top] = linesOf(svg, 'top height');
        const [axle] = linesOf(svg, 'axle height');
        const [track] = linesOf(svg, 'track');
        const [bar] = linesOf(svg, 'scale bar');
        expect((top!.y2 - top!.y1) / scale).toBeCloseTo(car.topHeight, 4);
        expect((axle!.y2 - axle!.y1) / scale).toBeCloseTo(car.axleHeight, 4);
        expect(top!.y2).toBe(track!.y1);
        expect(axle!.y2).toBe(track!.y1);
        expect((bar!.x2 - bar!.x1) / scale).toBeCloseTo(0.254, 4);
      }),
    );
  });

  it('draws the outline at its radii, and stands the tyre on the track without going below it', () => {
    fc.assert(
      fc.property(cars, (car) => {
        const drawn = drawnCar(car);
        const svg = sideView(drawn);
        const scale = factOf(svg, 'units-per-metre');
        const axle = [factOf(svg, 'axle-x'), factOf(svg, 'axle-y')] as const;
        const seen = cornersOf(pathsOf(svg, 'rare run')[0]!);
        expect(seen).toHaveLength(ANGLES.length);
        seen.forEach(([x, y], k) => {
          expect(Math.hypot(x - axle[0], axle[1] - y) / scale).toBeCloseTo(drawn.rare!.radii[k]!, 4);
          expect(Math.atan2(x - axle[0], axle[1] - y)).toBeCloseTo(ANGLES[k]!, 3);
        });
        const lowest = Math.max(...cornersOf(pathsOf(svg, 'standing tyre')[0]!).map(([, y]) => y));
        const track = linesOf(svg, 'track')[0]!.y1;
        expect(lowest).toBeLessThan(track + 2 * ROUNDING);
        if (car.tyre > car.axleHeight + 0.005) expect(lowest).toBeGreaterThan(track - 1);
      }),
    );
  });

  it('ends the shortest way to the tub as far off as the core says, beside the legs and under them too', () => {
    const coordinate = fc.double({ min: -0.7, max: 0.7, noNaN: true });
    fc.assert(
      fc.property(cars, coordinate, coordinate, (car, ahead, above) => {
        const centre = { ahead: 0.01, above: -0.02 };
        const foot = footOnTub(car, centre, centre.ahead + ahead, centre.above + above);
        const away = Math.hypot(foot.x - centre.ahead - ahead, foot.z - centre.above - above);
        expect(away).toBeCloseTo(Math.abs(tubGap(car, ahead, above)), 9);
      }),
    );
  });

  it('writes hard points’ names clear of the lines to the gaps and of one another', () => {
    const ends = { min: 0.3, max: 0.55, noNaN: true };
    fc.assert(
      fc.property(cars, fc.double(ends), fc.double(ends), (car, ahead, above) => {
        const circle = (at: number) => ({ shape: 'circle', ahead: at, above, radius: 0.02 }) as const;
        const svg = sideView({
          ...drawnCar(car),
          hardPoints: [
            { name: 'cage bar', point: circle(ahead) },
            { name: 'window bar', point: circle(-ahead) },
          ],
        });
        const leaders = linesOf(svg, 'leader');
        expect(leaders).toHaveLength(3);
        const boxes = ['cage bar', 'window bar'].map((name) => {
          const [, x, y, anchor] = new RegExp(
            `<text x="([-\\d.]+)" y="([-\\d.]+)" text-anchor="(\\w+)"[^>]*>${name}<`,
          ).exec(svg)!;
          return textBox({ x: Number(x), y: Number(y), anchor: anchor as 'start' }, [name], 12);
        });
        for (const box of boxes)
          for (const { x1, y1, x2, y2 } of leaders) expect(segmentMeets(box, x1, y1, x2, y2)).toBe(false);
        const [left, right] = [...boxes].sort((a, b) => a.left - b.left);
        expect(left!.right).toBeLessThan(right!.left);
      }),
    );
  });

  it('writes hard points’ names clear of where the run brings them', () => {
    const shift = { min: 0.01, max: 0.08, noNaN: true };
    fc.assert(
      fc.property(cars, fc.double(shift), fc.double(shift), (car, back, down) => {
        const [ahead, above, radius] = [0.48, 0.5, 0.022];
        const drawn = drawnCar(car);
        const dropped = {
          ...{ back, down, label: 'in the run', tightAngle: 0.3, tightTexts: ['tight'] },
          ahead: car.centreForward - back,
          above: car.topHeight - car.axleHeight - car.radius - down,
        };
        const point = { shape: 'circle', ahead, above, radius } as const;
        const svg = sideView({ ...drawn, dropped, hardPoints: [{ name: 'cage bar', point }] });
        const [, x, y, anchor] = /<text x="([-\d.]+)" y="([-\d.]+)" text-anchor="(\w+)"[^>]*>cage bar</.exec(
          svg,
        )!;
        const name = textBox({ x: Number(x), y: Number(y), anchor: anchor as 'start' }, ['cage bar'], 12);
        const scale = factOf(svg, 'units-per-metre');
        const middle = [
          factOf(svg, 'axle-x') + scale * (ahead - back),
          factOf(svg, 'axle-y') - scale * (above - down),
        ] as const;
        const near = [
          Math.min(name.right, Math.max(name.left, middle[0])) - middle[0],
          Math.min(name.bottom, Math.max(name.top, middle[1])) - middle[1],
        ] as const;
        expect(Math.hypot(...near)).toBeGreaterThan(scale * radius);
      }),
    );
  });

  it('draws outlines of runs in the view at hand, whatever it drew of them before', () => {
    const [first, second] = fc.sample(cars, { numRuns: 2, seed: 5 });
    const runs = [0.36, 0.4].map((radius) => ANGLES.map(() => radius));
    const drawn = (car: Car, scattered: number[][]): string =>
      sideView({ ...drawnCar(car), cloud: { runs: scattered, label: 'runs' } });
    const before = drawn(first!, runs);
    expect(drawn(second!, runs)).toBe(drawn(second!, structuredClone(runs)));
    expect(drawn(first!, runs)).toBe(before);
    const [path] = pathsOf(before, 'cloud');
    expect(path!.match(/M/g)).toHaveLength(2);
    const right = factOf(before, 'axle-x') + 0.4 * factOf(before, 'units-per-metre');
    expect(Math.max(...cornersOf(path!).map(([x]) => x!))).toBeCloseTo(right, 1);
  });

  it('keeps axle and scale where a frame says so, while the tub moves', () => {
    fc.assert(
      fc.property(cars, fc.double({ min: -0.02, max: 0.02, noNaN: true }), (car, move) => {
        const frame = { rear: -0.8, front: 0.8, top: 0.9 };
        const before = sideView({ ...drawnCar(car), frame });
        const after = sideView({
          ...drawnCar({ ...car, topHeight: car.topHeight + move, centreForward: car.centreForward + move }),
          frame,
        });
        for (const fact of ['units-per-metre', 'axle-x', 'axle-y'])
          expect(factOf(after, fact)).toBe(factOf(before, fact));
        const scale = factOf(before, 'units-per-metre');
        const [from, to] = [before, after].map((svg) => tubOutline(pathsOf(svg, 'tub')[0]!).points[0]!);
        expect(Math.abs(to![0] - from![0] - scale * move)).toBeLessThan(2 * ROUNDING);
        expect(Math.abs(to![1] - from![1] + scale * move)).toBeLessThan(2 * ROUNDING);
      }),
    );
  });
});
