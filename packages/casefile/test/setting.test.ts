import { centralValue, type Law, quantile } from '@tubgap/statistics';
import { expect, test } from 'vitest';
import type { Case, UncertainInput } from '../src/case.ts';
import { lines, smallCase, sound } from './small-case.ts';

const SPEED = '{ law: uniform, low: 190 mph, high: 200 mph, each: run }';

/** A case with a second tyre and a class. */
function twoTyres() {
  const its = { run: { trapSpeed: { law: 'normal', mean: '180 mph', sd: '2 mph', each: 'run' } } };
  const tyres = [...smallCase().tyres, { tyre: 'radial', runsPerSeason: 12, class: its }];
  return { ...smallCase(), tyres };
}

const set = (values: Record<string, string>, written: object = twoTyres()) => sound(written, {}, values);
const faults = (values: Record<string, string>, written: object = twoTyres()) => lines(written, {}, values);

const inputsOf = (the: Case) => [
  ...Object.values(the.car),
  ...the.tyres.flatMap(({ inputs, car }) => [...Object.values(inputs), ...Object.values(car ?? {})]),
];
const inputAt = (the: Case, path: string): UncertainInput =>
  inputsOf(the).find((input) => input.path === path)!;

test('a value on the command line means what it would mean in the file, and says that it comes from there', () => {
  const the = set({ 'run.trapSpeed': SPEED, 'weather.humidity': '40 %', 'build.reserve': '3/4 in' });
  const inFile = sound({
    ...twoTyres(),
    run: { distance: '1320 ft', trapSpeed: { law: 'uniform', low: '190 mph', high: '200 mph', each: 'run' } },
    weather: { humidity: '40 %' },
    build: { ...smallCase().build, reserve: '3/4 in' },
  });
  for (const input of inputsOf(inFile)) {
    expect(inputAt(the, input.path), input.path).toMatchObject({ law: input.law, shown: input.shown });
  }
  expect(the.build).toEqual(inFile.build);
  expect(the.assumed).toEqual(inFile.assumed);
  expect(the.car.trapSpeed.basis).toBe('--set run.trapSpeed');
  expect(the.car.humidity.basis).toBe('--set weather.humidity');
  expect(the.car.mass.basis).toMatch(/^case\.yaml:\d+$/);
});

test('an entry of a list goes by its position or its name, and a part of a law by its field', () => {
  const the = set({
    'tyres[radial].coldPressure': '{ law: uniform, low: 17 psi, high: 19 psi, each: run }',
    'tyres[0].runsPerSeason': '44',
    'run.trapSpeed.sd': '5 mph',
    'tyres[1].class.run.trapSpeed.mean': '170 mph',
  });
  expect(the.tyres[1]!.inputs.coldPressure).toMatchObject({
    path: 'tyres[1].coldPressure',
    basis: '--set tyres[radial].coldPressure',
    law: { kind: 'uniform' },
  });
  expect(the.tyres[0]!.runsPerSeason).toBe(44);
  expect(the.car.trapSpeed.shown).toBe('normal, mean 205 mph, sd 5 mph, new every run');
  expect(the.tyres[1]!.car!.trapSpeed!.shown).toBe('normal, mean 170 mph, sd 2 mph, new every run');
});

test('a value that the file shares by an alias changes in its own place only', () => {
  const text = `name: shared
catalogues: { tubs: tubs.csv, tyres: tyres.csv }
car: { mass: 2500 lb, rearShare: 0.5, wheelbase: 105 in }
aero: { downforceArea: 1 m2 }
build: { tyre: slick, pressure: 7 psi }
run: { distance: 1320 ft, trapSpeed: ${SPEED} }
tyres:
  - { tyre: slick, runsPerSeason: 9, airHeating: &air { law: normal, mean: 20 K, sd: 2 K, each: run } }
  - { tyre: radial, runsPerSeason: 9, airHeating: *air }
tubs: [wide]
accept: { runRisk: 1 in 1000, seasonRisk: 1 in 20 }
`;
  const { tyres } = sound(text, {}, { 'tyres[0].airHeating.mean': '30 K' });
  expect(tyres.map(({ inputs }) => inputs.airHeating.law)).toEqual([
    { kind: 'normal', mean: 30, sd: 2 },
    { kind: 'normal', mean: 20, sd: 2 },
  ]);
});

