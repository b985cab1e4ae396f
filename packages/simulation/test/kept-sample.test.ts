import { MOMENTS } from '@tubgap/core';
import { BLOCK } from '@tubgap/statistics';
import { SIXTEENTH } from '@tubgap/units';
import { beforeAll, describe, expect, it } from 'vitest';
import { normalSpace } from '../src/importance/normal-space.ts';
import { type KeptSample, keepSample, keptRisks, openKept } from '../src/kept-sample.ts';
import { lowestAccepted } from '../src/pick.ts';
import { namedSteps, openRun } from '../src/replay/named-runs.ts';
import { emptyRunSteps, keepRunSteps, unseenRuns } from '../src/replay/run-steps.ts';
import { createBlockRoom } from '../src/run-risk.ts';
import { emptyRunTallies } from '../src/run-tallies.ts';
import { tallyRuns } from '../src/runner.ts';
import { caseSetup } from '../src/setup.ts';
import { performHere, simulateUntilSettled } from '../src/simulate.ts';
import { caseState } from '../src/state.ts';
import { HEIGHT_STEPS } from '../src/tally.ts';
import { type Findings, findingRisks } from '../src/tasks.ts';
import { demoCase } from './demo.ts';

describe('the sample that a pick keeps', () => {
  const whole = demoCase(8192, 256);
  const source = { ...whole, tubs: whole.tubs.slice(0, 2) };
  const setup = caseSetup(source);
  let found: Findings;
  let sample: KeptSample;
  beforeAll(async () => {
    const perform = performHere(source);
    const { found: all, centres } = await simulateUntilSettled(source, setup, perform, () => {});
    found = all;
    const wanted = namedSteps(source, findingRisks(all));
    const [named] = await perform([{ kind: 'named runs', centres, wanted }], () => {});
    if (named?.kind !== 'named runs') throw new Error('no runs');
    sample = JSON.parse(JSON.stringify(keepSample(all, named.named)));
  });

  it('gives every risk at every height as the whole sums do, to the last bit', () => {
    const risks = findingRisks(found);
    let weighted = 0;
    for (const t of source.tubs.keys()) {
      const pairs = source.tyres.flatMap((_, i) => {
        const kept = keptRisks(openKept(sample.tyres[i]!, t));
        return [
          [kept.touch, risks.tyres[i]![t]!.touch],
          [kept.contact, risks.tyres[i]![t]!.contact],
        ] as const;
      });
      for (const [kept, made] of [
        ...pairs,
        [keptRisks(openKept(sample.seasons, t)).touch, risks.seasons[t]!] as const,
      ]) {
        for (let n = 0; n < HEIGHT_STEPS; n++) {
          expect(kept(n)).toEqual(made(n));
          if (kept(n).method === 'weighted') weighted++;
        }
      }
    }
    expect(weighted).toBeGreaterThan(100);
  });

  it('tells kept runs apart by the mixture as a count of them with it does', () => {
    const { draws, seed } = source.simulation;
    const space = normalSpace(setup);
    const kept = emptyRunSteps(draws);
    const room = createBlockRoom(setup);
    const runs = emptyRunTallies(setup);
    tallyRuns(setup, seed, draws, 0, draws / BLOCK, room, runs, undefined, (outcome, block) =>
      keepRunSteps(outcome, 1, block, kept),
    );
    const unseen = unseenRuns({ space, centres: found.centres }, seed, kept);
    const { events, tubs } = found.runs.unseen.tyres[1]!;
    expect(unseen.events).toBe(events);
    expect(events).toBeLessThan(draws);
    for (const part of ['steps', 'contactSteps'] as const) {
      // Those of the pick begin at its floor, and what needs less stands there.
      const floor = tubs[0]![part].findIndex((count) => count > 0);
      expect(unseen.tubs[0]![part].subarray(floor + 1)).toEqual(tubs[0]![part].subarray(floor + 1));
      expect(floor).toBeLessThan(60);
    }
  });

  it('holds the run of the accepted risk: it keeps the reserve just from the height on that keeps that risk', () => {
    const { runRisk } = source.accept;
    source.tyres.forEach((_, tyre) => {
      source.tubs.forEach((_, tub) => {
        const { rare, tightestOf } = sample.named[tyre]![tub]!;
        const { touch } = findingRisks(found).tyres[tyre]![tub]!;
        const step = lowestAccepted(touch, runRisk)!;
        expect(tightestOf).toBeNull();
        const { car, tyre: tyreValues, axleHeight } = openRun(setup, tyre, rare!);
        const gapAt = (n: number): number => {
          const topHeight = setup.lowestHeights[tub]! + n * SIXTEENTH;
          const states = MOMENTS.map((moment) =>
            caseState(setup, { tyre, tub, topHeight, moment, car, tyreValues, axleHeight }),
          );
          return Math.min(...states.filter(({ happens }) => happens).map(({ gap }) => gap));
        };
        expect(gapAt(step)).toBeGreaterThanOrEqual(source.build.reserve - 1e-6);
        expect(gapAt(step - 1)).toBeLessThan(source.build.reserve);
      });
    });
  });
});
