import { expect, test } from 'vitest';
import { LARGEST_CASE } from '../src/text/case-text.ts';
import { lines, read, smallCase, TUBS, TYRES } from './small-case.ts';

const WELL = `name: small
catalogues: { tubs: tubs.csv, tyres: tyres.csv }
car:
  mass: 2500 lb
  rearShare: 51 %
  wheelbase: 105 in
aero: { downforceArea: 1 m2 }
build:
  tyre: slick
  pressure: 7 psi
run:
  distance: 1320 ft
  trapSpeed: { law: normal, mean: 205 mph, sd: 2 mph, each: run }
tyres:
  - tyre: slick
    runsPerSeason: 30
tubs: [wide]
accept: { runRisk: 1 in 1000, seasonRisk: 1 in 20 }
`;

/** The sound case with some of its lines changed. */
function changed(...changes: [from: string, to: string][]): string {
  return changes.reduce((text, [from, to]) => {
    expect(text, from).toContain(from);
    return text.replace(from, to);
  }, WELL);
}

test('a sound case has no issue', () => {
  expect(lines(WELL)).toEqual([]);
});

test('every fault is told at once, in line order, with place, field, what was read and what is allowed', () => {
  const text = changed(
    ['mass: 2500 lb', 'mass: 2500'],
    ['wheelbase: 105 in', 'wheelbase: 105 lb'],
    ['  rearShare: 51 %', '  rearshare: 51 %'],
    ['mean: 205 mph, sd: 2 mph, each: run', 'mean: 900 mph, sd: 3 mph'],
    [
      '    runsPerSeason: 30',
      '    runsPerSeason: 30\n    coldPressure: 65 psi\n    lobeHeight: 0.25 ± 0.15 in',
    ],
    ['tubs: [wide]', 'tubs: [wide, smug]'],
    ['seasonRisk: 1 in 20', 'seasonRisk: 1 in 20000'],
  );
  expect(lines(text)).toEqual([
    'cars/case.yaml:4:9  car.mass: read "2500"; the unit is missing: write 2500 lb or 2500 kg',
    'cars/case.yaml:5:3  car.rearshare: read "rearshare"; there is no field of this name here. Did you mean rearShare?',
    'cars/case.yaml:6:14  car.wheelbase: read "105 lb"; lb is a unit of mass; allowed here are in, ft, mm, cm or m',
    'cars/case.yaml:13:3  run.trapSpeed.each: this is missing; allowed are car or run. car: one value that stays with this car; run: a new value every run',
    'cars/case.yaml:13:35  run.trapSpeed.mean: read "900 mph"; speed at the finish must be 30 mph to 350 mph. Did you mean 90 mph?',
    'cars/case.yaml:17:19  tyres[0].coldPressure: read "65 psi"; cold pressure must be 3 psi to 15 psi (bias) or 8 psi to 45 psi (radial). Did you mean 6.5 psi?',
    'cars/case.yaml:18:17  tyres[0].lobeHeight: read "0.25 ± 0.15 in"; a bare ± does not say what it means: a standard deviation, a limit, new every run or not. Write { law: normal, mean: …, sd: …, each: run } or { law: uniform, low: …, high: …, each: car }',
    'cars/case.yaml:19:14  tubs[1]: read "smug"; the catalogue has no tub of this name. Did you mean snug?',
    'cars/case.yaml:20:43  accept.seasonRisk: read "1 in 20000"; a season cannot be safer than one of its runs; accept.runRisk is larger',
  ]);
});

