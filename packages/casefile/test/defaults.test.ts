import { CAR_INPUTS, CONSTRUCTIONS, TYRE_INPUTS } from '@tubgap/core';
import { centralValue, lawProblem } from '@tubgap/statistics';
import { formatQuantity, type QuantityKind } from '@tubgap/units';
import { expect, test } from 'vitest';
import { fieldSpec } from '../src/defaults/field-spec.ts';
import { anyTyreSpec, carSpec, DEFAULTS, tyreSpec } from '../src/defaults.ts';
import { exactDefault, readPrior } from '../src/parts/input.ts';
import { lines, smallCase, sound } from './small-case.ts';

test('the table has every input of the core once, and no other', () => {
  const car = DEFAULTS.car.map(({ name }) => name);
  expect(new Set(car).size).toBe(car.length);
  expect([...car, 'gripLostToss'].sort()).toEqual([...CAR_INPUTS].sort());
  const tyre = DEFAULTS.tyre.map(({ name }) => name);
  expect(tyre.toSorted()).toEqual([...TYRE_INPUTS].sort());
});

test('every default can be read and its middle is in its own range', () => {
  for (const row of DEFAULTS.car) {
    if (row.prior.law === undefined) continue;
    const spec = carSpec(row);
    const { law, each } = readPrior(row.prior.law, spec);
    expect(lawProblem(law), row.path).toBeUndefined();
    expect(centralValue(law), row.path).toBeGreaterThanOrEqual(spec.min);
    expect(centralValue(law), row.path).toBeLessThanOrEqual(spec.max);
    expect(each, row.path).toBe(row.each);
  }
  for (const row of DEFAULTS.tyre) {
    for (const construction of CONSTRUCTIONS) {
      const prior = row.prior[construction];
      expect(prior.basis, row.path).toMatch(/engineering judgement|common practice|derived/);
      if (prior.law) expect(readPrior(prior.law, tyreSpec(row, construction)).each, row.path).toBe(row.each);
    }
  }
  for (const row of DEFAULTS.exact) {
    const spec = fieldSpec(row);
    expect(spec.min, row.path).toBeLessThan(spec.max);
    if (row.value === undefined) continue;
    expect(exactDefault(row.path), row.path).toBeGreaterThanOrEqual(spec.min);
    expect(exactDefault(row.path), row.path).toBeLessThanOrEqual(spec.max);
  }
});

type Group = Record<string, unknown>;

/** The small case with one field more, at a path such as 'run.gripLost.slip' or 'tyres[].rim.width'. */
function withField(path: string, value: unknown): Group {
  const the: Group = smallCase();
  const parts = path.replaceAll('[]', '.0').split('.');
  let group = the;
  for (const part of parts.slice(0, -1)) {
    group[part] ??= {};
    group = group[part] as Group;
  }
  group[parts.at(-1)!] = value;
  return the;
}

const middle = (spec: { min: number; max: number; kind: QuantityKind; unit: string }, share: number) =>
  formatQuantity(spec.min + share * (spec.max - spec.min), spec.kind, spec.unit);

test('every uncertain input can be given in the case, and is then used with its place', () => {
  for (const row of DEFAULTS.car) {
    const spec = carSpec(row);
    const law = { law: 'uniform', low: middle(spec, 0.4), high: middle(spec, 0.6), each: 'run' };
    const input = sound(withField(row.path, law)).car[row.name];
    expect(input, row.path).toMatchObject({ path: row.path, source: 'case', each: 'run', kind: row.kind });
    expect(input.basis, row.path).toMatch(/^case\.yaml:\d+$/);
    expect(
      Math.abs(centralValue(input.law) / (spec.min + (spec.max - spec.min) / 2) - 1) || 0,
      row.path,
    ).toBeLessThan(1e-3);
  }
  for (const row of DEFAULTS.tyre) {
    const spec = tyreSpec(row, 'bias');
    const share = row.name === 'treadWidth' ? 0.3 : 0.5;
    const value = middle(spec, share);
    const input = sound(withField(row.path, value)).tyres[0]!.inputs[row.name];
    expect(input, row.path).toMatchObject({ source: 'case', law: { kind: 'constant' } });
    expect(input.shown, row.path).toBe(`${value}, taken as exact`);
  }
});

test('what the case leaves out comes from the table or a catalogue, and says so', () => {
  const the = sound(smallCase());
  expect(the.car.wheelRate).toMatchObject({
    source: 'assumed',
    basis: 'prior: engineering judgement',
    shown: 'log-normal, median 190 lbf/in, cov 0.08, one value per car',
  });
  expect(the.tyres[0]!.inputs.referenceRadius).toMatchObject({
    source: 'catalogue',
    basis: 'tyres.csv:2; spread: engineering judgement',
    shown: 'normal, mean 16.25 in, sd 0.06 in, one value per car',
  });
  expect(the.tyres[0]!.inputs.coldPressure).toMatchObject({
    source: 'case',
    shown: 'normal, mean 7 psi, sd 0.4 psi, new every run',
  });
  expect(the.finishAccelerationIs).toBe('relative');
  expect(the.car.finishAcceleration).toMatchObject({
    kind: 'ratio',
    law: { kind: 'log-normal', median: 1, cov: 0.11 },
  });
  expect(the.car.wheelRate.floor).toBe(0);
  expect(the.car.bumpTravel.floor).toBe(0);
  expect(the.car.topHeightError.floor).toBeUndefined();
});