// Derived from the rule itself: the median is what was asked for, and every other quantile keeps its difference from
// it, or its ratio to it.
const laws: [law: object | string, keeps: 'difference' | 'ratio'][] = [
  [{ law: 'normal', mean: '110 in', sd: '1 in', each: 'car' }, 'difference'],
  [{ law: 'truncated', mean: '110 in', sd: '1 in', low: '109.5 in', each: 'car' }, 'difference'],
  [{ law: 'log-normal', median: '110 in', cov: 0.02, each: 'car' }, 'ratio'],
  [{ law: 'triangular', low: '105 in', mode: '112 in', high: '113 in', each: 'car' }, 'difference'],
  [{ law: 'uniform', low: '105 in', high: '112 in', each: 'car' }, 'difference'],
  [{ law: 'measured', values: ['110 in', '111 in', '109 in', '112 in'], each: 'car' }, 'difference'],
  ['110 in', 'difference'],
];

test('a middle with ~ moves the law of the file and keeps its form', () => {
  expect(laws).toHaveLength(7);
  for (const [wheelbase, keeps] of laws) {
    const written = { ...smallCase(), car: { ...smallCase().car, wheelbase } };
    const before = sound(written).car.wheelbase.law;
    const after = set({ 'car.wheelbase': '~117 in' }, written).car.wheelbase.law;
    const about = (law: Law, u: number) =>
      keeps === 'ratio' ? quantile(law, u) / centralValue(law) : quantile(law, u) - centralValue(law);
    expect(after.kind).toBe(before.kind);
    expect(centralValue(after), before.kind).toBeCloseTo(117 * 0.0254, 12);
    for (const u of [0.01, 0.2, 0.7, 0.99]) {
      expect(about(after, u), before.kind).toBeCloseTo(about(before, u), 12);
    }
  }
});

test('a middle with ~ moves what is assumed, derived or from a catalogue as well', () => {
  const written = {
    ...twoTyres(),
    aero: { rearDownforce: { force: '900 lbf', at: '200 mph', airDensity: '1.2 kg/m3' } },
    suspension: { instantCentre: { ahead: '1.27 m', height: '0.25 m' } },
    build: { ...smallCase().build, axleHeight: '0.4 m' },
  };
  const before = sound(written);
  const the = set(
    {
      'suspension.wheelRate': '~ 230 lbf/in',
      'aero.rearDownforce.force': '~1800 lbf',
      'tyres[radial].sectionWidth': '~12.5 in',
      'tyres[1].class.run.trapSpeed': '~170 mph',
      'car.cgHeight': '~22 in',
    },
    written,
  );
  expect(the.car.wheelRate).toMatchObject({
    source: 'case',
    basis: '--set suspension.wheelRate; law: engineering judgement',
    shown: 'log-normal, median 190 lbf/in, cov 0.08, one value per car, moved to a middle of 230 lbf/in',
  });
  expect(the.tyres[1]!.inputs.sectionWidth).toMatchObject({
    source: 'case',
    basis: '--set tyres[radial].sectionWidth; law: tyres.csv:3; spread: engineering judgement',
  });
  const middle = (from: Case, name: 'downforceArea' | 'antiSquat' | 'cgHeight') =>
    centralValue(from.car[name].law);
  expect(middle(the, 'downforceArea')).toBeCloseTo(2 * middle(before, 'downforceArea'), 12);
  expect(centralValue(the.tyres[1]!.car!.trapSpeed!.law)).toBeCloseTo(170 * 0.44704, 12);
  // Anti-squat from an instant centre goes with one over the height of the centre of gravity: derived.
  expect(middle(the, 'antiSquat') * middle(the, 'cgHeight')).toBeCloseTo(
    middle(before, 'antiSquat') * middle(before, 'cgHeight'),
    12,
  );
  expect(the.tyres[0]).toEqual(before.tyres[0]);
});

test('a rollout that is moved moves the free radius by 2π', () => {
  const rollout = { law: 'normal', mean: '101 in', sd: '0.1 in', each: 'car' };
  const tyres = [{ tyre: 'slick', runsPerSeason: 9, rollout }];
  const { referenceRadius } = set({ 'tyres[0].rollout': '~102 in' }, { ...smallCase(), tyres }).tyres[0]!
    .inputs;
  expect(2 * Math.PI * centralValue(referenceRadius.law)).toBeCloseTo(102 * 0.0254, 12);
});

