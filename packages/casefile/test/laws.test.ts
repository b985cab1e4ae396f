import { quantile, support } from '@tubgap/statistics';
import { expect, test } from 'vitest';
import { measuredLaw } from '../src/law.ts';
import { valuesApart } from '../src/parts/measured-apart.ts';
import { lines, smallCase, sound } from './small-case.ts';

// Two-sided 95 % interval of a mean and of the next value from n = 10 measurements, t(0.975, 9) = 2.262157162798
// (scipy 1.17; printed as 2.262 in tables of Student's t). Values 1 to 10: mean 5.5, s² = 55/6 (derived).
test('measured values give the textbook interval of their mean and of the next value', () => {
  const t = 2.262157162798;
  const values = Array.from({ length: 10 }, (_, index) => index + 1);
  const sd = Math.sqrt(55 / 6);
  const mean = measuredLaw(values, 'car');
  const next = measuredLaw(values, 'run');
  expect(quantile(mean, 0.975)).toBeCloseTo(5.5 + (t * sd) / Math.sqrt(10), 9);
  expect(quantile(next, 0.975)).toBeCloseTo(5.5 + t * sd * Math.sqrt(1.1), 9);
});

// NIST StRD data set NumAcc4, certified standard deviation 0.1; its values cannot be held better than 1e-8 in doubles.
test('the spread of measured values does not drown in their mean', () => {
  const values = [
    10_000_000.2,
    ...Array.from({ length: 1000 }, (_, index) => (index % 2 ? 10_000_000.3 : 10_000_000.1)),
  ];
  const law = measuredLaw(values, 'run');
  expect(law.kind === 'student-t' && Math.abs(law.scale / Math.sqrt(1 + 1 / 1001) / 0.1 - 1)).toBeLessThan(
    1e-7,
  );
});

const ofMass = (law: object) => sound({ ...smallCase(), car: { ...smallCase().car, mass: law } }).car.mass;

test('a measured list is read from the case', () => {
  const input = ofMass({
    law: 'measured',
    values: ['1100 kg', '1102 kg', '1101 kg', '1105 kg'],
    each: 'car',
  });
  expect(input.law).toMatchObject({ kind: 'student-t', mean: 1102, dof: 3 });
  expect(input.shown).toBe('measured, values 1100 kg, 1102 kg, 1101 kg, 1105 kg, one value per car');
});

test('four scattered values of a positive quantity give a law that stays within what the quantity can be', () => {
  const four = { law: 'measured', values: ['5 psi', '6.5 psi', '8 psi', '11 psi'], each: 'run' };
  const { tyres } = smallCase();
  const read = sound({ ...smallCase(), tyres: [{ ...tyres[0], coldPressure: four }] });
  const { law } = read.tyres[0]!.inputs.coldPressure;
  expect(law.kind).toBe('student-t');
  const PSI = 6894.757293168361;
  expect(support(law).low / PSI).toBeCloseTo(3, 9);
  expect(quantile(law, 1e-9)).toBeGreaterThan(0);
});

test('each law of the file becomes the law of that name in SI', () => {
  const kg = (value: number) => `${value} kg`;
  const rows = [
    [
      { law: 'constant', value: kg(900) },
      { kind: 'constant', value: 900 },
    ],
    [
      { law: 'normal', mean: kg(900), sd: kg(9) },
      { kind: 'normal', mean: 900, sd: 9 },
    ],
    [
      { law: 'truncated', mean: kg(900), sd: kg(9), low: kg(890) },
      { kind: 'truncated-normal', mean: 900, sd: 9, low: 890, high: Number.POSITIVE_INFINITY },
    ],
    [
      { law: 'log-normal', median: kg(900), cov: '5 %' },
      { kind: 'log-normal', median: 900, cov: 0.05 },
    ],
    [
      { law: 'triangular', low: kg(800), mode: kg(900), high: kg(950) },
      { kind: 'triangular', low: 800, mode: 900, high: 950 },
    ],
    [
      { law: 'uniform', low: kg(800), high: kg(900) },
      { kind: 'uniform', low: 800, high: 900 },
    ],
  ] as const;
  expect(rows).toHaveLength(6);
  for (const [written, law] of rows) expect(ofMass({ ...written, each: 'car' }).law).toEqual(law);
});

test('a law whose ends are the wrong way round is refused', () => {
  const mass = (law: object) =>
    lines({ ...smallCase(), car: { ...smallCase().car, mass: { ...law, each: 'car' } } });
  const end = (line: string | undefined) => line?.split('car.mass: ')[1];
  expect(end(mass({ law: 'uniform', low: '900 kg', high: '800 kg' })[0])).toBe('low must be less than high');
  expect(end(mass({ law: 'triangular', low: '800 kg', mode: '950 kg', high: '900 kg' })[0])).toBe(
    'low, mode and high must rise in this order',
  );
  expect(end(mass({ law: 'truncated', mean: '900 kg', sd: '1 kg', low: '1200 kg' })[0])).toBe(
    'low and high lie so far from the mean that nothing of the law is left',
  );
  const same = Array.from({ length: 4 }, () => '900 kg');
  expect(mass({ law: 'measured', values: same })[0]).toContain('all measured values are the same');
});