// One change to the sound case, one line of text.
const golden: [name: string, from: string, to: string, message: string][] = [
  [
    'negative travel',
    'aero:',
    'suspension: { bumpTravel: -2 in }\naero:',
    'cars/case.yaml:7:27  suspension.bumpTravel: read "-2 in"; free bump travel to the stop must be 0 in to 10 in',
  ],
  [
    'slick pressure of a radial',
    'runsPerSeason: 30',
    'runsPerSeason: 30\n    coldPressure: 20 psi',
    'cars/case.yaml:17:19  tyres[0].coldPressure: read "20 psi"; cold pressure of a bias tyre must be 3 psi to 15 psi',
  ],
  [
    'tread wider than the section',
    'runsPerSeason: 30',
    'runsPerSeason: 30\n    treadWidth: 16 in',
    'cars/case.yaml:17:17  tyres[0].treadWidth: read "16 in"; the tread is 16 in wide, the section only 15 in',
  ],
  [
    'a field twice',
    '  pressure: 7 psi',
    '  pressure: 7 psi\n  tyre: slick',
    'cars/case.yaml:11:3  read "tyre"; this field is already given on line 9. Take one of the two out',
  ],
  [
    'a comma before decimals',
    'mass: 2500 lb',
    'mass: 2500,5 lb',
    'cars/case.yaml:4:9  car.mass: read "2500,5 lb"; expected a number and a unit, lb or kg. Write a point before decimals; a comma only parts thousands, as in 3,400',
  ],
  [
    'an unknown law',
    'mass: 2500 lb',
    'mass: { law: norml, mean: 2500 lb, sd: 9 lb, each: car }',
    'cars/case.yaml:4:16  car.mass.law: read "norml"; allowed are constant, normal, truncated, log-normal, triangular, uniform, measured or empirical. Did you mean normal?',
  ],
  [
    'a law that reaches below zero',
    'aero:',
    'suspension: { bumpTravel: { law: normal, mean: 1 in, sd: 1 in, each: car } }\naero:',
    'cars/case.yaml:7:15  suspension.bumpTravel: this normal law falls below 0, but free bump travel to the stop cannot be negative. Use law: truncated with a low of 0, or law: log-normal',
  ],
  [
    'too few measured values',
    'mass: 2500 lb',
    'mass: { law: measured, values: [2500 lb, 2510 lb], each: car }',
    'cars/case.yaml:4:26  car.mass.values: must have at least 4 entries',
  ],
  [
    'an unknown build tyre',
    '  tyre: slick',
    '  tyre: slik',
    'cars/case.yaml:9:9  build.tyre: read "slik"; it must be one of the case\'s tyres: slick. Did you mean slick?',
  ],
  [
    'a catalogue outside the folder',
    'tubs: tubs.csv',
    'tubs: ../tubs.csv',
    'cars/case.yaml:2:21  catalogues.tubs: read "../tubs.csv"; a catalogue must lie in the case file\'s folder or below it. Put it there and write its name, such as tyres.csv',
  ],
  [
    'a catalogue that is not there',
    'tyres: tyres.csv',
    'tyres: tires.csv',
    'cars/case.yaml:2:38  catalogues.tyres: read "tires.csv"; there is no such file in the case file\'s folder',
  ],
  [
    'a reach into the language',
    'mass: 2500 lb',
    'mass: 2500 lb\n  __proto__: 1',
    'cars/case.yaml:5:3  car.__proto__: read "__proto__"; there is no field of this name here; known are mass, rearShare, wheelbase, cgHeight or rollingCoefficient',
  ],
  [
    'a section by a wrong name',
    'build:',
    'biuld:',
    'cars/case.yaml:8:1  biuld: read "biuld"; there is no field of this name here. Did you mean build?',
  ],
  [
    'a mandatory field by a wrong name',
    'mass: 2500 lb',
    'mas: 2500 lb',
    'cars/case.yaml:4:3  car.mas: read "mas"; there is no field of this name here. Did you mean mass?',
  ],
  [
    'an instant centre without the axle',
    'aero:',
    'suspension: { instantCentre: { ahead: 50 in, height: 9 in } }\naero:',
    'cars/case.yaml:7:15  suspension.instantCentre: it needs build.axleHeight, the height of the axle above the track at rest',
  ],
  [
    'an outline that bends inward',
    'accept:',
    'hardPoints:\n  - name: dart\n    shape: polygon\n    points:\n      - { ahead: 20 in, above: 20 in }\n      - { ahead: 30 in, above: 30 in }\n      - { ahead: 20 in, above: 40 in }\n      - { ahead: 24 in, above: 30 in }\naccept:',
    'cars/case.yaml:21:5  hardPoints[0].points: the outline bends inward at corner 4; its corners must go round a convex outline in order. Give a bent shape as two or more convex ones',
  ],
  [
    'a hard point under the tyre',
    'accept:',
    'hardPoints: [{ name: bar, shape: circle, ahead: 8 in, above: -16 in, radius: 1 in }]\naccept:',
    'cars/case.yaml:18:14  hardPoints[0]: some of it stands under the tyre, more than 145° round from straight up, where the tyre rests on the track and no gap to it can be told. Measure ahead of and above the axle, the car at rest; leave out what lies below the tyre',
  ],
  [
    'a hard point inside the tyre',
    'accept:',
    'hardPoints: [{ name: bar, shape: circle, ahead: 3 in, above: 12 in, radius: 1 in }]\naccept:',
    'cars/case.yaml:18:14  hardPoints[0]: it comes within 11.369 in of the axle, inside the standing tyre of radius 16.25 in. Measure ahead of and above the axle, the car at rest',
  ],
  [
    'a height below the tyre',
    'accept:',
    'heights: [30 in, 40 in]\naccept:',
    'cars/case.yaml:18:1  heights: 30 in is below the top of the standing tyre, about 31.6 in above the track',
  ],
  [
    'a speed without a spread',
    '{ law: normal, mean: 205 mph, sd: 2 mph, each: run }',
    '205 mph',
    'cars/case.yaml:13:14  warning: run.trapSpeed: read "205 mph"; it is taken as exactly this in every run. Give a law with each: run, or { law: constant, value: …, each: run } if that is meant',
  ],
  [
    'an empty group',
    'aero:',
    'weather:\naero:',
    'cars/case.yaml:7:9  weather: nothing is written here; expected a group of fields, one a line, indented',
  ],
  [
    'a unit with a slip',
    'wheelbase: 105 in',
    'wheelbase: 105 inn',
    'cars/case.yaml:6:14  car.wheelbase: read "105 inn"; "inn" is not a unit of length; allowed are in, ft, mm, cm or m. Did you mean 105 in?',
  ],
  [
    'a fraction that a spreadsheet took for a date',
    'wheelbase: 105 in',
    'wheelbase: 8-Jul',
    'cars/case.yaml:6:14  car.wheelbase: read "8-Jul"; this is a date: a spreadsheet makes one of a fraction that is typed into it. Where 7/8 was meant, type 0.875',
  ],
  [
    'mass for a force',
    'runsPerSeason: 30',
    'runsPerSeason: 30\n    deflectionLoad: 1300 lb',
    'cars/case.yaml:17:21  tyres[0].deflectionLoad: read "1300 lb"; lb is a unit of mass; allowed here are lbf or N. Did you mean 1300 lbf?',
  ],
  [
    'a drop that no tyre has',
    'runsPerSeason: 30',
    'runsPerSeason: 30\n    deflection: 0.15 in',
    'cars/case.yaml:17:17  tyres[0].deflection: read "0.15 in"; no sidewall gives a drop of 0.15 in under 1300 lbf at 7 psi. Measure again: free radius less loaded radius, and the load on this one tyre',
  ],
  [
    'a rim wider than the section',
    'runsPerSeason: 30',
    'runsPerSeason: 30\n    rim: { width: 15.5 in, backspacing: 5 in, flange: 0.5 in }',
    'cars/case.yaml:17:5  tyres[0].rim: the rim, 15.5 in, is wider than the section, 15 in',
  ],
  [
    'a backspacing wider than the whole rim',
    'runsPerSeason: 30',
    'runsPerSeason: 30\n    rim: { width: 14 in, backspacing: 15.1 in, flange: 0.5 in }',
    'cars/case.yaml:17:39  tyres[0].rim.backspacing: read "15.1 in"; the whole rim is only 15 in wide',
  ],
  [
    'a radius given twice',
    'runsPerSeason: 30',
    'runsPerSeason: 30\n    rollout: 102 in\n    referenceRadius: 16.25 in',
    'cars/case.yaml:17:14  tyres[0].rollout: read "102 in"; referenceRadius is given as well; keep one of the two',
  ],
  [
    'an axle as high as the free radius',
    'pressure: 7 psi',
    'pressure: 7 psi\n  axleHeight: 16.25 in',
    'cars/case.yaml:11:15  build.axleHeight: read "16.25 in"; with tyre slick it must be less than the free radius, 16.25 in, and more than three quarters of it',
  ],
  [
    'an axle under three quarters of the free radius',
    'pressure: 7 psi',
    'pressure: 7 psi\n  axleHeight: 12.18 in',
    'cars/case.yaml:11:15  build.axleHeight: read "12.18 in"; with tyre slick it must be less than the free radius, 16.25 in, and more than three quarters of it',
  ],
  [
    'a name of a hard point twice',
    'accept:',
    'hardPoints:\n  - { name: bar, shape: circle, ahead: 20 in, above: 10 in, radius: 1 in }\n  - { name: bar, shape: circle, ahead: 25 in, above: 10 in, radius: 1 in }\naccept:',
    'cars/case.yaml:20:13  hardPoints[1].name: read "bar"; this name is already taken',
  ],
  [
    'fewer draws a car than runs a season',
    'accept:',
    'simulation: { draws: 2999, cars: 100 }\naccept:',
    "cars/case.yaml:18:1  simulation: 2999 draws among 100 cars are fewer runs a car than a season's 30. Ask for more draws or fewer cars",
  ],
  [
    'an open bracket',
    'tubs: [wide]',
    'tubs: [wide',
    'cars/case.yaml:17:7  the bracket [ that opens here is never closed. Write ] behind the last thing that belongs in it',
  ],
];

