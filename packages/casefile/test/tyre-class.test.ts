import { describe, expect, test } from 'vitest';
import { withInputs } from '../src/case-inputs.ts';
import { DEFAULTS } from '../src/defaults.ts';
import { numbersIn } from '../src/parts/tyre-class.ts';
import { lines, smallCase, sound } from './small-case.ts';

/** The small case with a radial that runs in a class of its own. */
function inClass(its: object, rest: object = {}) {
  const tyres = [...smallCase().tyres, { tyre: 'radial', runsPerSeason: 12, class: its }];
  return { ...smallCase(), ...rest, tyres };
}

const law = (mean: string, sd: string) => ({ law: 'normal', mean, sd, each: 'run' });

test('a class changes the inputs that it names for its tyre, and no other', () => {
  const its = {
    run: { trapSpeed: law('180 mph', '2 mph'), gripLost: { slip: law('30 %', '2 %') } },
    aero: { downforceArea: '0.4 m2' },
    suspension: { wheelRate: '240 lbf/in' },
  };
  const the = sound(inClass(its));
  const [slick, radial] = the.tyres;
  expect(slick).not.toHaveProperty('car');
  expect(Object.keys(radial!.car!).sort()).toEqual(
    ['downforceArea', 'slipGripLost', 'trapSpeed', 'wheelRate'].sort(),
  );
  expect(radial!.car!.trapSpeed).toMatchObject({
    path: 'tyres[1].class.run.trapSpeed',
    label: 'speed at the finish',
    source: 'case',
    shown: 'normal, mean 180 mph, sd 2 mph, new every run',
    each: 'run',
    group: 'car',
    floor: 0,
  });
  expect(radial!.car!.trapSpeed!.basis).toMatch(/^case\.yaml:\d+$/);
  expect(the.car).toEqual(sound(smallCase()).car);
});

test('every input of car, run, aero, suspension and weather may be changed by a class', () => {
  const rows = DEFAULTS.car.filter(({ path }) => /^(car|run|aero|suspension|weather)\./.test(path));
  expect(rows.length).toBeGreaterThan(28);
  for (const { name, path, prior } of rows) {
    const parts = path.split('.');
    const its = parts.reduceRight<unknown>((value, part) => ({ [part]: value }), prior.range[1]) as object;
    const run = { ...smallCase().run, finishAcceleration: law('0.9 g', '0.1 g') };
    const { car } = sound(inClass(its, { run })).tyres[1]!;
    const andBuild = name === 'mass' || name === 'rearShare' ? ['addedMass'] : [];
    expect(Object.keys(car!), path).toEqual([name, ...andBuild]);
    expect(car![name], path).toMatchObject({ path: `tyres[1].class.${path}`, source: 'case' });
  }
});

test('what stands for an input in a class takes the place of the case’s own number', () => {
  const centre = { ahead: '1.27 m', height: '0.25 m' };
  const its = {
    aero: { rearDownforce: { force: '500 lbf', at: '180 mph', airDensity: '1.15 kg/m3' } },
    suspension: { instantCentre: centre, antiRollBar: true },
  };
  const rest = {
    suspension: { antiSquat: 0.6, axlePathSlope: 0.1, torqueRoll: '1 in' },
    build: { tyre: 'slick', pressure: '7 psi', axleHeight: '0.4 m' },
  };
  const the = sound(inClass(its, rest));
  const { downforceArea, antiSquat, axlePathSlope, torqueRoll } = the.tyres[1]!.car!;
  // C_z A = 2 F/(ρ v²): derived with exact rationals from the defined lbf and mph.
  expect((downforceArea!.law as { value: number }).value).toBeCloseTo(0.59738016255, 10);
  // Moments about the instant centre: (a₀ − h_I)/d, derived.
  expect((axlePathSlope!.law as { mean: number }).mean).toBeCloseTo(0.15 / 1.27, 12);
  expect(antiSquat!.basis).toMatch(/^derived from instantCentre, case\.yaml:\d+/);
  expect(torqueRoll!.law).toMatchObject({ kind: 'truncated-normal', mean: 0.15 * 0.0254 });
  expect(the.car.antiSquat.law).toEqual({ kind: 'constant', value: 0.6 });
  expect(the.car.torqueRoll.law).toEqual({ kind: 'constant', value: 0.0254 });
});

