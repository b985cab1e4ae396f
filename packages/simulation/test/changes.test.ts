import type { Case } from '@tubgap/casefile';
import { BLOCK } from '@tubgap/statistics';
import { describe, expect, it } from 'vitest';
import { tubRisks } from '../src/case-risks.ts';
import { stepAt } from '../src/heights.ts';
import { touchCentres } from '../src/importance/centres.ts';
import { normalSpace } from '../src/importance/normal-space.ts';
import { addWeightedTallies, emptyWeightedTallies } from '../src/importance/weighted-risk.ts';
import { type Change, changedSetups, findChanges } from '../src/insight/changes.ts';
import { createBlockRoom } from '../src/run-risk.ts';
import { emptyRunTallies } from '../src/run-tallies.ts';
import { mixtureRuns, tallyRuns, weightedParts } from '../src/runner.ts';
import { caseSetup } from '../src/setup.ts';
import { type CellFigures, studyFigures } from '../src/study/study-figures.ts';
import { openStudy, performStudyTask, runStudy, type StudySample } from '../src/study/study-tasks.ts';
import { demoCase } from './demo.ts';

const INCH = 0.0254;
const TUB = 3;
const SLICK = 0;
const PLAIN = 16;
const WEIGHTED = 16;

function sampleOf(source: Case): StudySample {
  const setup = caseSetup(source);
  const centres = touchCentres(setup, normalSpace(setup), 1, createBlockRoom(setup));
  return { draws: PLAIN * BLOCK, weightedBlocks: WEIGHTED, centres };
}

/** What would change a tub at a height, with the risk by height that a pick of these draws has there. */
async function changesOf(
  source: Case,
  sample: StudySample,
  tub: number,
  topHeight: number,
): Promise<Map<Change['code'], Change>> {
  const setup = caseSetup(source);
  const room = createBlockRoom(setup);
  const runs = emptyRunTallies(setup);
  const { centres } = sample;
  tallyRuns(setup, 1, sample.draws, 0, PLAIN, room, runs, { space: normalSpace(setup), centres });
  const tail = emptyWeightedTallies(setup);
  for (const range of weightedParts(WEIGHTED))
    addWeightedTallies(tail, mixtureRuns(setup, centres, 1, range, room));
  const { touch } = tubRisks(runs.tyres[SLICK]!, runs.unseen.tyres[SLICK]!, tail.tyres[SLICK]!)[tub]!;
  const study = openStudy(changedSetups(source, SLICK, tub).setups);
  const changes = await findChanges(
    source,
    { tyre: SLICK, tub, topHeight },
    sample,
    (height) => touch(stepAt(setup.lowestHeights[tub]!, height)),
    async (tasks) => tasks.map((task) => performStudyTask(study, task)),
  );
  return new Map(changes.map((change) => [change.code, change]));
}

describe('what would change the demo’s pick', async () => {
  const source = demoCase(PLAIN * BLOCK, 1);
  const sample = sampleOf(source);
  const topHeight = caseSetup(source).lowestHeights[TUB]! + 0.1397;
  const changes = await changesOf(source, sample, TUB, topHeight);

  it('points the way it must: less speed, wing or travel ask for less height, more growth for more', () => {
    const height = (code: Change['code']): number => changes.get(code)!.heightChange!;
    expect(height('speed')).toBeLessThan(0);
    expect(height('downforce')).toBeLessThan(0);
    expect(height('travel')).toBeLessThan(0);
    expect(height('larger growth')).toBeGreaterThan(0);
    const { before, after } = changes.get('top higher')!.runRisk;
    expect(after).toBeLessThan(0.5 * before);
  });

  it('is what a sweep of the same input by the same amount says, height and risk, with all tubs and tyres in it', async () => {
    const varied = [
      { code: 'pressure', path: 'tyres[0].coldPressure', value: '~7 psi' },
      { code: 'springs', path: 'suspension.wheelRate', value: '~236.5 lbf/in' },
      { code: 'travel', path: 'suspension.bumpTravel', value: '~1.4 in' },
    ] as const;
    const sources = [source, ...varied.map((one) => demoCase(PLAIN * BLOCK, 1, [one]))];
    const study = openStudy(sources.map((one) => ({ label: one.name, source: one })));
    const heights = source.tubs.map(() => [topHeight]);
    const figures: CellFigures[][][] = [];
    await runStudy(
      study,
      { ...sample, heights },
      async (tasks) => tasks.map((task) => performStudyTask(study, task)),
      (totals, p) => {
        const { runRisk } = source.accept;
        figures.push(studyFigures(study.points[p]!, totals, runRisk, heights, figures[0]));
      },
    );
    varied.forEach(({ code }, k) => {
      const { heightChange, runRisk } = changes.get(code)!;
      const swept = figures[k + 1]!;
      expect(heightChange! / INCH).toBeCloseTo(swept.at(-1)![TUB]!.heightDifference!.estimate / INCH, 6);
      const { risk, difference } = swept[SLICK]![TUB]!.compared[0]!;
      expect(runRisk.after).toBeCloseTo(risk.estimate, 9);
      expect(runRisk.after - runRisk.before).toBeCloseTo(difference!.estimate, 9);
    });
  });
});

describe('a change that leaves no height', () => {
  it('stands first: growth a quarter larger in a tub whose legs no height lifts over the tyre', async () => {
    // Counted with 65,536 plain runs the sides of that tub are then touched in 7.8e-4 of them.
    const demo = demoCase(PLAIN * BLOCK, 1);
    const long = { ...demo, tubs: demo.tubs.map((tub) => ({ ...tub, legLength: 1.2 })) };
    const [first, ...others] = (await changesOf(long, sampleOf(long), 1, 39.25 * INCH)).values();
    expect(first).toMatchObject({ code: 'larger growth', asks: 'no height', heightChange: null });
    expect(others.length).toBeGreaterThan(5);
    expect(others.every(({ asks, heightChange }) => asks === 'height' && heightChange !== null)).toBe(true);
  });
});
