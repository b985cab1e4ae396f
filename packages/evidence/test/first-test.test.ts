import type { Case } from '@tubgap/casefile';
import { type JudgedTub, judgeTub } from '@tubgap/simulation';
import { beforeAll, describe, expect, it } from 'vitest';
import { type FirstTest, planFirstTest } from '../src/index.ts';
import { demoCase } from './demo.ts';

const INCH = 0.0254;
const DEGREE = Math.PI / 180;

/** The demo's car with its own slick and tub alone, few runs. */
function slickCase(centreForward = 0.25 * INCH): Case {
  const demo = demoCase();
  return {
    ...demo,
    tubs: demo.tubs.filter(({ name }) => name === 'street-42').map((tub) => ({ ...tub, centreForward })),
    simulation: { draws: 16_384, cars: 128, seed: 1 },
  };
}

interface Planned {
  judged: JudgedTub;
  plan: FirstTest;
}

async function planned(source: Case, topHeight?: number): Promise<Planned> {
  const judged = (await judgeTub(source, { tub: 0, topHeight }))!;
  return { judged, plan: planFirstTest(source, 0, judged) };
}

/** Laws of every plan. */
function expectLawful({ steps, limit, comesThrough, isWhole }: FirstTest): void {
  const stopped = steps.reduce((sum, step) => sum + step.stops, 0);
  if (steps.length > 0) expect(stopped + comesThrough).toBeCloseTo(1, 12);
  steps.forEach((step, k) => {
    expect(step.passed.underReserve.high).toBeLessThanOrEqual(limit);
    // What is told of all cars does not depend on what the steps before have sorted out: it has their tightest run too.
    expect(step.overall.gapLeast).toBeLessThanOrEqual(step.passed.gapLeast);
    if (step.comes === 1) expect(step.overall.gapMiddle).toBe(step.passed.gapMiddle);
    const before = steps.slice(0, k).reduce((sum, one) => sum + one.stops, 0);
    expect(step.comes).toBeCloseTo(1 - before, 12);
    // Nothing follows a stop.
    expect(step.witness === undefined).toBe(!isWhole && k === steps.length - 1);
  });
}

describe('a first test', () => {
  const source = slickCase();
  let pick: Planned;
  beforeAll(async () => {
    pick = await planned(source);
  });

  /** The plan for a tub that stands lower than the pick, by so many inches. */
  const lower = (inches: number, of: Case = source): FirstTest => {
    const { judged } = pick;
    const topHeight = judged.verdict.topHeight - inches * INCH;
    return planFirstTest(of, 0, { ...judged, verdict: { ...judged.verdict, topHeight, belowRest: true } });
  };

  it('at the pick’s height comes to the whole track, its risk there the verdict’s, earlier ones smaller', () => {
    const { plan, judged } = pick;
    expectLawful(plan);
    expect(plan.isWhole).toBe(true);
    expect(plan.steps.at(-1)!.overall).toMatchObject({
      underReserve: judged.verdict.runRisk,
      contact: judged.verdict.contactRisk,
    });
    const overall = plan.steps.map((step) => step.overall.underReserve.estimate);
    // The first ones are too rare for these few runs.
    const told = overall.filter((risk) => risk > 0);
    expect(told.length).toBeGreaterThanOrEqual(2);
    for (let k = 1; k < told.length; k++) expect(told[k]).toBeGreaterThan(told[k - 1]! * 2);
    expect(overall.toSorted((a, b) => a - b)).toEqual(overall);
    // All steps are simulated as often: the least gap tells them apart where no run comes too close.
    expect(new Set(plan.steps.map(({ overall }) => overall.gapLeast)).size).toBe(plan.steps.length);
  });

  it('tells the risk of all cars beside that of those left: half an inch lower some are stopped, the rest pass', () => {
    const low = lower(0.5);
    expectLawful(low);
    const last = low.steps.at(-1)!;
    const { overall, passed } = last;
    expect(overall.underReserve.low).toBeGreaterThan(low.limit);
    expect(overall.underReserve.low).toBeGreaterThan(passed.underReserve.high);
    expect(overall.underReserveHarder.estimate).toBeGreaterThan(passed.underReserveHarder.estimate);
    expect(overall.contact.estimate).toBeGreaterThanOrEqual(passed.contact.estimate);
    expect(low.comesThrough).toBeGreaterThan(0.9);
    expect(low.comesThrough).toBeLessThan(1);
  });

  it('ends where no witness brings the next step within what is accepted, and does not begin where the first is not', () => {
    const strict = { ...source, accept: { ...source.accept, runRisk: 4e-4 } };
    const short = lower(1.75, strict);
    expect(short.limit).toBe(4e-4);
    expectLawful(short);
    expect(short.isWhole).toBe(false);
    expect(short.steps.length).toBeLessThan(pick.plan.steps.length);
    expect(short.comesThrough).toBe(0);
    const none = lower(3.25);
    expect(none).toMatchObject({ steps: [], comesThrough: 0 });
    expect(none.refused!.risk.high).toBeGreaterThan(none.limit);
  });

  it('puts witnesses where the car is tight: behind the top where the tub stands far ahead', async () => {
    const span = ({ plan: { witnessAngles: angles } }: Planned): [number, number] => [
      angles[0]! / DEGREE,
      angles.at(-1)! / DEGREE,
    ];
    const [from, to] = span(pick);
    const tight = pick.judged.tight.tightestAngle / DEGREE;
    expect(from).toBeLessThan(tight);
    expect(to).toBeGreaterThan(tight);
    const behind = await planned(slickCase(3 * INCH), 40 * INCH);
    expect(behind.judged.tight.tightestAngle).toBeLessThan(0);
    const [rear, front] = span(behind);
    expect(rear).toBeLessThan(behind.judged.tight.tightestAngle / DEGREE);
    expect(front).toBeLessThan(from);
  });
});
