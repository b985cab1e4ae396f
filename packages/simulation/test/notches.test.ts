import type { Case, CaseTub } from '@tubgap/casefile';
import { BLOCK } from '@tubgap/statistics';
import { expect, it } from 'vitest';
import { touchCentres } from '../src/importance/centres.ts';
import { normalSpace } from '../src/importance/normal-space.ts';
import { notchCosts } from '../src/insight/notches.ts';
import { createBlockRoom } from '../src/run-risk.ts';
import { caseSetup } from '../src/setup.ts';
import { type CellFigures, studyFigures } from '../src/study/study-figures.ts';
import {
  openStudy,
  type PerformStudy,
  performStudyTask,
  runStudy,
  type StudySample,
} from '../src/study/study-tasks.ts';
import { demoCase } from './demo.ts';

const INCH = 0.0254;
const ANGLE = 0.6;

const demo = demoCase(8 * BLOCK, 1);
const plainTub = demo.tubs[3]!;
const notched = (depth: number): CaseTub => ({
  ...plainTub,
  notches: [{ angle: ANGLE, depth: depth * INCH }],
});
/** The demo on its slick alone in one tub with one notch. */
const source: Case = { ...demo, hardPoints: [], tyres: demo.tyres.slice(0, 1), tubs: [notched(0.25)] };
const setup = caseSetup(source);
const sample: StudySample = {
  draws: 8 * BLOCK,
  weightedBlocks: 8,
  centres: touchCentres(setup, normalSpace(setup), 1, createBlockRoom(setup)),
};

const inTubs = (tubs: readonly CaseTub[]) =>
  openStudy([{ label: '', source: { ...source, tubs: [...tubs] } }]);
const performWith =
  (tubs: readonly CaseTub[]): PerformStudy =>
  async (tasks) =>
    tasks.map((task) => performStudyTask(inTubs(tubs), task));

async function figuresOf(tubs: readonly CaseTub[], topHeight: number): Promise<CellFigures[]> {
  const heights = tubs.map(() => [topHeight]);
  let found: CellFigures[] = [];
  const study = inTubs(tubs);
  await runStudy(study, { ...sample, heights }, performWith(tubs), (totals) => {
    [found] = studyFigures(study.points[0]!, totals, source.accept.runRisk, heights) as [CellFigures[]];
  });
  return found;
}

it('a notch is told the deepest flat that keeps the pick, and what it costs against the tub without it', async () => {
  const topHeight = (await figuresOf(source.tubs, INCH))[0]!.topHeight! + INCH / 8;
  const [own] = await figuresOf(source.tubs, topHeight);
  const { risk } = own!.compared[0]!;
  const [cost] = await notchCosts(source, { tub: 0, topHeight, risks: [risk] }, sample, performWith);
  const { deepest } = cost!;
  expect(deepest).toBeGreaterThan(0.25 * INCH);
  expect(deepest).toBeLessThan(6 * INCH);
  const depth = deepest / INCH;
  const [as, kept, deeper, without] = await figuresOf(
    [notched(0.25), notched(depth), notched(depth + 1 / 16), plainTub],
    topHeight,
  );
  const boundAt = (cell: CellFigures): number =>
    risk.high + cell.compared[0]!.risk.estimate - as!.compared[0]!.risk.estimate;
  expect(boundAt(kept!)).toBeLessThanOrEqual(source.accept.runRisk);
  expect(boundAt(deeper!)).toBeGreaterThan(source.accept.runRisk);
  expect(cost!.height).toBeCloseTo(as!.even!.height - without!.even!.height, 12);
});
