import type { Case } from '@tubgap/casefile';
import { SIXTEENTH } from '@tubgap/units';
import { beforeAll, describe, expect, it } from 'vitest';
import { caseRisks } from '../src/case-risks.ts';
import { type PickedHeight, pickHeights } from '../src/pick.ts';
import { createBlockRoom } from '../src/run-risk.ts';
import { emptyRunTallies } from '../src/run-tallies.ts';
import { tallyRuns } from '../src/runner.ts';
import { caseSetup } from '../src/setup.ts';
import { performHere, simulateUntilSettled } from '../src/simulate.ts';
import { type Findings, findingRisks } from '../src/tasks.ts';
import { tubVerdict, type Verdict } from '../src/verdict.ts';
import { demoCase } from './demo.ts';

/** The largest tub of the demo. */
const TUB = 3;
const DRAWS = 8192;

describe('the verdict on a tub', () => {
  const source = demoCase(DRAWS, 256);
  const { lowestHeights } = caseSetup(source);
  let found: Findings;
  let pick: PickedHeight;
  beforeAll(async () => {
    const setup = caseSetup(source);
    found = (await simulateUntilSettled(source, setup, performHere(source), () => {})).found;
    pick = pickHeights(source, setup, findingRisks(found), found.runs)[TUB]!.height!;
  }, 120_000);

  const at = (topHeight: number, judged: Case = source, plain = false, runs = found.runs): Verdict => {
    const risks = plain
      ? caseRisks(runs, undefined, found.seasons, undefined)
      : findingRisks({ ...found, runs });
    return tubVerdict(judged, caseSetup(judged), risks, runs, TUB, topHeight);
  };

  it('at the pick’s own height gives the very figures of the pick', () => {
    const verdict = at(pick.topHeight);
    expect(verdict.standing).toBe('within');
    expect(verdict.heightNeeded).toBe(pick.topHeight);
    for (const name of ['limitingTyre', 'runRisk', 'contactRisk', 'seasonRisk'] as const)
      expect(verdict[name]).toEqual(pick[name]);
  });

  it('speaks of the height asked about: 2 in lower is not within, a hair lower never within, higher is', () => {
    const low = at(pick.topHeight - 32 * SIXTEENTH);
    expect(low.standing).toBe('not within');
    expect(low.runRisk.low).toBeGreaterThan(low.accepted.runRisk);
    expect(low.heightNeeded).toBe(pick.topHeight);
    expect(at(pick.topHeight - 0.1 * SIXTEENTH).standing).not.toBe('within');
    expect(at(pick.topHeight + 40 * SIXTEENTH).standing).toBe('within');
  });

  it('never clears a tub below what clears at rest, though no run touched at the lowest height', () => {
    const runs = emptyRunTallies(caseSetup(source));
    for (const tally of [...runs.tyres, runs.all]) tally.events = 1e6;
    const lax = { ...source, accept: { runRisk: 0.01, seasonRisk: 0.999 } };
    const seasons = { ...found.seasons, tubs: runs.all.tubs };
    const judged = (topHeight: number): Verdict =>
      tubVerdict(lax, caseSetup(lax), caseRisks(runs, undefined, seasons, undefined), runs, TUB, topHeight);
    const rest = lowestHeights[TUB]!;
    expect(judged(rest)).toMatchObject({ standing: 'within', belowRest: false });
    expect(judged(rest - SIXTEENTH)).toMatchObject({ standing: 'not within', belowRest: true });
  });

  it('does not know where too few runs could tell, and then names no height', () => {
    const strict = { ...source, accept: { runRisk: 1e-6, seasonRisk: 1e-3 } };
    const high = at(pick.topHeight + 64 * SIXTEENTH, strict, true);
    expect(high).toMatchObject({ standing: 'not known', heightNeeded: undefined });
    expect(high.drawsNeeded).toBeGreaterThan(DRAWS);
    expect(high.whyNoHeight).toContain('too few');
    // Far too low, no more runs are wanted to say so.
    expect(at(pick.topHeight - 32 * SIXTEENTH, strict, true).standing).toBe('not within');
  });

  it('never clears a tub whose sides do not take the tyre', () => {
    const narrow = { ...source, tubs: source.tubs.map((tub) => ({ ...tub, insideWidth: 0.3 })) };
    const verdict = at(pick.topHeight, narrow);
    expect(verdict.standing).toBe('not within');
    expect(verdict.sides).toMatchObject([{ at: 'inside width' }, { at: 'inside width' }]);
  });

  it('says that no height mends a bar in the way', () => {
    const bar: Case['hardPoints'][number] = {
      name: 'near bar',
      shape: 'circle',
      ahead: 18 * 0.0254,
      above: 0.00254,
      radius: 0.0222,
    };
    const barred = { ...source, hardPoints: [bar] };
    const setup = caseSetup(barred);
    const runs = emptyRunTallies(setup);
    tallyRuns(setup, 1, DRAWS, 0, DRAWS / 1024, createBlockRoom(setup), runs);
    const verdict = at(pick.topHeight + 64 * SIXTEENTH, barred, true, runs);
    expect(verdict).toMatchObject({ standing: 'not within', heightNeeded: undefined, drawsNeeded: 0 });
    expect(verdict.whyNoHeight).toContain('near bar');
  });
});
