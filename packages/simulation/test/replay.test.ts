import { BLOCK } from '@tubgap/statistics';
import { SIXTEENTH } from '@tubgap/units';
import { describe, expect, it } from 'vitest';
import {
  caseSetup,
  caseState,
  createBlockRoom,
  emptyRunTallies,
  FIRST_PLACE,
  focusOn,
  followRun,
  HEIGHT_STEPS,
  keepTightest,
  NO_CENTRES,
  openWorkplace,
  performTask,
  runOfStep,
  type TightestRuns,
  tallyRuns,
  tightestOf,
  tightestOfBoth,
} from '../src/index.ts';
import { demoCase } from './demo.ts';

const source = demoCase(3000, 10);
const setup = caseSetup(source);
const tub = 1;

describe('a case looked at in one tub with one tyre', () => {
  it('counts the same touches as the whole case, axle height measured or not', () => {
    for (const axleHeight of [source.build.axleHeight!, undefined]) {
      const { axleHeight: _, ...build } = source.build;
      const asked = { ...source, build: axleHeight === undefined ? build : { ...build, axleHeight } };
      const whole = openWorkplace(asked);
      const task = { kind: 'runs', firstBlock: 0, endBlock: 3, centres: NO_CENTRES } as const;
      const all = performTask(whole, task);
      asked.tyres.forEach((_, tyre) => {
        const focus = focusOn(whole.setup, { tub, tyre });
        const part = performTask({ ...whole, setup: focus.setup, room: createBlockRoom(focus.setup) }, task);
        if (all.kind !== 'runs' || part.kind !== 'runs') throw new Error('not runs');
        const mine = part.tallies.tyres[focus.tyre]!;
        expect(mine.tubs[0]).toEqual(all.tallies.tyres[tyre]!.tubs[tub]);
        expect(mine.hardTouches).toEqual(all.tallies.tyres[tyre]!.hardTouches);
      });
    }
  });
});

describe('a run followed down the track', () => {
  it.each([0, 1])('is at launch, middle and finish what the moments of tyre %i are', (tyre) => {
    const choice = { tyre, tub, topHeight: 1 };
    const run = followRun(setup, choice);
    const own = { launch: FIRST_PLACE, middle: 0.5 * run.finish, finish: run.finish } as const;
    for (const [moment, place] of Object.entries(own)) {
      const expected = caseState(setup, { ...choice, moment: moment as keyof typeof own });
      const found = run.at(place);
      // Equal but for the solution of the point mass, which Newton's method ends at 1e-13.
      for (const name of [
        'carSpeed',
        'treadSpeed',
        'tyreLoad',
        'tyreThrust',
        'growth',
        'bodyDrop',
        'gap',
      ] as const)
        expect(found[name] / expected[name], `${moment} ${name}`).toBeCloseTo(1, 8);
    }
  });

  it('gets faster and grows all the way, and its shift lies before the middle', () => {
    const run = followRun(setup, { tyre: 0, tub, topHeight: 1 });
    expect(run.shift).toBeGreaterThan(FIRST_PLACE);
    expect(run.shift).toBeLessThan(0.5 * run.finish);
    let before = run.at(FIRST_PLACE);
    for (let place = 20; place <= run.finish; place += 20) {
      const state = run.at(place);
      expect(state.carSpeed).toBeGreaterThan(before.carSpeed);
      before = state;
    }
  });
});

describe('tightest runs', () => {
  const { setup: small, tyre } = focusOn(setup, { tub, tyre: 0 });
  const room = createBlockRoom(small);
  const tallies = emptyRunTallies(small);
  const kept: TightestRuns = [];
  for (const block of [0, 1]) {
    tallyRuns(small, 1, 2 * BLOCK, block, block + 1, room, tallies);
    keepTightest(small, tyre, room, BLOCK, kept);
  }
  const { steps, lowest } = tallies.tyres[tyre]!.tubs[0]!;

  it('are of every step that is counted, and need the height they are kept for, worked out from their own values', () => {
    expect(kept.filter((run) => run !== undefined).length).toBeGreaterThan(20);
    steps.forEach((count, n) => {
      const run = kept[n];
      expect(run !== undefined).toBe(count > 0);
      if (run === undefined) return;
      const state = caseState(small, {
        tyre,
        tub: 0,
        topHeight: 1,
        moment: run.moment,
        car: run.car,
        tyreValues: run.tyre,
        axleHeight: run.axleHeight,
      });
      expect(state.requiredHeight).toBe(run.requiredHeight);
      if (n === HEIGHT_STEPS) return;
      expect(run.requiredHeight).toBeLessThanOrEqual(lowest + n * SIXTEENTH + 1e-9);
      if (n > 0) expect(run.requiredHeight).toBeGreaterThan(lowest + (n - 1) * SIXTEENTH);
    });
  });

  it('stand for a step or for one above it, never for one below', () => {
    const top = kept.length - 1;
    expect(tightestOf(kept)).toBe(kept[top]);
    expect(runOfStep(kept, top)).toBe(kept[top]);
    expect(runOfStep(kept, top + 1)).toBeUndefined();
    const gap = kept.findIndex((run, n) => run === undefined && n > 0 && kept[n - 1] !== undefined);
    expect(gap).toBeGreaterThan(0);
    expect(runOfStep(kept, gap)!.requiredHeight).toBeGreaterThan(lowest + gap * SIXTEENTH);
    expect(tightestOfBoth(kept, [undefined, kept[top]])[1]).toBe(kept[top]);
  });
});
