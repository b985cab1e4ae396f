import { type Case, withInputs } from '@tubgap/casefile';
import { BLOCK, centralValue } from '@tubgap/statistics';
import { describe, expect, it } from 'vitest';
import { caseRisks } from '../src/case-risks.ts';
import { pickHeights } from '../src/pick.ts';
import { createBlockRoom, drawBlock, evaluateBlock } from '../src/run-risk.ts';
import { emptyRunTallies, type RunTallies } from '../src/run-tallies.ts';
import { tallyRuns } from '../src/runner.ts';
import { tallySeasons } from '../src/season-risk.ts';
import { caseSetup } from '../src/setup.ts';
import { emptyTally, type Tally, touchesByHeight } from '../src/tally.ts';
import { demoCase } from './demo.ts';

const DRAWS = 8 * BLOCK;
const CARS = 384;

const SLICK =
  'rollout: { law: normal, mean: 105.9 in, sd: 0.1 in, each: car }, coldPressure: { law: normal, mean: 6 psi, sd: 0.3 psi, each: run }';
/** The same car down a shorter track. */
const SHORT = 'run: { distance: 1000 ft, gripLost: { chance: 30 % } }, build: { reserve: 1 in }';

/** The demo's car in its largest tub on the given entries of its list of tyres. */
function carOn(tyres: readonly string[], set: Record<string, string> = {}): Case {
  const settings = Object.entries({ tyres: `[${tyres.join(', ')}]`, ...set });
  const source = demoCase(
    DRAWS,
    CARS,
    settings.map(([path, value]) => ({ path, value })),
  );
  return { ...source, tubs: source.tubs.slice(-1), hardPoints: [] };
}

const slick = (runs: number, its = ''): string =>
  `{ tyre: tall-slick, runsPerSeason: ${runs}, ${SLICK}${its === '' ? '' : `, class: { ${its} }`} }`;
/** The same tyre once more, in a class of its own. */
const again = (name: string, runs: number, its = ''): string =>
  `{ tyre: tall-slick, runsPerSeason: ${runs}, class: { name: ${name}, ${its} } }`;

/** The case of cars that differ in nothing. */
const allAlike = (source: Case): Case =>
  withInputs(source, (input) =>
    input.each === 'run' ? input : { ...input, law: { kind: 'constant', value: centralValue(input.law) } },
  );

function runsOf(source: Case): RunTallies {
  const setup = caseSetup(source);
  const runs = emptyRunTallies(setup);
  tallyRuns(setup, 1, DRAWS, 0, DRAWS / BLOCK, createBlockRoom(setup), runs);
  return runs;
}

function seasonsOf(source: Case): Tally {
  const setup = caseSetup(source);
  const tally = emptyTally(setup.lowestHeights, 0);
  tallySeasons(setup, 1, 0, CARS, createBlockRoom(setup), tally);
  return tally;
}

/** Share of the seasons that touch, by height from one lowest height on. */
const shares = ({ tubs }: Tally): number[] =>
  [...touchesByHeight(tubs[0]!.steps)].map((touches) => touches / CARS);

/** Required heights of the first draws: [tyre][run]. */
function heightsOf(source: Case): Float64Array[] {
  const setup = caseSetup(source);
  const room = createBlockRoom(setup);
  drawBlock(setup, 1, 0, BLOCK, room);
  evaluateBlock(setup, room, BLOCK);
  return room.tables.map(({ requiredHeight }) => requiredHeight.slice(0, BLOCK));
}

function correlation(a: Float64Array, b: Float64Array): number {
  const mean = (x: Float64Array) => x.reduce((sum, v) => sum + v, 0) / x.length;
  const [ma, mb] = [mean(a), mean(b)];
  let [ab, aa, bb] = [0, 0, 0];
  for (let i = 0; i < a.length; i++) {
    ab += (a[i]! - ma) * (b[i]! - mb);
    aa += (a[i]! - ma) ** 2;
    bb += (b[i]! - mb) ** 2;
  }
  return ab / Math.sqrt(aa * bb);
}

