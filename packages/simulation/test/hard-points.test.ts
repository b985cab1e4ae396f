import normalCdf from '@stdlib/stats-base-dists-normal-cdf';
import type { Case } from '@tubgap/casefile';
import { BLOCK, clopperPearson, fillUniforms, normalQuantile, SEEN_FROM } from '@tubgap/statistics';
import { describe, expect, it } from 'vitest';
import { type HardFigures, hardFigures } from '../src/hard-points/hard-figures.ts';
import { inspectHardPoints } from '../src/hard-points/hard-gaps.ts';
import { hardRisk, rareGap } from '../src/hard-points/hard-risk.ts';
import { touchCentres } from '../src/importance/centres.ts';
import { normalSpace } from '../src/importance/normal-space.ts';
import { createBlockRoom } from '../src/run-risk.ts';
import { emptyRunTallies, type RunTallies } from '../src/run-tallies.ts';
import { tallyRuns } from '../src/runner.ts';
import { caseSetup } from '../src/setup.ts';
import { demoCase } from './demo.ts';

const INCH = 0.0254;
const DRAWS = 16384;
const TUB = 3;

/** Bar ahead of the tyre at axle height: the tub's top has nothing to do with it. */
const bar = (ahead: number): Case['hardPoints'][number] => ({
  name: 'bar',
  shape: 'circle',
  ahead: ahead * INCH,
  above: 8 * INCH,
  radius: 0.875 * INCH,
});

function looked(
  ahead: number,
  higher = 0,
): { figures: HardFigures[]; tallies: RunTallies; gaps: Float64Array } {
  const source = { ...demoCase(DRAWS, 1), hardPoints: [bar(ahead)] };
  const setup = caseSetup(source);
  const tallies = emptyRunTallies(setup);
  const room = createBlockRoom(setup);
  const space = normalSpace(setup);
  const centres = touchCentres(setup, space, 1, room);
  tallyRuns(setup, 1, DRAWS, 0, DRAWS / BLOCK, room, tallies, { space, centres });
  const look = inspectHardPoints(source, setup, centres, {
    tub: TUB,
    topHeight: setup.lowestHeights[TUB]! + 0.14 + higher,
  });
  const counts = {
    touches: tallies.tyres.map((tally) => tally.hardTouches),
    unseen: tallies.unseen.tyres.map((tally) => tally.hardTouches),
    events: tallies.all.events,
  };
  const figures = hardFigures(setup, counts, look)[0]!;
  return { figures, tallies, gaps: look.runs[0]![0]!.gap };
}

describe('a bar near the slick', () => {
  const near = looked(19.7);
  const [slick, radial] = near.figures as [HardFigures, HardFigures];

  it('is touched in just those runs in which the kernel says so', () => {
    const reserve = 0.5 * INCH;
    const touches = near.gaps.reduce((sum, gap) => sum + (gap < reserve ? 1 : 0), 0);
    expect(touches).toBeGreaterThan(50);
    expect(touches).toBe(near.tallies.tyres[0]!.hardTouches[0]);
    expect(slick.contact.estimate).toBeLessThan(slick.risk.estimate);
    expect(radial.risk.touches).toBe(0);
    // Nothing seen is no proof of nothing: the rule of three, by Clopper and Pearson.
    expect(radial.risk.high).toBeCloseTo(1 - 0.025 ** (1 / DRAWS), 8);
  });

  it('stays where it is when the tub is raised, and takes a larger share of what is left', () => {
    const higher = looked(19.7, INCH).figures[0]!;
    expect(higher.risk).toEqual(slick.risk);
    expect(higher.atRest).toBe(slick.atRest);
    expect(higher.atPick!.alone).toBeGreaterThan(slick.atPick!.alone);
    expect(higher.atPick!.alone + higher.atPick!.together).toBeGreaterThan(0.99);
  });

  it('asks for no more than it must move to take at most a tenth of the accepted risk', () => {
    expect(slick.moveBy).toBeGreaterThan(0.1 * INCH);
    expect(slick.spare).toBe(0);
    const away = looked(19.7 + slick.moveBy / INCH / Math.cos(slick.tightestAngle - Math.PI / 2)).figures[0]!;
    expect(away.risk.estimate).toBeLessThan(0.1 / 2000);
    expect(away.atRest).toBeGreaterThan(slick.atRest + 0.8 * slick.moveBy);
    expect(away.moveBy).toBe(0);
  });
});