// Derived by hand: 1,300 kg of which 0.55 stand on the rear axle, and in the class 1,340 kg of which 0.6.
test('ballast of a class was missing at the build, and lowers the body by as much', () => {
  const its = { car: { mass: '1340 kg', rearShare: 0.6 } };
  const rest = { car: { ...smallCase().car, mass: '1300 kg', rearShare: 0.55 } };
  const { addedMass } = sound(inClass(its, rest)).tyres[1]!.car!;
  expect((addedMass!.law as { value: number }).value).toBeCloseTo(1340 * 0.6 - 1300 * 0.55, 9);
  expect(addedMass!.path).toBe('tyres[1].class.build.addedMass');
  expect(addedMass!.basis).toBe('derived from tyres[1].class.car.mass and tyres[1].class.car.rearShare');
  const told = { ...its, build: { addedMass: '20 kg' } };
  const { addedMass: given } = sound(inClass(told, rest)).tyres[1]!.car!;
  expect(given).toMatchObject({
    law: { kind: 'constant', value: 20 },
    path: 'tyres[1].class.build.addedMass',
  });
  const { addedMass: own } = sound(inClass({ run: { trapSpeed: law('180 mph', '2 mph') } }, rest)).car;
  expect(own.law).toEqual({ kind: 'constant', value: 0 });
});

// a₀ and the lengths as in laws.test.ts: h_I L/(d h) with the class's own height of the centre of gravity.
test('a class that moves the centre of gravity moves the anti-squat that comes from the links', () => {
  const rest = {
    car: { mass: '1202 kg', rearShare: 0.5, wheelbase: '2.794 m', cgHeight: '0.508 m' },
    suspension: { instantCentre: { ahead: '1.27 m', height: '0.25 m' } },
    build: { tyre: 'slick', pressure: '7 psi', axleHeight: '0.4 m' },
  };
  const { car } = sound(inClass({ car: { cgHeight: '0.6 m' } }, rest)).tyres[1]!;
  expect((car!.antiSquat!.law as { mean: number }).mean).toBeCloseTo((0.25 * 2.794) / (1.27 * 0.6), 9);
  expect(Object.keys(car!).sort()).toEqual(['antiSquat', 'cgHeight']);
});

// One class, one line of text after its place.
const golden: [its: object, message: string][] = [
  [
    { accept: { runRisk: '1 in 10' } },
    'tyres[1].class.accept.runRisk: read "1 in 10"; a season cannot be safer than one of its runs with radial; accept.seasonRisk is smaller',
  ],
  [
    { accept: { seasonRisk: '1 in 10' } },
    'tyres[1].class.accept.seasonRisk: read "seasonRisk"; there is no field of this name here; known are runRisk',
  ],
  [
    { run: { distance: '10 ft' } },
    'tyres[1].class.run.distance: read "10 ft"; length of the track must be 300 ft to 1760 ft',
  ],
  [
    { build: { pressure: '6 psi' } },
    'tyres[1].class.build.pressure: read "pressure"; there is no field of this name here; known are reserve or addedMass',
  ],
  [
    { run: { trapSpeed: '180 mph' } },
    'warning: tyres[1].class.run.trapSpeed: read "180 mph"; it is taken as exactly this in every run. Give a law with each: run, or { law: constant, value: …, each: run } if that is meant',
  ],
  [
    { run: { trapSpeed: { ...law('180 mph', '2 mph'), sd: '2' } } },
    'tyres[1].class.run.trapSpeed.sd: read "2"; the unit is missing: write 2 mph, 2 km/h or 2 m/s',
  ],
  [
    { aero: { downforceArea: '1 m2', rearDownforce: { force: '500 lbf', at: '180 mph' } } },
    'tyres[1].class.aero.rearDownforce: downforceArea is given as well; keep one of the two',
  ],
  [
    { suspension: { instantCentre: { ahead: '50 in', height: '9 in' } } },
    'tyres[1].class.suspension.instantCentre: it needs build.axleHeight, the height of the axle above the track at rest',
  ],
  [
    { suspension: { wheelrate: '200 lbf/in' } },
    'tyres[1].class.suspension.wheelrate: read "wheelrate"; there is no field of this name here. Did you mean wheelRate?',
  ],
];

test('a fault in a class is told at its place in the class', () => {
  expect(golden).toHaveLength(9);
  for (const [its, message] of golden) {
    expect(
      lines(inClass(its)).map((line) => line.replace(/^cars\/case\.yaml:\d+:\d+ {2}/, '')),
      message,
    ).toEqual([message]);
  }
});

test('a fault in a class does not hide the faults of the rest', () => {
  const found = lines({ ...inClass({ run: { trapSpeed: '180' } }), tubs: ['wyde'] });
  expect(found).toHaveLength(2);
  expect(found[1]).toMatch(/tubs\[0\]: read "wyde".*Did you mean wide\?$/);
});