describe('one tyre in two classes', () => {
  it('is one class where both run alike: the same runs to the last bit, and seasons of all their runs', () => {
    const parted = carOn([slick(20), again('second', 20)]);
    const whole = carOn([slick(40)]);
    expect(parted.tyres.map(({ name }) => name)).toEqual(['tall-slick', 'tall-slick (second)']);
    const [one, two] = heightsOf(parted);
    expect(one).toEqual(heightsOf(whole)[0]);
    expect(two).toEqual(one);
    const runs = runsOf(parted);
    expect(runs.tyres[1]).toEqual(runs.tyres[0]);
    expect(runs.all.tubs).toEqual(runsOf(whole).all.tubs);
    // Of cars that are all alike a season of 3 + 3 runs touches as one of 6 does, and not as one of 3.
    const both = shares(seasonsOf(allAlike(carOn([slick(3), again('second', 3)]))));
    const alone = shares(seasonsOf(allAlike(carOn([slick(6)]))));
    both.forEach((share, step) => {
      const error = Math.sqrt((share * (1 - share) + alone[step]! * (1 - alone[step]!) + 1 / CARS) / CARS);
      expect(Math.abs(share - alone[step]!), `step ${step}`).toBeLessThan(4 * error);
    });
  });

  it('has one growth in both: their heights go together, and a season touches less often than of two tyres', () => {
    const its = 'run: { trapSpeed: { law: normal, mean: 222 mph, sd: 3 mph, each: run } }';
    const same = carOn([slick(3), again('second', 3, its)]);
    const other: Case = {
      ...same,
      tyres: same.tyres.map((tyre, i) => (i === 1 ? { ...tyre, tyre: 'another of its kind' } : tyre)),
    };
    const [a, b] = heightsOf(same);
    const [c, d] = heightsOf(other);
    expect(correlation(a!, b!)).toBeGreaterThan(0.95);
    expect(correlation(c!, d!)).toBeLessThan(correlation(a!, b!) - 0.2);
    // Seasons of each class alone; were the classes of two cars, they would touch as often as the product says.
    const [first, second] = same.tyres.map((tyre) =>
      shares(seasonsOf({ ...same, tyres: [tyre], build: { ...same.build, tyre: tyre.name } })),
    );
    const together = shares(seasonsOf(same));
    const steps = together
      .map((_, step) => step)
      .filter((step) => first![step]! > 0.2 && first![step]! < 0.6);
    expect(steps.length).toBeGreaterThan(3);
    for (const step of steps) {
      const apart = 1 - (1 - first![step]!) * (1 - second![step]!);
      expect(together[step]!, `step ${step}`).toBeLessThan(apart - 0.05);
    }
  });
});

describe('a class', () => {
  it('with a track, a gap to be kept and lost grip of its own is the case written so', () => {
    const inClass = carOn([slick(20), again('short', 20, SHORT)]);
    const alone = carOn([slick(20)], {
      'run.distance': '1000 ft',
      'run.gripLost.chance': '30 %',
      'build.reserve': '1 in',
    });
    const [quarter, short] = heightsOf(inClass);
    expect(short).toEqual(heightsOf(alone)[0]);
    expect(quarter).toEqual(heightsOf(carOn([slick(20)]))[0]);
    expect(quarter).not.toEqual(short);
  });

  it('is served at its own accepted risk, and the one that asks for most is named', () => {
    const heightsIn = (tyres: readonly string[], set: Record<string, string> = {}) => {
      const source = carOn(tyres, { 'accept.runRisk': '1 in 20', 'accept.seasonRisk': '90 %', ...set });
      const setup = caseSetup(source);
      const runs = runsOf(source);
      const seasons = emptyTally(setup.lowestHeights, 0);
      seasons.events = CARS;
      seasons.tubs[0]!.steps[0] = CARS;
      const [pick] = pickHeights(source, setup, caseRisks(runs, undefined, seasons, undefined), runs);
      return { alone: pick!.alone, top: pick!.height!.topHeight, by: pick!.height!.limitingTyre };
    };
    const often = heightsIn([slick(20)]);
    const seldom = heightsIn([slick(20)], { 'accept.runRisk': '1 in 500' });
    const both = heightsIn([slick(20), again('guests', 20, 'accept: { runRisk: 1 in 500 }')]);
    expect(seldom.top).toBeGreaterThan(often.top);
    expect(both).toEqual({ alone: [often.top, seldom.top], top: seldom.top, by: 'tall-slick (guests)' });
  });
});