test('one fault gives one line that says where, what and what to do', () => {
  expect(golden).toHaveLength(33);
  for (const [name, from, to, message] of golden) expect(lines(changed([from, to])), name).toEqual([message]);
});

test('what lies just inside those bounds is no fault', () => {
  for (const [from, to] of [
    ['runsPerSeason: 30', 'runsPerSeason: 30\n    rim: { width: 15 in, backspacing: 16 in, flange: 0.5 in }'],
    ['pressure: 7 psi', 'pressure: 7 psi\n  axleHeight: 16.2 in'],
    ['pressure: 7 psi', 'pressure: 7 psi\n  axleHeight: 12.2 in'],
    ['accept:', 'simulation: { draws: 3000, cars: 100 }\naccept:'],
  ] as const)
    expect(lines(changed([from, to])), to).toEqual([]);
});

test('a tub that no tyre fits is refused by name and left out of all', () => {
  const tubs = TUBS.replace('snug,41,', 'snug,33,');
  const named = lines({ ...smallCase(), tubs: ['wide', 'snug'] }, { 'tubs.csv': tubs });
  const reason =
    'tub snug has a diameter of 32.8 in inside its liner, but tyre slick standing still takes 33.5 in with the reserve; more than that is needed';
  expect(named).toEqual([`cars/case.yaml:26:5  tubs[1]: read "snug"; ${reason}`]);
  const all = read({ ...smallCase(), tubs: 'all' }, { 'tubs.csv': tubs });
  expect(all.ok && all.value.tubs.map(({ name }) => name)).toEqual(['wide']);
  expect(all.ok && all.warnings.map(({ code, message }) => [code, message])).toEqual([
    ['skipped', `read "all"; left out: ${reason}`],
  ]);
  const ladder = `${tubs}${['low,30,', 'lower,29,', 'thin,48,']
    .map((start) =>
      tubs
        .split('\n')[1]!
        .replace('wide,48.5,', start)
        .replace(',20,', start === 'thin,48,' ? ',14,' : ',20,'),
    )
    .join('\n')}\n`;
  const some = read({ ...smallCase(), tubs: 'all' }, { 'tubs.csv': ladder });
  expect(some.ok && some.warnings.map(({ message }) => message)).toEqual([
    'read "all"; left out: too small inside for a tyre that stands still, with the reserve: snug, low, lower; too narrow inside for a tyre: thin',
  ]);
});

