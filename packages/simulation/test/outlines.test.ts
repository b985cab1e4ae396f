import { gapAtAngle, MOMENTS, outlineRadius } from '@tubgap/core';
import { BLOCK } from '@tubgap/statistics';
import { describe, expect, it } from 'vitest';
import { inspectOutlines, type Outlines } from '../src/outlines.ts';
import type { KeptRun } from '../src/replay/named-runs.ts';
import { shownRuns } from '../src/replay/run-states.ts';
import { createBlockRoom, drawBlock } from '../src/run-risk.ts';
import { caseSetup } from '../src/setup.ts';
import { caseState } from '../src/state.ts';
import { demoCase } from './demo.ts';

const SEED = 1;
const TUB = 3;
const TOP = 0.99;
const setup = caseSetup(demoCase(2048, 1));
const found: Outlines = inspectOutlines(setup, SEED, {
  tub: TUB,
  topHeight: TOP,
  limitingTyre: setup.tyres[0]!.name,
});
const gaps = found.gaps!;

const room = createBlockRoom(setup);
drawBlock(setup, SEED, 0, BLOCK, room);

/** Every moment of run `run` of the first block with a tyre, through the state of a single run. */
function statesOf(tyre: number, run: number) {
  const { car, tyre: own } = room.columns[tyre]!;
  const values = (columns: readonly Float64Array[]) => Float64Array.from(columns, (column) => column[run]!);
  return MOMENTS.map((moment) =>
    caseState(setup, { tyre, tub: TUB, topHeight: TOP, moment, car: values(car), tyreValues: values(own) }),
  ).filter((state) => state.happens);
}

describe('outlines of the demo', () => {
  it('rise with their percentile at every angle and hold the standing tyre inside', () => {
    expect(found.angles).toHaveLength(49);
    for (const { quantiles, standing } of found.tyres) {
      standing.forEach((radius, k) => {
        const [middle, high, highest] = quantiles.map((row) => row[k]!);
        expect(radius).toBeLessThan(middle!);
        expect(middle).toBeLessThan(high!);
        expect(high).toBeLessThan(highest!);
      });
    }
  });

  it('have half of the runs inside the middle one, and half nearer than the middle gap, one state at a time', () => {
    const k = found.angles.findIndex((own) => Math.abs(own - Math.PI / 6) < 1e-9);
    const angle = found.angles[k]!;
    const tub = setup.clearance.tubs[TUB]!;
    const runs = 150;
    let inside = 0;
    let nearer = 0;
    for (let run = 0; run < runs; run++) {
      const states = statesOf(0, run);
      const radius = Math.max(...states.map((state) => outlineRadius(state.outline, angle)));
      const gap = Math.min(
        ...states.map((state) =>
          gapAtAngle(state.outline, tub, { ahead: state.centreAhead, above: state.centreAbove }, angle),
        ),
      );
      if (radius <= found.tyres[0]!.quantiles[0]![k]!) inside++;
      if (gap <= gaps.inRun[1]![k]!) nearer++;
    }
    // Binomial, p = 1/2: four standard errors.
    const allowed = 4 * Math.sqrt(0.25 / runs);
    expect(Math.abs(inside / runs - 0.5)).toBeLessThan(allowed);
    expect(Math.abs(nearer / runs - 0.5)).toBeLessThan(allowed);
  });

  it('show a run at the moment that leaves it least, with its own gap at every angle', () => {
    const kept = (tyre: number, run: number): KeptRun => {
      const { car, tyre: own } = room.columns[tyre]!;
      const values = (columns: readonly Float64Array[]) => columns.map((column) => column[run]!);
      return { car: values(car), tyre: values(own), axleHeight: setup.centralAxleHeight };
    };
    const named = setup.tyres.map((_, tyre) =>
      setup.clearance.tubs.map(() => ({ middling: kept(tyre, 0), rare: kept(tyre, 1), tightestOf: null })),
    );
    const place = { tub: TUB, topHeight: TOP, limitingTyre: setup.tyres[0]!.name };
    shownRuns(setup, place, named).forEach((runs, tyre) => {
      expect(runs).toHaveLength(2);
      runs.forEach((run, r) => {
        const states = statesOf(tyre, r);
        const least = states.reduce((best, one) => (one.gap < best.gap ? one : best));
        expect(run.gap).toBeCloseTo(least.gap, 12);
        const { angles } = found;
        const near = run.gaps.filter((_, k) => Math.abs(angles[k]! - run.tightAngle) < Math.PI / 30);
        // Gaps every 5°: the tightest place lies between two of them.
        for (const gap of near) expect(gap).toBeGreaterThan(run.gap - 1e-9);
        expect(Math.min(...near)).toBeLessThan(run.gap + 1e-3);
        const k = angles.findIndex((angle) => angle >= run.tightAngle);
        const share = (run.tightAngle - angles[k - 1]!) / (angles[k]! - angles[k - 1]!);
        const radius = run.radii[k - 1]! + share * (run.radii[k]! - run.radii[k - 1]!);
        const across = Math.hypot(
          radius * Math.sin(run.tightAngle) - run.centreAhead,
          radius * Math.cos(run.tightAngle) - run.centreAbove,
        );
        // Radii every 5° read by straight lines: within 0.2 mm.
        if (Math.abs(run.tightAngle) < 1.4)
          expect(Math.abs(setup.clearance.tubs[TUB]!.radius - across - run.gap)).toBeLessThan(2e-4);
      });
    });
  });

  it('close from standing still to running, and the tightest twentieth lies under the middle', () => {
    const { atRest, inRun, quantiles } = gaps;
    expect(quantiles).toEqual([0.05, 0.5, 0.95]);
    found.angles.forEach((angle, k) => {
      for (let q = 1; q < 3; q++) {
        expect(inRun[q]![k]!).toBeGreaterThan(inRun[q - 1]![k]!);
        expect(atRest[q]![k]!).toBeGreaterThan(atRest[q - 1]![k]!);
      }
      if (Math.abs(angle) < 1.5) expect(inRun[1]![k]!).toBeLessThan(atRest[1]![k]!);
    });
  });

  it('stay the same when there is no tub to build, without gaps', () => {
    const without = inspectOutlines(setup, SEED, undefined);
    expect(without.gaps).toBeUndefined();
    expect(without.tyres).toEqual(found.tyres);
  });
});