// Derived: the growth law of a radial is q (v/v₀)² of its radius; neither a flattening speed nor a mass stands in it.
test('what the growth of a radial does not hang on has no spread, and the catalogue’s mass stays exact', () => {
  const tyres = [...smallCase().tyres, { tyre: 'radial', runsPerSeason: 12 }];
  const [slick, radial] = sound({ ...smallCase(), tyres }).tyres.map(({ inputs }) => inputs);
  expect(slick!.growthSpeedFactor.law.kind).toBe('log-normal');
  expect(slick!.mass.law.kind).toBe('normal');
  expect(radial!.growthSpeedFactor).toMatchObject({ source: 'assumed', law: { kind: 'constant', value: 1 } });
  expect(radial!.mass).toMatchObject({
    source: 'catalogue',
    law: { kind: 'constant', value: 33 * 0.45359237 },
    basis: 'tyres.csv:3; no spread: the growth law of a radial does not ask for its mass',
    shown: '33 lb, taken as exact',
  });
});

const OPEN = {
  ...smallCase(),
  aero: { rearDownforce: { force: '900 lbf', at: '200 mph' } },
  sideRoom: { innerPanel: '9 in', bodySide: '14 in' },
  tyres: [
    { tyre: 'slick', runsPerSeason: 30, rim: { backspacing: '5 in' } },
    { tyre: 'radial', runsPerSeason: 9, condition: 'new', class: { aero: { downforceArea: '1 m2' } } },
  ],
};

test('every exact default in use is listed as assumed, where it could stand and why', () => {
  const the = sound(OPEN);
  expect(the.assumed.map(({ path, shown }) => `${path}: ${shown}`).sort()).toEqual([
    'aero.rearDownforce.airDensity: 1.15 kg/m3',
    'build.reserve: 0.5 in',
    'run.gripLost.chance: 0.1',
    'sideRoom.sidePlay: 0.15 in',
    'sideRoom.sideReserve: 0.5 in',
    'suspension.antiRollBar: none',
    'tubCentreForward: 0 in',
    'tyres[0].condition: run-in',
    'tyres[0].rim.flange: 0.5 in',
  ]);
  for (const { basis, label } of the.assumed) {
    expect(basis).toMatch(/engineering judgement|common practice/);
    expect(label).not.toBe('');
  }
  expect(the.build.reserve).toBe(0.5 * 0.0254);
});

test('a default that the case makes needless is not assumed', () => {
  const the = sound({
    ...smallCase(),
    suspension: { torqueRoll: '1/2 in' },
    build: { ...smallCase().build, reserve: '0.5 in' },
    run: { ...smallCase().run, gripLost: { chance: 0.1 } },
    tyres: [{ tyre: 'slick', runsPerSeason: 30, condition: 'worn' }],
    tubs: [{ tub: 'wide', centreForward: '1 in' }],
  });
  expect(the.assumed).toEqual([]);
});

test('every default of the table that is no setting of the simulation says where it comes from', () => {
  const withValue = DEFAULTS.exact.filter(({ value }) => value !== undefined);
  expect(withValue.length).toBeGreaterThan(6);
  for (const { path, basis } of withValue) expect(basis !== undefined, path).toBe(!/^simulation/.test(path));
});

test('an anti-roll bar lowers the roll that is assumed', () => {
  const bar = sound({ ...smallCase(), suspension: { antiRollBar: true } }).car.torqueRoll.law;
  const none = sound(smallCase()).car.torqueRoll.law;
  expect(bar).toMatchObject({ kind: 'truncated-normal', mean: 0.15 * 0.0254 });
  expect(none).toMatchObject({ kind: 'truncated-normal', mean: 0.8 * 0.0254 });
});

test('a range that differs by construction is told for both', () => {
  const row = DEFAULTS.tyre.find(({ name }) => name === 'coldPressure')!;
  expect(anyTyreSpec(row).allowed).toBe('3 psi to 15 psi (bias) or 8 psi to 45 psi (radial)');
});

test('0 is a seed, and what is counted is whole', () => {
  expect(sound({ ...smallCase(), simulation: { seed: 0 } }).simulation.seed).toBe(0);
  expect(sound(smallCase()).simulation).toEqual({ draws: 200_000, cars: 2000, seed: 1 });
  expect(lines({ ...smallCase(), simulation: { seed: 1.5 } })[0]).toMatch(
    /read "1.5"; .* must be a whole number$/,
  );
});

test('what a caller need not know is assumed and shown: the accepted risks, wing, runs, wheelbase, weight split and track', () => {
  const { accept: _, aero: __, ...rest } = smallCase();
  const { distance: ___, ...run } = rest.run;
  const the = sound({ ...rest, run, car: { mass: '2500 lb' }, tyres: [{ tyre: 'slick' }] });
  expect(the.accept).toEqual({ runRisk: 1 / 2000, seasonRisk: 1 / 20 });
  expect(the.distance).toBeCloseTo(402.336, 9);
  expect(the.tyres[0]!.runsPerSeason).toBe(100);
  for (const name of ['wheelbase', 'rearShare', 'downforceArea'] as const) {
    expect(the.car[name], name).toMatchObject({ source: 'assumed', basis: 'prior: engineering judgement' });
  }
  const places = the.assumed.map(({ path }) => path);
  for (const path of ['accept.runRisk', 'accept.seasonRisk', 'run.distance', 'tyres[0].runsPerSeason']) {
    expect(places).toContain(path);
  }
});
