import type { Case } from '@tubgap/casefile';
import { BLOCK } from '@tubgap/statistics';
import { describe, expect, it } from 'vitest';
import { stepAt } from '../src/heights.ts';
import { touchCentres } from '../src/importance/centres.ts';
import { type Centres, NO_CENTRES } from '../src/importance/mixture.ts';
import { normalSpace } from '../src/importance/normal-space.ts';
import { createBlockRoom } from '../src/run-risk.ts';
import { emptyRunTallies } from '../src/run-tallies.ts';
import { tallyRuns } from '../src/runner.ts';
import { caseSetup } from '../src/setup.ts';
import { type HeightAtRisk, heightDifference } from '../src/study/height-at-risk.ts';
import { pairedDifference } from '../src/study/paired-difference.ts';
import { type CellFigures, studyFigures } from '../src/study/study-figures.ts';
import type { StudySetup } from '../src/study/study-point.ts';
import {
  openStudy,
  type PointTotals,
  performStudyTask,
  runStudy,
  type Study,
} from '../src/study/study-tasks.ts';
import { touchesByHeight } from '../src/tally.ts';
import { demoCase } from './demo.ts';

const INCH = 0.0254;
const MPH = 0.44704;
const ACCEPTED = 1 / 2000;

/** The demo on its slick alone, with another mean speed at the finish, some of its tubs, and a seed. */
function demo(mph: number, tubs: readonly number[], seed = 1): Case {
  const source = demoCase(1, 1);
  const { trapSpeed } = source.car;
  return {
    ...source,
    car: {
      ...source.car,
      trapSpeed: { ...trapSpeed, law: { kind: 'normal', mean: mph * MPH, sd: 3 * MPH } },
    },
    tyres: source.tyres.slice(0, 1),
    tubs: tubs.map((t) => source.tubs[t]!),
    simulation: { ...source.simulation, seed },
  };
}

/** Where touches of a case come from. */
function centresOf(source: Case): Centres {
  const setup = caseSetup(source);
  return touchCentres(setup, normalSpace(setup), source.simulation.seed, createBlockRoom(setup));
}

interface Run {
  study: Study;
  totals: PointTotals[];
  figures: CellFigures[][][];
}

/** Runs a study here. @param heights  of every tub, where setups are compared, m */
async function run(
  setups: readonly StudySetup[],
  blocks: number,
  heights: readonly number[],
  given?: Centres,
): Promise<Run> {
  const study = openStudy(setups);
  const centres = given ?? centresOf(setups[0]!.source);
  const everywhere = setups[0]!.source.tubs.map(() => heights);
  const totals: PointTotals[] = [];
  const figures: CellFigures[][][] = [];
  await runStudy(
    study,
    { draws: blocks * BLOCK, weightedBlocks: Math.min(32, blocks), centres, heights: everywhere },
    async (tasks) => tasks.map((task) => performStudyTask(study, task)),
    (found, p) => {
      totals.push(found);
      figures.push(studyFigures(study.points[p]!, found, ACCEPTED, everywhere, figures[0]));
    },
  );
  return { study, totals, figures };
}

const setupAt = (mph: number, tubs: readonly number[], seed?: number): StudySetup => ({
  label: `${mph} mph`,
  source: demo(mph, tubs, seed),
});