// One setting of the command line, one line of text.
const golden: [path: string, value: string, message: string][] = [
  [
    'run.trapSpeed',
    '240',
    '--set run.trapSpeed  read "240"; the unit is missing: write 240 mph, 240 km/h or 240 m/s',
  ],
  [
    'run.trapSpeed',
    '{ law: normal, mean: 240 mph, sd: 3, each: run }',
    '--set run.trapSpeed.sd  read "3"; the unit is missing: write 3 mph, 3 km/h or 3 m/s',
  ],
  [
    'run.trapSpeed',
    '240 mph',
    '--set run.trapSpeed  warning: read "240 mph"; it is taken as exactly this in every run. Give a law with each: run, or { law: constant, value: …, each: run } if that is meant',
  ],
  [
    'run.trapSpeed',
    '~900 mph',
    '--set run.trapSpeed  read "~900 mph"; speed at the finish must be 30 mph to 350 mph. Did you mean 90 mph?',
  ],
  [
    'tyres[slick].coldPressure',
    '~20 psi',
    '--set tyres[slick].coldPressure  read "~20 psi"; cold pressure must be 3 psi to 15 psi',
  ],
  [
    'tyres[slick].coldPressure',
    '20 psi',
    '--set tyres[slick].coldPressure  read "20 psi"; cold pressure of a bias tyre must be 3 psi to 15 psi',
  ],
  [
    'run.trapspeed',
    '240 mph',
    '--set run.trapspeed  read "trapspeed"; there is no field of this name here. Did you mean trapSpeed?',
  ],
  [
    'weathr.humidity',
    '40 %',
    '--set weathr.humidity  read "weathr"; there is no field of this name here. Did you mean weather?',
  ],
  [
    'run.trapspeed',
    '~240 mph',
    '--set run.trapspeed  read "~240 mph"; no law stands or is assumed here that ~ could move. Did you mean run.trapSpeed?',
  ],
  [
    'build.reserve',
    '~1 in',
    '--set build.reserve  read "~1 in"; no law stands or is assumed here that ~ could move. Leave out the ~ to set the value itself',
  ],
  [
    'tyres[slik].mass',
    '40 lb',
    '--set tyres[slik].mass  the list has no entry slik; it has slick or radial. Did you mean slick?',
  ],
  ['tyres[2].mass', '40 lb', '--set tyres[2].mass  the list has no entry 2; it has slick or radial'],
  ['car[0].mass', '40 lb', '--set car[0].mass  car is no list in this file'],
  ['name.short', 'x', '--set name.short  read "x"; name holds a single value, no fields'],
  [
    'run..bump',
    '1 in',
    '--set run..bump  this is no place of a case. Write it as messages do: run.trapSpeed or tyres[0].coldPressure',
  ],
  [
    'build.reserve',
    '[1',
    '--set build.reserve  read "[1"; the bracket [ that opens here is never closed. Write ] behind the last thing that belongs in it',
  ],
  [
    'build.reserve',
    '*x',
    '--set build.reserve  read "*x"; its aliases (*name) cannot be followed. Write the values out',
  ],
  [
    '__proto__.polluted',
    'yes',
    '--set __proto__.polluted  read "__proto__"; there is no field of this name here',
  ],
];

test('a fault on the command line gives one line that says which setting, what and what to do', () => {
  expect(golden).toHaveLength(18);
  for (const [path, value, message] of golden) expect(faults({ [path]: value })).toEqual([message]);
  expect(({} as Record<string, unknown>).polluted).toBeUndefined();
});

test('the same place twice is refused, by whatever name', () => {
  const twice = { 'tyres[0].mass': '40 lb', 'tyres[slick].mass': '41 lb' };
  expect(faults(twice)).toEqual(['--set tyres[slick].mass  this is set twice']);
});

test('faults of the command line come first, and a fault of a law that is to be moved stays in the file', () => {
  const written = { ...twoTyres(), run: { distance: '1320 ft', trapSpeed: '205' } };
  const found = faults({ 'run.trapSpeed': '~240 mph', 'build.reserve': '1' }, written);
  expect(found).toHaveLength(2);
  expect(found[0]).toMatch(/^--set build\.reserve {2}read "1"/);
  expect(found[1]).toMatch(/^cars\/case\.yaml:\d+:\d+ {2}run\.trapSpeed: read "205"; the unit is missing/);
});

test('a value on the command line stands in for a fault of the file', () => {
  const written = { ...twoTyres(), run: { distance: '1320 ft', trapSpeed: '205' } };
  expect(faults({ 'run.trapSpeed': SPEED }, written)).toEqual([]);
});
