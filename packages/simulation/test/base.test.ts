import type { Case } from '@tubgap/casefile';
import { describe, expect, it } from 'vitest';
import { inspectGaps } from '../src/inspect-gaps.ts';
import { GAP_ANGLES, pickHeights } from '../src/pick.ts';
import { createBlockRoom } from '../src/run-risk.ts';
import { caseSetup } from '../src/setup.ts';
import { performHere, pickSample, simulateUntilSettled } from '../src/simulate.ts';
import { type CellFigures, studyFigures } from '../src/study/study-figures.ts';
import { openStudy, performStudyTask, runStudy } from '../src/study/study-tasks.ts';
import { findingRisks } from '../src/tasks.ts';
import { demoCase } from './demo.ts';

const PSI = 6894.757293168361;

/** The demo in two of its tubs, with runs whose last block is short, and the slick 1 psi harder or not. */
function demo(harder: boolean): Case {
  const source = demoCase(10_500, 16);
  const [slick, radial] = source.tyres;
  const { coldPressure } = slick!.inputs;
  const law = { kind: 'normal', mean: 7 * PSI, sd: 0.3 * PSI } as const;
  return {
    ...source,
    accept: { runRisk: 1 / 500, seasonRisk: 0.9 },
    tubs: source.tubs.slice(1, 3),
    tyres: [
      harder ? { ...slick!, inputs: { ...slick!.inputs, coldPressure: { ...coldPressure, law } } } : slick!,
      radial!,
    ],
  };
}

describe('the case as it stands, beside which others are set', async () => {
  const source = demo(false);
  const setup = caseSetup(source);
  const { found } = await simulateUntilSettled(source, setup, performHere(source), () => {});
  const picks = pickHeights(source, setup, findingRisks(found), found.runs);
  const sample = await pickSample(source, performHere(source), false);
  const setups = [source, demo(true)].map((one) => ({ label: one.name, source: one }));
  const study = openStudy(setups);
  const heights = sample.heights.map((height) => [height!]);
  const figures: CellFigures[][][] = [];
  await runStudy(
    study,
    { ...sample, heights, seasons: { cars: 16, accepted: source.accept.seasonRisk }, gaps: true },
    async (tasks) => tasks.map((task) => performStudyTask(study, task)),
    (totals, p) => {
      const { runRisk } = source.accept;
      figures.push(studyFigures(study.points[p]!, totals, runRisk, heights, figures[0]));
    },
  );

  it('has the risk, the interval and the height of its pick, to the last bit, from heights counted elsewhere', () => {
    expect(study.points[0]!.setup.lowestHeights).not.toEqual(setup.lowestHeights);
    picks.forEach((pick, t) => {
      expect(pick.alone).toEqual(figures[0]!.slice(0, -1).map((tubs) => tubs[t]!.topHeight));
      const limiting = setup.tyres.findIndex(({ name }) => name === pick.height!.limitingTyre);
      const cell = figures[0]![limiting]![t]!;
      expect(pick.height!.decidedBy).toBe('run risk');
      expect(cell.topHeight).toBe(pick.height!.topHeight);
      expect(cell.compared[0]!.risk).toEqual(pick.height!.runRisk);
      expect(cell.compared[0]!.risk.method).toBe('weighted');
    });
  });

  it('has the contact risk, the season and the gaps of its pick there too, and another setup those of its own draws', () => {
    const last = figures[0]!.length - 1;
    picks.forEach((pick, t) => {
      const limiting = setup.tyres.findIndex(({ name }) => name === pick.height!.limitingTyre);
      const [one] = figures[0]![limiting]![t]!.compared;
      expect(one!.contact).toEqual(pick.height!.contactRisk);
      expect(one!.contact.estimate).toBeGreaterThan(0);
      expect(one!.season).toBeUndefined();
      const whole = figures[0]![last]![t]!;
      expect(whole.compared[0]!.season).toEqual(pick.height!.seasonRisk);
      expect(whole.season).toEqual({ topHeight: pick.height!.topHeight });
      expect(one!.gaps!.standing).toBe(pick.height!.staticGaps[GAP_ANGLES.indexOf(0)]);
    });
    setups.forEach(({ source: own }, p) => {
      const alone = caseSetup(own);
      const looked = inspectGaps(alone, own.simulation.seed, heights, createBlockRoom(alone));
      const told = figures[p]!.map((tubs) =>
        tubs.map(({ compared }) => compared.map(({ gaps }) => gaps!.atSpeed)),
      );
      expect(told).toEqual(looked);
    });
    const p01 = figures.map((rows) => rows[0]![0]!.compared[0]!.gaps!.atSpeed.p01);
    expect(p01[1]).not.toBe(p01[0]);
  });

  it('differs from another setup by the difference of the two risks that are told, in every row', () => {
    let moved = 0;
    figures[1]!.forEach((tubs, row) => {
      tubs.forEach(({ compared }, t) => {
        const { risk, difference } = compared[0]!;
        const base = figures[0]![row]![t]!.compared[0]!.risk;
        expect(difference!.estimate).toBe(risk.estimate - base.estimate);
        expect(difference!.low).toBeLessThanOrEqual(difference!.estimate);
        expect(difference!.high).toBeGreaterThanOrEqual(difference!.estimate);
        if (difference!.estimate !== 0) moved++;
      });
    });
    expect(moved).toBe(4);
  });
});