// A factor of 1.257 m² for 2,030 lbf at 250 mph in air of 1.15 kg/m³: derived by hand, 2 F/(ρ v²).
test('a downforce at a speed becomes an area', () => {
  const aero = { rearDownforce: { force: '2030 lbf', at: '250 mph', airDensity: '1.15 kg/m3' } };
  const { law } = sound({ ...smallCase(), aero }).car.downforceArea;
  expect(law.kind === 'constant' && law.value).toBeCloseTo(1.2573, 4);
});

// Derived from moments about the instant centre: h_I L/(d h) and (a₀ − h_I)/d, with L = 2.794 m, h = 0.508 m and
// a₀ = 0.42 m; six digits, so half a unit in the last of them.
test('an instant centre gives anti-squat and axle path', () => {
  const rows = [
    ['1.27 m', '0.25 m', 1.08268, 0.133858],
    ['0.80 m', '0.20 m', 1.375, 0.275],
  ] as const;
  for (const [ahead, height, antiSquat, slope] of rows) {
    const { car } = sound({
      ...smallCase(),
      car: { mass: '1202 kg', rearShare: 0.5, wheelbase: '2.794 m', cgHeight: '0.508 m' },
      suspension: { instantCentre: { ahead, height } },
      build: { tyre: 'slick', pressure: '7 psi', axleHeight: '0.42 m' },
      tyres: [{ tyre: 'slick', runsPerSeason: 30, referenceRadius: '0.44 m' }],
    });
    expect(Math.abs((car.antiSquat.law as { mean: number }).mean - antiSquat)).toBeLessThan(5e-6);
    expect(Math.abs((car.axlePathSlope.law as { mean: number }).mean - slope)).toBeLessThan(5e-7);
  }
});

const mph = [201.3, 203.8, 202.2, 205.1, 203, 204.4, 150.2, 202.9, 206, 203.5, 148.7, 204];
const passes = (law: string, values = mph, rest = {}) => ({
  ...smallCase(),
  run: {
    ...smallCase().run,
    trapSpeed: { law, values: values.map((value) => `${value} mph`), ...rest, each: 'run' },
  },
});

test('measured passes of which two were shut off are told, with what the law makes of them, and none is dropped', () => {
  const read = sound(passes('measured'));
  const { law } = read.car.trapSpeed;
  expect(law.kind === 'student-t' && law.dof).toBe(11);
  const told = read.warnings.filter(({ code }) => code === 'measured-apart');
  expect(told.map(({ path }) => path)).toEqual(['run.trapSpeed']);
  // scipy 1.17, t.cdf with 11 degrees of freedom of numpy's mean and scale: 0.30707 above 206 mph.
  expect(told[0]!.message).toContain(
    '150.2 mph, 148.7 mph stand apart from the other values; the law puts 31 % of the draws above the largest of the 12 ' +
      'values, 206 mph, where 1 in 13 is to be expected. All values were kept.',
  );
  const kept = mph.filter((value) => value > 200);
  expect(sound(passes('measured', kept)).warnings.map(({ code }) => code)).not.toContain('measured-apart');
});

// Derived by hand: median 203, median of the distances 1; 3.5 robust sds are 5.19.
test('a value stands apart past three and a half robust standard deviations', () => {
  expect(valuesApart([202, 203, 204, 201, 205, 208.1, 203])).toEqual([]);
  expect(valuesApart([202, 203, 204, 203, 202, 208.2, 203])).toEqual([5]);
});

test('an empirical law keeps the values and says how they were smoothed', () => {
  const { law, shown } = sound(passes('empirical')).car.trapSpeed;
  const MPH = 0.44704;
  expect(law.kind === 'empirical' && law.values.map((value) => value / MPH)[11]).toBeCloseTo(206, 10);
  // numpy 2.4: 0.9 min(std(ddof=1), IQR/1.34) n^-0.2.
  expect(law.kind === 'empirical' && law.bandwidth / MPH).toBeCloseTo(0.8682811969184747, 10);
  expect(shown).toMatch(
    /^empirical, smoothed, each with an sd of 0\.868 mph, values 201\.3 mph, .*, new every run$/,
  );
  expect(quantile(law, 0.99) / MPH).toBeLessThan(208);
  const still = sound(passes('empirical', mph, { smoothed: false })).car.trapSpeed;
  expect(support(still.law).high / MPH).toBeCloseTo(206, 10);
  expect(still.shown).toMatch(/^empirical, as they are, /);
});
