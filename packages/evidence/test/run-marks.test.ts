import { caseSetup } from '@tubgap/simulation';
import { numberSource } from '@tubgap/statistics';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  evidenceParts,
  noReadings,
  type Part,
  priorPoints,
  type RunsReading,
  readHandTables,
  spaceOf,
} from '../src/index.ts';
import { spreadOver } from '../src/parts/spread-speeds.ts';
import { demoCase } from './demo.ts';

const INCH = 0.0254;
const MPH = 0.44704;
const source = demoCase();
const setup = caseSetup(source);

const reading = (own: Partial<RunsReading> = {}): RunsReading => ({
  file: 'runs.csv',
  line: 2,
  date: '',
  tyre: 'tall-slick',
  runs: 1,
  speeds: undefined,
  marked: false,
  built: { tub: 'street-42', topHeight: 37.5 * INCH, centreForward: undefined },
  ...own,
});
const partOf = (...readings: RunsReading[]): Part =>
  evidenceParts(source, setup, { ...noReadings(), runs: readings })[0]!;

const space = spaceOf(setup, [partOf(reading())], 1);
/** Some cars of the priors, each with three chances that a touch is found. */
const CARS = priorPoints(space, 7, 12).flatMap((point) =>
  [-1, 0, 1].map((found) => {
    const car = point.slice();
    car[space.dimension - 1] = found;
    return car;
  }),
);
const likelihoods = (own: RunsReading): number[] => {
  const part = partOf(own);
  return CARS.map((car) => Math.exp(part.logLikelihood(space.at(car))));
};
/** Chance that a run touches, a car, whoever looks. */
const TOUCHES = (() => {
  const part = partOf(reading({ marked: true }));
  return CARS.map((car) => {
    const sure = car.slice();
    sure[space.dimension - 1] = 40;
    return Math.exp(part.logLikelihood(space.at(sure))) / 0.97;
  });
})();
const riskBy = (weights: readonly number[]): number =>
  weights.reduce((sum, weight, i) => sum + weight * TOUCHES[i]!, 0) / weights.reduce((a, b) => a + b, 0);

describe('runs after which the whole tub was looked at', () => {
  const unmarked = [1, 2, 5, 20, 60, 200].map((runs) => likelihoods(reading({ runs })));
  const marked = [1, 5, 60].map((runs) => likelihoods(reading({ runs, marked: true })));

  it('more of them without a mark never raise the risk, a mark never lowers it, whatever was believed before', () => {
    // The cars must differ, or the laws say nothing.
    expect(Math.max(...TOUCHES) - Math.min(...TOUCHES)).toBeGreaterThan(0.3);
    const beliefs = fc.array(fc.double({ min: 0.001, max: 1, noNaN: true }), {
      minLength: CARS.length / 3,
      maxLength: CARS.length / 3,
    });
    fc.assert(
      fc.property(beliefs, (perCar) => {
        const before = CARS.map((_, i) => perCar[Math.floor(i / 3)]!);
        const after = (chances: readonly number[]): number => riskBy(before.map((w, i) => w * chances[i]!));
        const risks = [riskBy(before), ...unmarked.map(after)];
        risks.slice(1).forEach((risk, k) => {
          expect(risk).toBeLessThanOrEqual(risks[k]! + 1e-12);
        });
        for (const chances of marked) expect(after(chances)).toBeGreaterThanOrEqual(risks[0]! - 1e-12);
      }),
    );
  });

  it('have the chance of so many runs, each found with the chance that is believed', () => {
    const [one] = unmarked;
    const sixty = likelihoods(reading({ runs: 60 }));
    const sixtyMarked = likelihoods(reading({ runs: 60, marked: true }));
    one!.forEach((chance, i) => {
      expect(sixty[i]!).toBeCloseTo(Math.max(1e-12, chance ** 60), 9);
      expect(sixtyMarked[i]!).toBeCloseTo(1 - chance ** 60, 9);
      // z = 0 is the middle of 0.6 to 0.97.
      if (i % 3 === 1) expect(chance).toBeCloseTo(1 - 0.785 * TOUCHES[i]!, 9);
    });
  });

  it('touch more the faster they were, and the lower the tub stood', () => {
    const mean = (own: Partial<RunsReading>): number => {
      const chances = likelihoods(reading({ marked: true, ...own }));
      return chances.reduce((sum, chance) => sum + chance, 0) / chances.length;
    };
    const at = (low: number, high: number) => mean({ speeds: { low: low * MPH, high: high * MPH } });
    expect(at(180, 180)).toBeLessThan(at(180, 240));
    expect(at(180, 240)).toBeLessThan(at(240, 240));
    const higher = { tub: 'street-42', topHeight: 38.5 * INCH, centreForward: undefined };
    expect(mean({ built: higher })).toBeLessThan(mean({}));
  });

  it('come out of a car as often as they are likely for it', () => {
    const own = [reading({ runs: 3 }), reading({ runs: 2, speeds: { low: 200 * MPH, high: 220 * MPH } })];
    const part = partOf(...own);
    const numbers = numberSource(5, 'runs');
    const TIMES = 300;
    for (const car of CARS.slice(0, 9).filter((_, i) => i % 3 === 1)) {
      const expected = own.map((one) =>
        Math.exp(partOf({ ...one, marked: true }).logLikelihood(space.at(car))),
      );
      const marks = own.map(() => 0);
      for (let n = 0; n < TIMES; n++) {
        part.simulated!(space.at(car), numbers).names.forEach((name, k) => {
          if (!name.includes('no mark')) marks[k]!++;
        });
      }
      expected.forEach((chance, k) => {
        const sd = Math.sqrt((chance * (1 - chance)) / TIMES);
        expect(Math.abs(marks[k]! / TIMES - chance)).toBeLessThan(4 * sd + 1e-3);
      });
    }
  });
});

