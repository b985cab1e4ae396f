import { carColumn } from '@tubgap/core';
import { describe, expect, it } from 'vitest';
import {
  caseSetup,
  caseState,
  createBlockRoom,
  FIRST_PLACE,
  focusOn,
  followRun,
  NO_CENTRES,
  openWorkplace,
  performTask,
  runsAtRanks,
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

describe('runs at ranks', () => {
  it('need the height at which they are ranked, worked out again from their own values', () => {
    const { setup: small, tyre } = focusOn(setup, { tub, tyre: 0 });
    const runs = runsAtRanks(small, tyre, 1, 2, [0.5, 0.999], createBlockRoom(small));
    expect(runs[1]!.requiredHeight).toBeGreaterThan(runs[0]!.requiredHeight);
    for (const run of runs) {
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
      expect(run.car[carColumn('mass')]).toBeGreaterThan(0);
    }
  });
});