describe('setups that are put through the same draws', () => {
  it('ask for more height and touch more often the faster the car, in every tub, however small the step', async () => {
    const speeds = [222, 222.5, 223, 223.5, 224];
    const { figures } = await run(
      speeds.map((mph) => setupAt(mph, [1, 2, 3])),
      8,
      [38.5 * INCH],
    );
    for (const t of [0, 1, 2]) {
      const heights = figures.map((rows) => rows.at(-1)![t]!.even!.height);
      const risks = figures.map((rows) => rows.at(-1)![t]!.compared[0]!.risk.estimate);
      for (let p = 1; p < speeds.length; p++) {
        expect(heights[p]!, `tub ${t}`).toBeGreaterThan(heights[p - 1]!);
        expect(risks[p]!, `tub ${t}`).toBeGreaterThan(risks[p - 1]!);
      }
      // Two miles an hour move the height by a thirtieth of an inch, and are told from nothing.
      expect(figures.at(-1)!.at(-1)![t]!.heightDifference!.low).toBeGreaterThan(0);
    }
  });

  it('do just what they do by themselves where a tub alone or one of two tyres is another', async () => {
    // What is not changed is not worked out again, and all tubs of one car are gone through together.
    const whole = demoCase(1, 1);
    const [slick, radial] = whole.tyres;
    const { coldPressure } = slick!.inputs;
    const law = { kind: 'normal', mean: 48_000, sd: 2_000 } as const;
    const source: Case = { ...whole, tubs: [whole.tubs[1]!] };
    const moved = (by: number): Case => ({
      ...source,
      tubs: source.tubs.map((tub) => ({ ...tub, centreForward: tub.centreForward + by * INCH })),
    });
    const softer: Case = {
      ...source,
      tyres: [{ ...slick!, inputs: { ...slick!.inputs, coldPressure: { ...coldPressure, law } } }, radial!],
    };
    const sources = [source, moved(0.5), softer, moved(-0.5)];
    const blocks = 4;
    const { totals } = await run(
      sources.map((one, p) => ({ label: `${p}`, source: one })),
      blocks,
      [39 * INCH],
      NO_CENTRES,
    );
    sources.forEach((one, p) => {
      const setup = caseSetup(one);
      const own = emptyRunTallies(setup);
      tallyRuns(setup, one.simulation.seed, blocks * BLOCK, 0, blocks, createBlockRoom(setup), own);
      const { tallies } = totals[p]!.plain;
      [...own.tyres, own.all].forEach((tally, row) => {
        const beside = [...tallies.tyres, tallies.all][row]!;
        const touches = ({ tubs: [tub] }: typeof tally): number[] =>
          [38.75, 39, 39.25, 39.5, 40].map((height) => {
            const { steps, lowest } = tub!;
            return touchesByHeight(steps)[stepAt(lowest, height * INCH)]!;
          });
        expect([p, row, touches(beside)]).toEqual([p, row, touches(tally)]);
        expect(beside.hardTouches).toEqual(tally.hardTouches);
      });
      expect(
        touchesByHeight(own.all.tubs[0]!.steps)[stepAt(own.all.tubs[0]!.lowest, 38.75 * INCH)],
      ).toBeGreaterThan(5);
    });
    const unlike = totals.map(({ plain }) => plain.tallies.tyres.map(({ tubs }) => String(tubs[0]!.steps)));
    expect(new Set(unlike.map(([slickSteps]) => slickSteps)).size).toBe(4);
  });

  it('differ from themselves by exactly nothing, interval and all', async () => {
    const { figures } = await run([setupAt(224, [1]), setupAt(224, [1])], 4, [39 * INCH]);
    const nothing = { estimate: 0, low: 0, high: 0 };
    for (const row of figures[1]!) {
      expect(row[0]!.heightDifference).toEqual(nothing);
      expect(row[0]!.compared[0]!.difference).toEqual(nothing);
    }
    expect(figures[1]!.map((row) => row[0]!.even)).toEqual(figures[0]!.map((row) => row[0]!.even));
  });

  it('touch as often, beside a base of another speed, as plain runs of their own with another seed do', async () => {
    const { figures, study } = await run([setupAt(216, [1]), setupAt(232, [1])], 12, [38.25 * INCH]);
    const { risk } = figures[1]![0]![0]!.compared[0]!;
    const alone = caseSetup(demo(232, [1]));
    const tallies = emptyRunTallies(alone);
    tallyRuns(alone, 2, 24 * BLOCK, 0, 24, createBlockRoom(alone), tallies);
    const tub = tallies.tyres[0]!.tubs[0]!;
    const counted = touchesByHeight(tub.steps)[stepAt(tub.lowest, 38.25 * INCH)]! / tallies.all.events;
    const error = Math.hypot(risk.estimate * risk.cov!, Math.sqrt((counted * (1 - counted)) / (24 * BLOCK)));
    expect(study.points[1]!.setup.lowestHeights[0]).not.toBe(tub.lowest);
    expect(counted).toBeGreaterThan(0.02);
    expect(Math.abs(risk.estimate - counted)).toBeLessThan(4 * error);
  });

  it('differ in risk by the same whether counted plainly or with weights', async () => {
    // At 38 in some 7 % of the demo's runs touch: plain draws tell the difference well there.
    const { totals } = await run([setupAt(216, [1]), setupAt(232, [1])], 24, [38 * INCH]);
    const figures = ({ tallies, paired }: PointTotals['plain'] | PointTotals['weighted']) => {
      const { seen, unseen } = paired[0]![0]!.compared[0]!;
      const { events } = tallies.all;
      const change = (seen.gained - seen.lost + unseen.gained - unseen.lost) / events;
      return { change, error: Math.sqrt(seen.square + unseen.square) / events };
    };
    const [counted, weighed] = [figures(totals[1]!.plain), figures(totals[1]!.weighted)];
    expect(counted.change).toBeGreaterThan(10 * counted.error);
    const error = Math.hypot(counted.error, weighed.error);
    expect(Math.abs(counted.change - weighed.change)).toBeLessThan(4 * error);
  });
});

