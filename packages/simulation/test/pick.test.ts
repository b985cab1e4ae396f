import type { Case } from '@tubgap/casefile';
import { describe, expect, it } from 'vitest';
import { caseRisks } from '../src/case-risks.ts';
import { type Pick, pickHeights } from '../src/pick.ts';
import { createBlockRoom, emptyRunTallies, tallyRuns } from '../src/run-risk.ts';
import { caseSetup } from '../src/setup.ts';
import { emptyTally } from '../src/tally.ts';
import { demoCase } from './demo.ts';

const INCH = 0.0254;
const DRAWS = 8192;

/** Picks of a case from plain runs, with seasons that never touch. */
function picksOf(source: Case): { picks: Pick[]; hardTouches: number[] } {
  const setup = caseSetup(source);
  const runs = emptyRunTallies(setup);
  tallyRuns(setup, 1, DRAWS, 0, DRAWS / 1024, createBlockRoom(setup), runs);
  const seasons = emptyTally(setup.lowestHeights, setup.clearance.hardPoints.length);
  seasons.events = 2000;
  for (const tub of seasons.tubs) tub.steps[0] = 2000;
  const risks = caseRisks(runs, undefined, seasons, undefined);
  return { picks: pickHeights(source, setup, risks, runs, seasons), hardTouches: runs.all.hardTouches };
}

const bar = (name: string, ahead: number): Case['hardPoints'][number] => ({
  name,
  shape: 'circle',
  ahead: ahead * INCH,
  above: 0.1 * INCH,
  radius: 0.875 * INCH,
});

describe('a hard point that every run touches', () => {
  it('is named with its own touches, wherever it stands in the list', () => {
    const source = { ...demoCase(DRAWS, 2000), hardPoints: [bar('far bar', 40), bar('near bar', 18)] };
    const { picks, hardTouches } = picksOf(source);
    expect(hardTouches[0]).toBe(0);
    expect(hardTouches[1]).toBeGreaterThan(0.9 * DRAWS);
    for (const { reason } of picks) {
      expect(reason).toContain(`near bar (${hardTouches[1]} of ${DRAWS} runs)`);
      expect(reason).not.toContain('far bar');
    }
  });
});