describe('several ranges of speeds at once', () => {
  const RANGES = [
    { low: 80, high: 95 },
    { low: 90, high: 92 },
    { low: 100, high: 104 },
    { low: 97, high: 97 },
  ];
  const spread = spreadOver(RANGES)(512);

  it('each have numbers that lie in it and count as much as it is wide there', () => {
    RANGES.forEach(({ low, high }, k) => {
      const shares = spread.shares[k]!;
      const sum = (of: (value: number) => number): number =>
        shares.reduce((total, share, n) => total + share * of(spread.values[n]!), 0);
      expect(sum(() => 1)).toBeCloseTo(1, 6);
      expect(sum((v) => v)).toBeCloseTo((low + high) / 2, 1);
      expect(Math.sqrt(sum((v) => (v - (low + high) / 2) ** 2))).toBeCloseTo((high - low) / Math.sqrt(12), 1);
      // At a gap between ranges one number may lie on its other side.
      for (const share of [0.05, 0.3, 0.9]) {
        const value = spread.values[spread.runAt(k, share)]!;
        expect(Math.abs(value - (low + (high - low) * share))).toBeLessThan(0.2);
      }
    });
    const alone = spreadOver([{ low: 80, high: 95 }])(64);
    for (const share of alone.shares[0]!) expect(share).toBeCloseTo(1 / 64, 12);
  });

  it('touch as each of them does alone', () => {
    const many = spaceOf(setup, [partOf(reading())], 1, 1024);
    const readings = [
      { low: 200, high: 215 },
      { low: 210, high: 230 },
    ].map(({ low, high }) => reading({ speeds: { low: low * MPH, high: high * MPH } }));
    const together = partOf(...readings);
    const apart = readings.map((one) => partOf(one));
    for (const car of CARS) {
      const state = many.at(car);
      const chances = together.events!.chances(state);
      apart.forEach((part, k) => {
        expect(Math.abs(part.events!.chances(state)[0]! - chances[k]!)).toBeLessThan(0.02);
      });
    }
  });
});

describe('runs.csv', () => {
  const read = (text: string, built?: string) => {
    const readings = noReadings();
    const files: Record<string, string | undefined> = { 'runs.csv': text, 'as-built.csv': built };
    return { rejected: readHandTables((file) => files[file], source, setup, readings), readings };
  };

  it('takes the place of the tub from the row, or else from the tub as built', () => {
    const { rejected, readings } = read(
      'date,tyre,runs,speed_low_mph,speed_high_mph,mark,tub,top_height_in\n2025-05-01,tall-slick,48,220,226,none,,\n,tall-slick,4,,,mark,short-39,41\n',
      'tub,top_height_in,centre_forward_in\nstreet-42,39.5,0.25\n',
    );
    expect(rejected).toEqual([]);
    const [first, second] = readings.runs;
    expect(first).toMatchObject({ runs: 48, marked: false, date: '2025-05-01', built: { tub: 'street-42' } });
    expect(first!.speeds!.low).toBeCloseTo(220 * MPH, 9);
    expect(first!.built.centreForward).toBeCloseTo(0.25 * INCH, 9);
    expect(second).toMatchObject({ marked: true, speeds: undefined, built: { tub: 'short-39' } });
    expect(second!.built.centreForward).toBeUndefined();
  });

  it('says what it cannot use', () => {
    const { rejected, readings } = read(
      'tyre,runs,mark,speed_low_mph,speed_high_mph,tub,top_height_in\ntall-slick,4,perhaps,,,street-42,39\ntall-slick,4,none,230,220,street-42,39\ntall-slick,4,none,,,attic,39\ntall-slick,4,none,,,,\n',
    );
    expect(readings.runs).toEqual([]);
    expect(rejected.map(({ line, reason }) => `${line} ${reason}`)).toEqual([
      expect.stringContaining('2 mark "perhaps" is not known'),
      expect.stringContaining('3 the slower speed (speed_low) is above the faster one (speed_high)'),
      expect.stringContaining('4 the case has no tub "attic"'),
      expect.stringContaining('5 as-built.csv is missing'),
    ]);
  });
});