describe('the interval of a difference', () => {
  it('of heights and of risks is as wide as the difference scatters from seed to seed, and far narrower than the heights do', async () => {
    const seeds = Array.from({ length: 12 }, (_, i) => 100 + i);
    const centres = centresOf(demo(224, [1]));
    const differences: number[] = [];
    const heights: number[] = [];
    const halves: number[] = [];
    const risks: number[] = [];
    const riskHalves: number[] = [];
    for (const seed of seeds) {
      const { figures } = await run(
        [setupAt(224, [1], seed), setupAt(228, [1], seed)],
        8,
        [39 * INCH],
        centres,
      );
      const { estimate, high } = figures[1]![0]![0]!.heightDifference!;
      differences.push(estimate);
      halves.push(high - estimate);
      const risk = figures[1]![0]![0]!.compared[0]!.difference!;
      risks.push(risk.estimate);
      riskHalves.push(risk.high - risk.estimate);
      heights.push(figures[0]![0]![0]!.even!.height);
    }
    const sd = (values: readonly number[]): number => {
      const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
      return Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (values.length - 1));
    };
    // With 8 parts the 99.5 % point of Student's t is 3.499 (tables); the sd of 12 values is itself good to a fifth.
    const told = halves.reduce((sum, half) => sum + half, 0) / halves.length / 3.499;
    expect(told / sd(differences)).toBeGreaterThan(0.5);
    expect(told / sd(differences)).toBeLessThan(2);
    expect(sd(differences)).toBeLessThan(0.5 * sd(heights));
    const riskTold = riskHalves.reduce((sum, half) => sum + half, 0) / riskHalves.length / 1.96;
    expect(riskTold / sd(risks)).toBeGreaterThan(0.5);
    // Beside that scatter stands what 8,192 plain runs leave open of causes that no centre leads to: one on either side.
    const open = Math.sqrt(2) / (8 * BLOCK + 2);
    expect(riskTold).toBeLessThan(Math.hypot(2 * sd(risks), open));
  });

  it('of counts is the adjusted Wald one, worked by hand', () => {
    // Derived by hand from its formula: 98 events, nothing gained or lost: up = down = 1/100, half = z sqrt(0.02/100).
    const none = pairedDifference({ gained: 0, lost: 0, square: 0 }, 98);
    expect(none).toEqual({ estimate: 0, low: -none.high, high: expect.closeTo(0.0277181, 7) });
    // 20 gained, 4 lost of 98: up = 0.21, down = 0.05, half = z sqrt((0.26 - 0.0256)/100) = 0.094891.
    const some = pairedDifference({ gained: 20, lost: 4, square: 24 }, 98);
    expect(some.estimate).toBeCloseTo(16 / 98, 12);
    expect(some.low).toBeCloseTo(0.16 - 0.094891, 6);
    expect(some.high).toBeCloseTo(0.16 + 0.094891, 6);
  });

  it('is left out where there are too few parts to tell it', () => {
    const even = (height: number, parts: number[]): HeightAtRisk => {
      const found = { height, leftOut: Float64Array.from(parts) };
      return { ...found, methods: ['counted'], weighted: found };
    };
    expect(heightDifference(even(1, [1]), even(0.9, [0.9]))).toBeUndefined();
    expect(heightDifference(even(1, [1, Number.NaN]), even(0.9, [0.9, 0.9]))).toBeUndefined();
    // Two parts that say 0.1 and 0.3: mean 0.2, jackknife variance 1/2 (0.01 + 0.01), t(0.995; 1) = 63.657 (tables).
    const wide = heightDifference(even(1.2, [1.1, 1.3]), even(1, [1, 1]))!;
    expect(wide.high - wide.estimate).toBeCloseTo(63.657 * 0.1, 4);
  });
});
