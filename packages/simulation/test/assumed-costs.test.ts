import { describe, expect, it } from 'vitest';
import { touchCentres } from '../src/importance/centres.ts';
import { normalSpace } from '../src/importance/normal-space.ts';
import { type AssumedCost, assumedCosts, changesNear, withKnown } from '../src/insight/assumed-costs.ts';
import { createBlockRoom } from '../src/run-risk.ts';
import { caseSetup } from '../src/setup.ts';
import { studyFigures } from '../src/study/study-figures.ts';
import { openStudy, performStudyTask, runStudy } from '../src/study/study-tasks.ts';
import { demoCase } from './demo.ts';

const TUB = 3;
const source = demoCase(8192, 1);
const only = { ...source, tubs: [source.tubs[TUB]!] };
const setup = caseSetup(source);
const centres = touchCentres(setup, normalSpace(setup), 1, createBlockRoom(setup));
const topHeight = setup.lowestHeights[TUB]! + 0.1397;

async function costs(items: Record<string, string[]>): Promise<Map<string, AssumedCost>> {
  const found = new Map<string, AssumedCost>();
  await assumedCosts(
    source,
    Object.entries(items).map(([name, inputs]) => ({ name, inputs })),
    { tub: TUB, topHeight, centres },
    (setups) => {
      const study = openStudy(setups);
      return async (tasks) => tasks.map((task) => performStudyTask(study, task));
    },
    (cost) => found.set(cost.name, cost),
  );
  return found;
}

describe('what it costs that something is assumed', async () => {
  const found = await costs({
    growth: ['tyres[0].growthScale'],
    springs: ['suspension.wheelRate'],
    wheelbase: ['car.wheelbase'],
    both: ['tyres[0].growthScale', 'suspension.wheelRate'],
    nothing: ['car.nothing'],
  });

  it('points the way it must, and names what has no spread not at all', () => {
    expect([...found.keys()]).toEqual(['growth', 'springs', 'both']);
    const growth = found.get('growth')!;
    expect(growth.low).toBeLessThan(growth.high!);
    expect(growth.middle).toBeLessThan(0);
    const springs = found.get('springs')!;
    expect(springs.low).toBeGreaterThan(springs.high!);
    expect(growth.moves).toBeGreaterThan(5 * springs.moves);
  });

  it('is the difference that a comparison of the same cases finds', async () => {
    const known = withKnown(only, ['tyres[0].growthScale'], 0.05);
    const study = openStudy([
      { label: 'as it is', source: only },
      { label: 'known', source: known },
    ]);
    const heights: number[] = [];
    await runStudy(
      study,
      { draws: 4096, weightedBlocks: 8, centres, heights: [[topHeight]] },
      async (tasks) => tasks.map((task) => performStudyTask(study, task)),
      (totals, p) => {
        const { runRisk } = source.accept;
        const figures = studyFigures(study.points[p]!, totals, runRisk, [[topHeight]]);
        heights.push(figures.at(-1)![0]!.even!.height);
      },
    );
    expect(found.get('growth')!.low).toBeCloseTo(heights[1]! - heights[0]!, 9);
  });
});

it('tells of another tub where the height is none of this one any more, and of nothing where the first is none', () => {
  // 7 in is 0.1778 m.
  const inTub = changesNear([1, 1.01, 1.1778, undefined, 0.99], 1.002)!;
  expect(inTub.map((change) => change && Math.round(change * 1000))).toEqual([10, null, null, -10]);
  expect(changesNear([1.1778, 1.01], 1.002)).toBeUndefined();
  expect(changesNear([1.2, undefined], 1)).toBeUndefined();
});