test('exact numbers of the car are others in a class, and the case keeps its own', () => {
  const its = {
    run: { distance: '660 ft', gripLost: { chance: '20 %' }, finishAcceleration: law('0.7 g', '0.1 g') },
    build: { reserve: '1 in' },
    accept: { runRisk: '1 in 5000' },
  };
  const the = sound(inClass(its));
  const own = {
    distance: 660 * 0.3048,
    finishAccelerationIs: 'absolute',
    gripLostChance: 0.2,
    reserve: 0.0254,
    runRisk: 1 / 5000,
  };
  expect(numbersIn(the, the.tyres[1]!)).toEqual(own);
  const { distance, gripLostChance, build, accept } = the;
  expect(numbersIn(the, the.tyres[0]!)).toEqual({
    distance,
    finishAccelerationIs: 'relative',
    gripLostChance,
    reserve: build.reserve,
    runRisk: accept.runRisk,
  });
});

describe('a tyre in several classes', () => {
  const again = (more: object = {}, first: object = {}) => ({
    ...smallCase(),
    runLog: { axleRatio: 4, tyre: 'slick' },
    tyres: [
      {
        tyre: 'slick',
        runsPerSeason: 30,
        rollout: '102 in',
        coldPressure: law('6 psi', '0.2 psi'),
        ...first,
      },
      { tyre: 'slick', runsPerSeason: 8, class: { name: 'guests', run: { distance: '660 ft' } }, ...more },
    ],
  });

  test('is the same tyre in each, down to where its numbers stand, and is named by its class', () => {
    const { tyres, build } = sound(again());
    expect(tyres.map(({ name, tyre }) => [name, tyre])).toEqual([
      ['slick', 'slick'],
      ['slick (guests)', 'slick'],
    ]);
    expect(tyres[1]!.inputs).toEqual(tyres[0]!.inputs);
    expect(tyres[1]!.inputs.referenceRadius.path).toBe('tyres[0].referenceRadius');
    expect(tyres[1]).toMatchObject({ runsPerSeason: 8, label: 'slick (guests), run-in' });
    expect(build.tyre).toBe('slick');
  });

  test('has its own pressure in a class that sets one', () => {
    const { tyres } = sound(again({ coldPressure: law('5 psi', '0.2 psi') }));
    const [first, second] = tyres.map(({ inputs }) => inputs.coldPressure);
    expect(second).toMatchObject({ path: 'tyres[1].coldPressure', shown: expect.stringContaining('5 psi') });
    expect(first!.path).toBe('tyres[0].coldPressure');
    expect(tyres[1]!.inputs.growthScale).toEqual(tyres[0]!.inputs.growthScale);
  });

  test('is meant in its first class where it is named alone', () => {
    const { build, runLog, tyres } = sound(again({}, { class: { name: 'club' } }));
    expect(tyres[0]!.name).toBe('slick (club)');
    expect([build.tyre, runLog!.tyre]).toEqual(['slick (club)', 'slick (club)']);
  });

  test('is found by its class on a command line', () => {
    const { tyres } = sound(again(), {}, { 'tyres[slick (guests)].runsPerSeason': '9' });
    expect(tyres.map(({ runsPerSeason }) => runsPerSeason)).toEqual([30, 9]);
  });

  const tell = (written: object): string[] =>
    lines(written).map((line) => line.replace(/^cars\/case\.yaml:\d+:\d+ {2}/, ''));

  test('is told what its class may not say, and that a class needs a name', () => {
    expect(tell(again({ rollout: '103 in' }))).toEqual([
      'tyres[1].rollout: read "103 in"; it is the tyre of tyres[0], and one tyre is the same in all its classes. Say rollout there. A class has its own runsPerSeason, coldPressure, airHeating, rideHeightChange and class',
    ]);
    expect(tell(again({ class: { run: { distance: '660 ft' } } }))).toEqual([
      'tyres[1].tyre: read "slick"; this tyre is listed twice, as tyres[0] in the same class. Give each class of it a name, class: { name: quarter mile }, or add its runs up in one entry',
    ]);
  });

  test('is learned once for all of them', () => {
    const learned = withInputs(sound(again()), (input, name, tyre) =>
      tyre === 'slick' && name === 'growthScale' ? { ...input, law: { kind: 'constant', value: 2 } } : input,
    );
    for (const { inputs } of learned.tyres)
      expect(inputs.growthScale.law).toEqual({ kind: 'constant', value: 2 });
  });
});
