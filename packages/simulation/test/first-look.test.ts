import { describe, expect, it } from 'vitest';
import { firstLook, lookedAtFirst } from '../src/first-look.ts';
import { stepAt } from '../src/heights.ts';
import { pickHeights } from '../src/pick.ts';
import { caseSetup } from '../src/setup.ts';
import { performHere, simulateUntilSettled } from '../src/simulate.ts';
import { findingRisks } from '../src/tasks.ts';
import { demoCase } from './demo.ts';

describe('a first look', async () => {
  const source = demoCase(65_536, 256);
  const first = lookedAtFirst(source);
  const setup = caseSetup(source);
  const { runs, risks, seasons } = await firstLook(first, performHere(first));
  const looked = pickHeights(first, setup, risks, runs);
  const settled = await simulateUntilSettled(source, setup, performHere(source), () => {});
  const picks = pickHeights(source, setup, findingRisks(settled.found), settled.found.runs);

  it('makes a fifth of the runs, and leaves a height in every tub that fits', () => {
    expect(runs.all.events).toBe(12_288);
    expect(looked.map(({ verdict }) => verdict)).toEqual(picks.map(({ verdict }) => verdict));
  });

  it('holds the height that is found in the end, which is no higher', () => {
    looked.forEach(({ height }, t) => {
      const { topHeight } = picks[t]!.height!;
      expect(topHeight).toBeLessThanOrEqual(height!.topHeight + 1e-9);
      expect(topHeight).toBeGreaterThanOrEqual(height!.topHeight - height!.mayFall - 1e-9);
    });
  });

  it('counts no seasons where the accepted runs leave none that is not, and tells what follows from the runs', () => {
    expect(seasons).toBe(0);
    const tub = looked.findIndex(({ height }) => height !== undefined);
    const step = stepAt(setup.lowestHeights[tub]!, looked[tub]!.height!.topHeight);
    const [slick, radial] = risks.tyres.map((tubs) => tubs[tub]!.touch(step));
    const [ofSlick, ofRadial] = first.tyres.map(({ runsPerSeason }) => runsPerSeason);
    expect(risks.seasons[tub]!(step).high).toBeCloseTo(ofSlick! * slick!.high + ofRadial! * radial!.high, 12);
    expect(risks.seasons[tub]!(step).high).toBeGreaterThanOrEqual(
      findingRisks(settled.found).seasons[tub]!(step).estimate,
    );
  });

  it('makes more runs in place of seasons, as long as these would take more', () => {
    const inSeason = source.tyres.reduce((sum, { runsPerSeason }) => sum + runsPerSeason, 0);
    const draws = (share: number): number => {
      const seasonRisk = share * source.accept.runRisk * inSeason;
      return lookedAtFirst({ ...source, accept: { ...source.accept, seasonRisk } }).simulation.draws;
    };
    expect(draws(0.6) / draws(1)).toBeCloseTo(1 / 0.6, 0);
    expect(draws(0.4)).toBe(draws(1));
  });

  it('asks for no runs that a case does not allow', () => {
    const { simulation } = lookedAtFirst(demoCase(2048, 16));
    expect(simulation).toMatchObject({ draws: 2048, cars: 16 });
  });
});
