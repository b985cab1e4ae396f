import type { Case, Setting } from '@tubgap/casefile';
import { BLOCK } from '@tubgap/statistics';
import { INCH, SIXTEENTH } from '@tubgap/units';
import { describe, expect, it } from 'vitest';
import { judgement } from '../src/judge-tub.ts';
import { findOptimum, type OptimumGoal, type OptimumWork } from '../src/optimum/find-optimum.ts';
import type { LatticePlace } from '../src/optimum/lattice-search.ts';
import { type OptimumRoom, openLookAt } from '../src/optimum/search-optimum.ts';
import { performHere, pickSample } from '../src/simulate.ts';
import { openStudy, performStudyTask } from '../src/study/study-tasks.ts';
import { demoCase } from './demo.ts';

const DRAWS = 8 * BLOCK;

/** The demo on its slick in some of its tubs, at risks that so few draws tell. */
function small(set: readonly Setting[], tubs: string): Case {
  const source = demoCase(DRAWS, 128, [{ path: 'tubs', value: tubs }, ...set]);
  const tyres = source.tyres.slice(0, 1);
  return { ...source, tyres, accept: { runRisk: 0.005, seasonRisk: 0.4 } };
}

/** A room of the demo whose axes are places of the case, each with its values. */
function roomOf(
  axes: readonly { path: string; values: readonly string[] }[],
  tubs = '[street-42]',
): OptimumRoom {
  const settings = (place: LatticePlace): Setting[] =>
    axes.map(({ path, values }, axis) => ({ path, value: values[place[axis]!]! }));
  return {
    source: small([], tubs),
    sizes: axes.map(({ values }) => values.length),
    setupAt: (place) => ({ label: place.join(), source: small(settings(place), tubs) }),
  };
}

const steps = (count: number, from: number, by: number, unit: string): string[] =>
  Array.from({ length: count }, (_, k) => `~${Number((from + k * by).toFixed(4))} ${unit}`);

const WORK: OptimumWork = {
  perform: (setups) => {
    const study = openStudy(setups);
    return async (tasks) => tasks.map((task) => performStudyTask(study, task));
  },
  ofCase: (source, work) => work(performHere(source)),
};

const found = async (room: OptimumRoom, goal: OptimumGoal = { tubs: [0] }) =>
  findOptimum(room, goal, await pickSample(room.source, performHere(room.source), false), WORK);

const CENTRE = {
  path: 'tubCentreForward',
  values: steps(7, 0.125, 0.125, 'in').map((text) => text.slice(1)),
};
const PRESSURE = { path: 'tyres[0].coldPressure', values: steps(5, 5, 0.5, 'psi') };

describe('the optimum under risk', () => {
  it('is the least of a grid of all places by the same draws, and lies inside for the place, at the end for the pressure', async () => {
    const room = roomOf([CENTRE, PRESSURE]);
    const sample = await pickSample(room.source, performHere(room.source), false);
    const { found: whole } = await findOptimum(room, { tubs: [0] }, sample, WORK);
    const all = CENTRE.values.flatMap((_, c) => PRESSURE.values.map((__, p) => [c, p]));
    const [grid] = await openLookAt(room, sample, WORK.perform)(all, [0]);
    const fits = grid!.filter(({ lack }) => lack[0] === 0);
    const least = Math.min(...fits.map(({ lack }) => lack[1]));
    const best = fits.find(({ place }) => place.join() === whole.place.join())!;
    expect(best.lack[1]).toBeLessThan(least + SIXTEENTH / 8);
    expect(whole.held.map(({ heldBy }) => heldBy)).toEqual(['inside', 'high end']);
    // What is told apart by draws that the search did not see surely asks for more.
    expect(whole.places.some(({ isApart, isAgain }) => isApart && isAgain)).toBe(true);
    expect(whole.own!.at(-1)!.heightDifference!.low).toBeGreaterThan(0);
  });

  it('of single values is the pick of the case with them, to the last bit', async () => {
    const room = roomOf([
      { ...CENTRE, values: ['0.5 in'] },
      { ...PRESSURE, values: ['~7 psi'] },
    ]);
    const { found: only } = await found(room);
    const source = room.setupAt([0, 0]).source;
    const { least } = (await judgement(source, { tub: 0 }))!;
    const { topHeight, runRisk, seasonRisk } = only.judged.pick.height!;
    expect({ topHeight, runRisk, seasonRisk }).toEqual({
      topHeight: least!.topHeight,
      runRisk: least!.runRisk,
      seasonRisk: least!.seasonRisk,
    });
    expect(only.held.map(({ heldBy }) => heldBy)).toEqual(['single value', 'single value']);
  });

  it('is the smallest tub that asks for no more than will do, and says so where none does', async () => {
    const room = roomOf([{ ...CENTRE, values: ['0.25 in', '0.5 in'] }], '[short-39, street-42]');
    const [small, large] = await Promise.all([0, 1].map((tub) => found(room, { tubs: [tub] })));
    const heights = [small!, large!].map(({ found: one }) => one.judged.pick.height!.topHeight);
    expect(heights[1]).toBeLessThan(heights[0]!);
    const goal = { tubs: [0, 1] };
    const both = await found(room, { ...goal, most: heights[0]! });
    expect(both.found).toMatchObject({ tub: 0, does: true });
    const between = await found(room, { ...goal, most: heights[0]! - SIXTEENTH });
    expect(between.found).toMatchObject({ tub: 1, does: true });
    expect(between.tried.map(({ tub }) => tub)).toEqual([0, 1]);
    const none = await found(room, { ...goal, most: heights[1]! - INCH / 2 });
    expect(none.found).toMatchObject({ tub: 1, does: false });
  });
});
