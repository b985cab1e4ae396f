import { outlineRadius, tubGap } from '@tubgap/core';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { TIMES } from '../src/detail.ts';
import { type RunPanels, runPanels } from '../src/run-panels.ts';
import { cornersOf, factOf, linesOf, pathsOf, tubOutline } from './read-back.ts';
import { roundOutline } from './round-outline.ts';

const ANGLES = Array.from({ length: 49 }, (_, k) => ((k - 24) * Math.PI) / 36);
const DEGREE = Math.PI / 180;
const ROUNDING = 0.02;

/** A tyre in a tub that the body's drop has brought near; lengths in m. */
const runs = fc.record({
  grown: fc.double({ min: 0.4, max: 0.45, noNaN: true }),
  left: fc.double({ min: 0.005, max: 0.05, noNaN: true }),
  reserve: fc.double({ min: 0.005, max: 0.02, noNaN: true }),
  ray: fc.constantFrom(-15, 0, 15, 30),
});

const RADIUS = 0.54;
const TUB = { radius: RADIUS, halfExtent: Math.PI / 2, legLength: 0.1, centreForward: 0.006 };

function panels({ grown, left, reserve, ray }: typeof runs extends fc.Arbitrary<infer T> ? T : never): {
  drawn: RunPanels;
  above: number;
} {
  const radii = (radius: number) => ANGLES.map((angle) => outlineRadius(roundOutline(radius), angle));
  // The crown stands so that straight up this much is left.
  const above = grown + left - RADIUS;
  const gaps = [-15, 0, 15, 30].map((degrees) => ({
    angle: degrees * DEGREE,
    texts: ['angle', 'see'],
    main: degrees === ray,
  }));
  const drawn: RunPanels = {
    words: { id: 'panels', title: 'panels', description: 'panels' },
    tub: TUB,
    liner: 0.0015,
    topHeight: 0.99,
    axleHeight: 0.41,
    angles: ANGLES,
    standing: radii(0.42),
    standingLabel: 'standing',
    standingTitle: 'see it here',
    gaps,
    topTexts: ['top'],
    axleTexts: ['axle'],
    centreTexts: ['centre'],
    offsetText: 'offset',
    hardPoints: [],
    bar: { length: 0.254, text: '10 in' },
    run: {
      title: 'left',
      radii: radii(grown),
      ahead: 0.006,
      above,
      back: 0,
      down: 0.05,
      downText: 'down',
      gap: { angle: ray * DEGREE, texts: ['angle', 'left'], main: true },
      tightAngle: 0,
      tightTexts: ['left'],
      reserve,
      reserveText: 'reserve',
      runLabel: 'run',
    },
  };
  return { drawn, above };
}

describe('a tub standing and in a run', () => {
  it('has one scale, and the same ray in both with the gap as it is there', () => {
    fc.assert(
      fc.property(runs, (run) => {
        const { drawn, above } = panels(run);
        const svg = runPanels(drawn);
        const scale = factOf(svg, 'units-per-metre');
        const x = factOf(svg, 'axle-x');
        const y = factOf(svg, 'axle-y');
        const [standing] = tubOutline(pathsOf(svg, 'tub')[0]!).arcs;
        const [dropped] = tubOutline(pathsOf(svg, 'tub in the run')[0]!).arcs;
        for (const arc of [standing, dropped]) expect(arc!.radius / scale).toBeCloseTo(RADIUS, 4);
        const arrows = linesOf(svg, 'gap');
        expect(arrows).toHaveLength(drawn.gaps.length + 1);
        const length = ({ x1, y1, x2, y2 }: (typeof arrows)[number]) => Math.hypot(x2 - x1, y2 - y1) / scale;
        const angle = run.ray * DEGREE;
        const gapOf = (radius: number, up: number): number =>
          tubGap(TUB, radius * Math.sin(angle) - 0.006, radius * Math.cos(angle) - up);
        const here = drawn.gaps.findIndex(({ main }) => main);
        const standingRadius = drawn.standing[ANGLES.findIndex((own) => Math.abs(own - angle) < 1e-9)]!;
        expect(length(arrows[here]!)).toBeCloseTo(gapOf(standingRadius, 0.99 - 0.41 - RADIUS), 3);
        expect(length(arrows.at(-1)!)).toBeCloseTo(gapOf(run.grown, above), 3);
        // Both begin on the ray from the hub.
        const last = arrows.at(-1)!;
        expect(Math.atan2(last.x1 - x, y - last.y1)).toBeCloseTo(angle, 2);
      }),
    );
  });

  it('hatches the reserve from the tub’s inside inward, and enlarges the gap truly', () => {
    fc.assert(
      fc.property(runs, (run) => {
        const svg = runPanels(panels(run).drawn);
        const scale = factOf(svg, 'units-per-metre');
        // The band in the panel and the one in its detail.
        const bands = pathsOf(svg, 'reserve');
        expect(bands).toHaveLength(2);
        bands.forEach((band, i) => {
          const [outer, inner] = band
            .split('Z')
            .filter(Boolean)
            .map((path) => tubOutline(path).arcs[0]!.radius);
          const wide = (outer! - inner!) / (scale * (i === 0 ? 1 : TIMES));
          expect(Math.abs(wide - run.reserve) * scale).toBeLessThan(ROUNDING);
        });
        const [gap] = linesOf(svg, 'gap enlarged');
        const shown = Math.hypot(gap!.x2 - gap!.x1, gap!.y2 - gap!.y1) / (TIMES * scale);
        expect(shown).toBeCloseTo(tubGap(TUB, -0.006, run.grown - (run.grown + run.left - RADIUS)), 3);
      }),
    );
  });

  it('gives top, axle and the arc’s centre above the track, and its offset, to scale', () => {
    const svg = runPanels(fc.sample(runs, { numRuns: 1, seed: 1 }).map(panels)[0]!.drawn);
    const scale = factOf(svg, 'units-per-metre');
    const tall = (part: string): number => {
      const [line] = linesOf(svg, part);
      return (line!.y2 - line!.y1) / scale;
    };
    expect(tall('top height')).toBeCloseTo(0.99, 4);
    expect(tall('axle height')).toBeCloseTo(0.41, 4);
    expect(tall('centre height')).toBeCloseTo(0.99 - RADIUS, 4);
    const [offset] = linesOf(svg, 'offset');
    expect((offset!.x2 - offset!.x1) / scale).toBeCloseTo(0.006, 4);
    const [outline] = pathsOf(svg, 'run').map(cornersOf);
    expect(outline).toHaveLength(ANGLES.length);
  });
});
