import { describe, expect, it } from 'vitest';
import { assessCase } from '../src/assess/assess.ts';
import { createBlockRoom } from '../src/run-risk.ts';
import { emptyRunTallies } from '../src/run-tallies.ts';
import { tallyRuns } from '../src/runner.ts';
import { tallySeasons } from '../src/season-risk.ts';
import { caseSetup } from '../src/setup.ts';
import { emptyTally, touchesByHeight } from '../src/tally.ts';
import { demoCase } from './demo.ts';

describe('run risk', () => {
  const source = demoCase(4096, 1);
  const setup = caseSetup(source);

  it('is the same whether blocks are counted at once or one by one, in any order', () => {
    const whole = emptyRunTallies(setup);
    tallyRuns(setup, 1, 3500, 0, 4, createBlockRoom(setup), whole);
    const parts = emptyRunTallies(setup);
    for (const block of [3, 0, 2, 1])
      tallyRuns(setup, 1, 3500, block, block + 1, createBlockRoom(setup), parts);
    expect(parts).toEqual(whole);
    expect(whole.all.events).toBe(3500);
  });

  it('of all tyres is at least that of each and at most their sum', () => {
    const tallies = emptyRunTallies(setup);
    tallyRuns(setup, 1, 4096, 0, 4, createBlockRoom(setup), tallies);
    tallies.all.tubs.forEach((tub, t) => {
      const all = touchesByHeight(tub.steps);
      const each = tallies.tyres.map((tally) => touchesByHeight(tally.tubs[t]!.steps));
      for (let n = 0; n < 200; n += 3) {
        expect(all[n]).toBeGreaterThanOrEqual(Math.max(...each.map((list) => list[n]!)));
        expect(all[n]).toBeLessThanOrEqual(each.reduce((sum, list) => sum + list[n]!, 0));
      }
    });
  });

  it('rises with the reserve', () => {
    const more = caseSetup({ ...source, build: { ...source.build, reserve: source.build.reserve + 0.0127 } });
    const plain = emptyRunTallies(setup);
    const tighter = emptyRunTallies(more);
    tallyRuns(setup, 1, 2048, 0, 2, createBlockRoom(setup), plain);
    tallyRuns(more, 1, 2048, 0, 2, createBlockRoom(more), tighter);
    const sum = (tallies: typeof plain): number =>
      touchesByHeight(tallies.all.tubs[3]!.steps).reduce((a, b) => a + b, 0);
    expect(sum(tighter)).toBeGreaterThan(sum(plain));
  });
});

describe('season risk', () => {
  it('lies above the run risk and below what independent runs of the mean car would give', () => {
    const source = demoCase(8192, 512);
    const setup = caseSetup(source);
    const room = createBlockRoom(setup);
    const runs = emptyRunTallies(setup);
    tallyRuns(setup, 1, 8192, 0, 8, room, runs);
    const seasons = emptyTally(setup.lowestHeights, setup.clearance.hardPoints.length);
    tallySeasons(setup, 1, 0, 512, room, seasons);
    const tub = 3;
    const season = touchesByHeight(seasons.tubs[tub]!.steps);
    const byTyre = runs.tyres.map((tally) => touchesByHeight(tally.tubs[tub]!.steps));
    // Where a run touches once in about twenty, the difference between cars shows.
    const n = byTyre[0]!.findIndex((touches) => touches / 8192 < 0.05);
    const mean = byTyre[0]![n]! / 8192;
    const clear = setup.tyres.reduce(
      (p, tyre, i) => p * (1 - byTyre[i]![n]! / 8192) ** tyre.runsPerSeason,
      1,
    );
    expect(season[n]! / 512).toBeGreaterThan(2 * mean);
    expect(season[n]! / 512).toBeLessThan(1 - clear - 0.1);
  });
});

describe('a case with a single car in a single state', () => {
  it('picks nothing it cannot support and says how many draws it needs', async () => {
    const found = await assessCase(demoCase(1024, 32));
    expect(found.chosen).toBeUndefined();
    // 7,376 runs without a touch bring the upper bound down to 1 in 2,000.
    const open = found.picks.filter(({ verdict }) => verdict === 'not known');
    expect(open.length).toBeGreaterThan(2);
    expect(open.every((pick) => pick.height === undefined && pick.drawsNeeded === 7376)).toBe(true);
  });
});
