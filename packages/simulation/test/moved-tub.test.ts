import type { Case } from '@tubgap/casefile';
import { SIXTEENTH } from '@tubgap/units';
import { expect, it } from 'vitest';
import { touchCentres } from '../src/importance/centres.ts';
import { normalSpace } from '../src/importance/normal-space.ts';
import { createBlockRoom } from '../src/run-risk.ts';
import { weightedBlocks } from '../src/runner.ts';
import { caseSetup } from '../src/setup.ts';
import { passingStep } from '../src/study/height-at-risk.ts';
import { type CellFigures, studyFigures } from '../src/study/study-figures.ts';
import { openStudy, performStudyTask, runStudy } from '../src/study/study-tasks.ts';
import { PROOF_CASES } from './proofs/cases.ts';
import { missesOf, proofSeeds } from './proofs/picked.ts';
import { readTruth, trueRisk } from './proofs/truth.ts';

/**
 * How much more height a tub 3/4 in further ahead asks for, against 16,000,000 plain runs of each: its legs are touched by
 * some runs that no centre of the base leads to. The seeds here are of those whose interval by the 97.5 % point of
 * Student's law lay below the known difference; TUBGAP_PROOF_SEEDS=100 takes 100 from 1 on.
 */
const MISSED_BEFORE = [32, 45, 48];
const DRAWS = 65_536;

const withSlick = (source: Case): Case => ({ ...source, tyres: source.tyres.slice(0, 1) });

/** Height at the accepted risk by the counted truth, m. */
function trueHeight(name: 'demo' | 'ahead', accepted: number): number {
  const counts = readTruth(name).tyres[0]!;
  const step = passingStep((n) => (n < counts.fromStep ? 1 : trueRisk(counts, n).risk), accepted)!;
  return caseSetup(PROOF_CASES[name].source(1)).lowestHeights[0]! + step * SIXTEENTH;
}

async function moved(seed: number): Promise<NonNullable<CellFigures['heightDifference']>> {
  const base = withSlick(PROOF_CASES.demo.source(seed));
  const setup = caseSetup(base);
  const centres = touchCentres(setup, normalSpace(setup), seed, createBlockRoom(setup));
  const ahead = withSlick(PROOF_CASES.ahead.source(seed));
  const study = openStudy([
    { label: 'as it stands', source: base },
    { label: 'further ahead', source: ahead },
  ]);
  const figures: CellFigures[][][] = [];
  await runStudy(
    study,
    { draws: DRAWS, weightedBlocks: weightedBlocks(base), centres, heights: [[]] },
    async (tasks) => tasks.map((task) => performStudyTask(study, task)),
    (totals, p) => {
      figures.push(studyFigures(study.points[p]!, totals, base.accept.runRisk, [[]], figures[0]));
    },
  );
  return figures[1]![0]![0]!.heightDifference!;
}

it('a tub further ahead has the known difference of heights in its interval', async () => {
  const { runRisk } = PROOF_CASES.demo.source(1).accept;
  const known = trueHeight('ahead', runRisk) - trueHeight('demo', runRisk);
  const seeds = process.env.TUBGAP_PROOF_SEEDS === undefined ? MISSED_BEFORE : proofSeeds(0);
  const missed: number[] = [];
  for (const seed of seeds) {
    const { low, high } = await moved(seed);
    if (low > known || high < known) missed.push(seed);
  }
  expect(missed.length, `seeds ${missed}`).toBeLessThanOrEqual(
    seeds === MISSED_BEFORE ? 0 : missesOf(seeds.length),
  );
});
