import { parseCase } from '@tubgap/casefile';
import { quantile } from '@tubgap/statistics';
import { FOOT, INCH, MPH, POUND, POUND_FORCE } from '@tubgap/units';
import { expect, test } from 'vitest';
import { stringify } from 'yaml';
import {
  coldPressure,
  KINDS_OF_CAR,
  type KindOfCar,
  launchOf,
  likelyKind,
  RANGES,
  readAnswers,
  toCase,
  usualParachutes,
} from '../src/index.ts';

const TUBS = `tub,inside_diameter_in,liner_in,arc_extent_deg,leg_length_in,inside_width_in,skin_thickness_in,areal_density_lb_ft2
large,52,0.06,180,7,24,0.04,0.56
`;

/** The case of a car of which nothing more is known. */
function unknownCar(kind: KindOfCar) {
  const read = readAnswers({ tyres: [{ size: '33x16.5-15', build: 'bias slick' }], kind, speed: '190 mph' });
  if (!read.ok) throw new Error('the answers are at fault');
  const { document, tyres } = toCase(read.value);
  const load = (path: string) => (path === 'tubs.csv' ? TUBS : tyres);
  const result = parseCase({ file: 'case.yaml', text: stringify(document), load });
  if (!result.ok) throw new Error(result.issues.map(({ message }) => message).join('\n'));
  return result.value.car;
}

const INPUTS = [
  ['mass', POUND],
  ['wheelbase', INCH],
  ['rearShare', 1],
  ['cgHeight', INCH],
  ['dragArea', 1],
  ['wheelRate', POUND_FORCE / INCH],
  ['bumpTravel', INCH],
] as const;

test.each(KINDS_OF_CAR)(
  'nine in ten cars of the kind %s lie in its ranges, by the law that the case reads',
  (kind) => {
    const car = unknownCar(kind);
    for (const [name, unit] of INPUTS) {
      const { low, high } = RANGES[kind][name];
      const ends = [0.05, 0.95].map((chance) => quantile(car[name].law, chance) / unit);
      // Four figures in the file; a law cut at nought hardly moves.
      expect(Math.abs(ends[0]! - low), name).toBeLessThanOrEqual(0.01 * high);
      expect(Math.abs(ends[1]! - high), name).toBeLessThanOrEqual(0.01 * high);
    }
  },
);

// 60-foot times of the kinds, s, judgement; the launches from them by hand, √ and squares of the formula with 1 ft of
// roll-out, two decimals.
const LAUNCHES = [
  ['street', 2.3, 1.6, 0.54, 1.13],
  ['small-tyre', 1.25, 1.05, 1.85, 2.61],
  ['winged-door', 1.06, 0.92, 2.57, 3.41],
  ['open', 1.1, 0.82, 2.38, 4.29],
] as const;

test('the launch of a kind is that of its 60-foot times', () => {
  for (const [kind, slow, quick, low, high] of LAUNCHES) {
    expect([RANGES[kind].launch.low, RANGES[kind].launch.high], kind).toEqual([low, high]);
    expect(Math.abs(launchOf(slow).acceleration.value / 9.80665 - low), kind).toBeLessThan(0.0101);
    expect(Math.abs(launchOf(quick).acceleration.value / 9.80665 - high), kind).toBeLessThan(0.0101);
  }
});

test('a car that runs both is either of the two', () => {
  for (const [name, both] of Object.entries(RANGES['runs-both'])) {
    const [one, other] = [RANGES['small-tyre'], RANGES['winged-door']].map((its) => its[name as 'mass']);
    expect(both.low, name).toBe(Math.min(one!.low, other!.low));
    expect(both.high, name).toBe(Math.max(one!.high, other!.high));
  }
});

test('tyres and speed point to a kind, the same car at an eighth and at a quarter to the same', () => {
  const rows = [
    [['treaded radial'], 128, 1320, 'street'],
    [['treaded radial'], 100, 660, 'street'],
    [['treaded radial'], 172, 660, 'small-tyre'],
    [['radial slick'], 140, 1320, 'small-tyre'],
    [['bias slick'], 224, 1320, 'winged-door'],
    [['bias slick'], 178, 660, 'winged-door'],
    [['bias slick'], 300, 1000, 'open'],
    [['bias slick', 'treaded radial'], 200, 1320, 'runs-both'],
  ] as const;
  for (const [builds, speed, distance, kind] of rows) {
    expect(likelyKind(builds, speed * MPH, distance * FOOT), `${builds} ${speed} mph`).toBe(kind);
  }
});

// A sanctioning body's bulletin of 2023: one above 150 mph, two above 200 mph.
test('parachutes go by the speed', () => {
  expect([149, 151, 199, 201].map((speed) => usualParachutes(speed * MPH))).toEqual([
    'none',
    'one',
    'one',
    'two',
  ]);
});

test('no pressure of a kind lies outside of what the reader of the case takes', () => {
  for (const kind of KINDS_OF_CAR) {
    for (const build of ['bias slick', 'radial slick', 'treaded radial'] as const) {
      const { low, high } = coldPressure(build, kind);
      expect(low).toBeLessThan(high);
      expect(low).toBeGreaterThanOrEqual(build === 'bias slick' ? 3 : 8);
      expect(high).toBeLessThanOrEqual(build === 'bias slick' ? 15 : 45);
    }
  }
});