describe('a chance of too small a gap', () => {
  // Derived: gap 3 − z of a standard normal z, weighted draws from its half moved to 3.2; the law is known exactly.
  const count = 16384;
  const uniforms = new Float64Array(BLOCK);
  const plain = new Float64Array(count);
  const moved = new Float64Array(count);
  const weights = new Float64Array(count);
  for (let block = 0; block < count / BLOCK; block++) {
    fillUniforms(3, 'gap', block, uniforms, BLOCK);
    for (let i = 0; i < BLOCK; i++) {
      const z = normalQuantile(uniforms[i]!);
      const place = block * BLOCK + i;
      plain[place] = 3 - z;
      const u = i % 2 === 0 ? z : z + 3.2;
      moved[place] = 3 - u;
      weights[place] = 1 / (0.5 + 0.5 * Math.exp(3.2 * (u - 1.6)));
    }
  }

  const both = { gaps: moved, weights };
  const seen = Uint8Array.from(plain, (gap) =>
    0.5 + 0.5 * Math.exp(3.2 * (3 - gap - 1.6)) < SEEN_FROM ? 0 : 1,
  );
  const countAt = (gap: number) => {
    const touching = Array.from(plain.keys()).filter((run) => plain[run]! < gap);
    const unseen = touching.filter((run) => seen[run] === 0);
    return { touches: touching.length, unseen: unseen.length, events: count };
  };

  it.each([0, -0.8])('comes out by weighted draws where the count is small, gap %d', (gap) => {
    const risk = hardRisk(both, gap, countAt(gap));
    const truth = normalCdf(gap - 3, 0, 1);
    expect(risk.method).toBe('weighted');
    expect(Math.abs(risk.estimate - truth)).toBeLessThan(4 * risk.cov! * truth);
    expect(risk.low).toBeLessThan(truth);
    expect(risk.high).toBeGreaterThan(truth);
  });

  it('comes out by weighted draws where no plain run touches', () => {
    // Bug: the error of a count of 0 was taken as 0, and the surer the estimate was the surer it was thrown away.
    const gap = -1.6;
    const risk = hardRisk(both, gap, { touches: 0, unseen: 0, events: count });
    const truth = normalCdf(gap - 3, 0, 1);
    expect(risk.method).toBe('weighted');
    expect(Math.abs(risk.estimate - truth)).toBeLessThan(4 * risk.cov! * truth);
    expect(risk.high).toBeGreaterThan(clopperPearson(0, count).high);
  });

  it('is counted where the plain count says more than the weighted draws', () => {
    const further = { ...both, gaps: moved.map((gap) => gap + 2) };
    expect(hardRisk(further, 0, { touches: 60, unseen: 0, events: count }).method).toBe('counted');
  });

  it('gives a gap for a wanted chance that is surely not too large, and not much too small', () => {
    for (const level of [1e-2, 1e-3, 1e-4]) {
      const gap = rareGap({ gaps: plain, seen }, both, level)!;
      const chance = normalCdf(gap - 3, 0, 1);
      expect(chance).toBeLessThan(level);
      expect(chance).toBeGreaterThan(0.6 * level);
    }
    const nowhere = { ...both, gaps: moved.map(() => 5) };
    expect(rareGap({ gaps: plain, seen }, nowhere, 1e-6)).toBeUndefined();
  });
});