test('faults of a catalogue are told with line and column of the cell', () => {
  const tubs = TUBS.replace('snug,41,0.1', 'wide,41 psi,')
    .replace('48.5,0.1', '48.5,7-Aug')
    .replace('leg_length_in', 'leg_lenght_in');
  const tyres = TYRES.replace('radial,radial', 'radial,radail').replace('15,13,14', '13,15,14');
  expect(lines(smallCase(), { 'tubs.csv': tubs, 'tyres.csv': tyres })).toEqual([
    'cars/tubs.csv:1:48  warning: leg_lenght_in: read "leg_lenght_in"; there is no column of this name; it is carried along as the shop\'s own. Did you mean leg_length_in?',
    'cars/tubs.csv:2:11  liner_in: read "7-Aug"; this is a date: a spreadsheet makes one of a fraction that is typed into it. Where 7/8 was meant, type 0.875',
    'cars/tubs.csv:3:1  tub: read "wide"; this name is already taken on line 2',
    'cars/tubs.csv:3:6  inside_diameter_in: read "41 psi"; psi is a unit of pressure; allowed here are in, ft, mm, cm or m',
    'cars/tyres.csv:2:22  tread_width: read "15"; the tread cannot be wider than the section',
    'cars/tyres.csv:3:8  construction: read "radail"; allowed are bias or radial. Did you mean radial?',
  ]);
});

test('a case and its warnings keep no folder, a message keeps the path as given', () => {
  const text = changed(
    ['{ law: normal, mean: 205 mph, sd: 2 mph, each: run }', '205 mph'],
    ['[wide]', 'all'],
  );
  const result = read(text, { 'tubs.csv': TUBS.replace('snug,41,', 'snug,33,') });
  expect(result.ok && result.value.file).toBe('case.yaml');
  expect(result.ok && result.value.warnings.map(({ file }) => file)).toEqual(['case.yaml', 'case.yaml']);
  expect(result.ok && result.warnings.map(({ file }) => file)).toEqual(['cars/case.yaml', 'cars/case.yaml']);
  expect(JSON.stringify(result.ok && result.value)).not.toContain('cars/');
});

test('a file that is too large is refused before it is read', () => {
  const [issue] = lines(`${WELL}# ${'x'.repeat(LARGEST_CASE)}`);
  expect(issue).toMatch(
    /^cars\/case\.yaml:1:1 {2}a case file may have 200000 letters at most, this one has \d+\./,
  );
});

test('links that disagree are a warning, and the number of the case is used', () => {
  const the = {
    ...smallCase(),
    suspension: { antiSquat: 0.6, instantCentre: { ahead: '1.27 m', height: '0.25 m' } },
    build: { tyre: 'slick', pressure: '7 psi', axleHeight: '15.5 in' },
  };
  const result = read(the);
  expect(result.ok && result.value.car.antiSquat.law).toEqual({ kind: 'constant', value: 0.6 });
  expect(result.ok && result.warnings.map(({ severity, path }) => [severity, path])).toEqual([
    ['warning', 'suspension.instantCentre'],
  ]);
});
