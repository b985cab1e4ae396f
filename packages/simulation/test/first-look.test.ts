import { describe, expect, it } from 'vitest';
import { firstLook, lookedAtFirst } from '../src/first-look.ts';
import { pickHeights } from '../src/pick.ts';
import { caseSetup } from '../src/setup.ts';
import { performHere, simulateUntilSettled } from '../src/simulate.ts';
import { findingRisks } from '../src/tasks.ts';
import { demoCase } from './demo.ts';

describe('a first look', async () => {
  const source = demoCase(65_536, 256);
  const first = lookedAtFirst(source);
  const setup = caseSetup(source);
  const { runs, risks } = await firstLook(first, performHere(first));
  const looked = pickHeights(first, setup, risks, runs);
  const settled = await simulateUntilSettled(source, setup, performHere(source), () => {});
  const picks = pickHeights(source, setup, findingRisks(settled.found), settled.found.runs);

  it('makes a quarter of the runs, and leaves a height in every tub that fits', () => {
    expect(runs.all.events).toBe(16_384);
    expect(looked.map(({ verdict }) => verdict)).toEqual(picks.map(({ verdict }) => verdict));
  });

  it('holds the height that is found in the end, which is no higher', () => {
    looked.forEach(({ height }, t) => {
      const { topHeight } = picks[t]!.height!;
      expect(topHeight).toBeLessThanOrEqual(height!.topHeight + 1e-9);
      expect(topHeight).toBeGreaterThanOrEqual(height!.topHeight - height!.mayFall - 1e-9);
    });
  });

  it('asks for no runs that a case does not allow', () => {
    const { simulation } = lookedAtFirst(demoCase(2048, 16));
    expect(simulation).toMatchObject({ draws: 2048, cars: 16 });
  });
});
