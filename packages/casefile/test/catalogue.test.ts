import { expect, test } from 'vitest';
import { issueText } from '../src/issue.ts';
import { lines, read, smallCase, sound, TUBS, TYRES } from './small-case.ts';

const METRIC_TUBS = `tub,areal_density_kg_m2,inside_width_mm,liner_mm,arc_extent_rad,leg_length_cm,skin_thickness_mm,inside_diameter_m
wide,2.7341594763745084,508,2.54,3.141592653589793,15.24,1.016,1.2319
`;
const METRIC_TYRES = `construction,tyre,rollout_mm,reference_pressure_kpa,section_width_mm,tread_width_mm,rim_width_mm,mass_kg,deflection_mm,deflection_load_n
bias,slick,${Math.PI * 825.5},48.263301052178526,381,330.2,355.6,18.1436948,22.86,5782.68809983865
`;

test('a catalogue means the same in metric units, in any order of columns, by diameter or rollout', () => {
  const inch = sound(smallCase());
  const metric = sound(smallCase(), { 'tubs.csv': METRIC_TUBS, 'tyres.csv': METRIC_TYRES });
  const close = (a: number, b: number) => expect(Math.abs(a - b)).toBeLessThanOrEqual(1e-12 * Math.abs(b));
  const { name, notches, ...tub } = inch.tubs[0]!;
  expect(notches).toEqual([]);
  expect(name).toBe('wide');
  expect(Object.keys(tub)).toHaveLength(8);
  for (const [field, value] of Object.entries(tub))
    close(metric.tubs[0]![field as 'diameter'], value as number);
  for (const field of ['referencePressure', 'deflection', 'deflectionLoad'] as const) {
    close(metric.tyres[0]![field], inch.tyres[0]![field]);
  }
  for (const field of ['referenceRadius', 'mass', 'sectionWidth', 'treadWidth'] as const) {
    const law = (the: typeof inch) => the.tyres[0]!.inputs[field].law as { mean: number; sd: number };
    close(law(metric).mean, law(inch).mean);
    close(law(metric).sd, law(inch).sd);
  }
});

test('a table that is not one of the kind is refused as a whole', () => {
  const of = (tubs: string) => lines(smallCase(), { 'tubs.csv': tubs });
  expect(of('')[0]).toMatch(
    /^cars\/tubs\.csv:1:1 {2}this catalogue is empty\. Its first line names the columns: tub,/,
  );
  expect(of(TUBS.replace('0.1,', ''))).toEqual([
    'cars/tubs.csv:2:1  this line has 7 cells, the first line names 8 columns',
  ]);
  expect(of(TUBS.replace('liner_in', 'liner'))).toEqual([
    'cars/tubs.csv:1:24  liner: read "liner"; the head of a column of numbers ends in their unit: liner_in, liner_ft, liner_mm, liner_cm or liner_m',
  ]);
  expect(of(TUBS.replace('liner_in', 'leg_length_mm'))).toContain(
    'cars/tubs.csv:1:53  leg_length_in: read "leg_length_in"; this column is there twice',
  );
  expect(of(TUBS.replace('wide,48.5', 'wide,485'))[0]).toMatch(
    /:2:6 .* must be 24 in to 72 in\. Did you mean 48\.5 in\?$/,
  );
});

test('a tub may be a half circle and no more, in any unit of angle', () => {
  const of = (extent: string, head = 'arc_extent_deg') =>
    lines(smallCase(), {
      'tubs.csv': TUBS.replace('arc_extent_deg', head).replaceAll('180,6', `${extent},6`),
    });
  expect(of('180')).toEqual([]);
  expect(of(String(Math.PI), 'arc_extent_rad')).toEqual([]);
  expect(of('181')[0]).toBe(
    'cars/tubs.csv:2:15  arc_extent_deg: read "181"; extent of the arc must be 60 deg to 180 deg; a tub that wraps further closes in again below its centre, which is not modelled',
  );
});

test('a name that the catalogue lacks is answered with the nearest, or with all of them', () => {
  const of = (tub: string) => lines({ ...smallCase(), tubs: [tub] })[0];
  expect(of('Wide')).toMatch(/the catalogue has no tub of this name\. Did you mean wide\?$/);
  expect(of('enormous')).toMatch(/the catalogue has no tub of this name; it has wide or snug$/);
});

test('a notch belongs to a tub of the case, and its angle and depth are read with their units', () => {
  const placed = (angle: string) => ({
    ...smallCase(),
    tubs: [{ tub: 'wide', notches: [{ angle, depth: '1 1/2 in' }] }],
  });
  const [tub] = sound(placed('-35 deg')).tubs;
  expect(tub!.notches).toHaveLength(1);
  expect(tub!.notches[0]!.angle).toBeCloseTo((-35 * Math.PI) / 180, 12);
  expect(tub!.notches[0]!.depth).toBeCloseTo(0.0381, 12);
  expect(lines(placed('-85 deg'))[0]).toMatch(/tubs\[0\]\.notches\[0\]\.angle: read "-85 deg"/);
});

test('tubs take their place from the case, each its own or the common one', () => {
  const tubs = ['snug', { tub: 'wide', centreForward: '1 in' }];
  const the = sound({ ...smallCase(), tubs, tubCentreForward: '-0.5 in' });
  expect(the.tubs.map(({ name, centreForward }) => [name, centreForward])).toEqual([
    ['snug', -0.0127],
    ['wide', 0.0254],
  ]);
});

test('heights are a ladder or a list, ascending, both ends in', () => {
  const heights = (written: unknown) =>
    sound({ ...smallCase(), heights: written }).heights?.map((h) => h / 0.0254);
  const ladder = heights({ from: '36 in', to: '40 in', step: '0.1 in' })!;
  expect(ladder).toHaveLength(41);
  expect(ladder[0]).toBeCloseTo(36, 10);
  expect(ladder.at(-1)).toBeCloseTo(40, 10);
  expect(heights(['40 in', '36 in', '40 in'])?.map((h) => Math.round(h))).toEqual([36, 40]);
  expect(heights(undefined)).toBeUndefined();
  expect(lines({ ...smallCase(), heights: { from: '40 in', to: '36 in', step: '1 in' } })[0]).toMatch(
    /from is above to$/,
  );
});

test('a tyre takes from the catalogue what the case does not say of it', () => {
  const entry = { tyre: 'radial', runsPerSeason: 12, rim: { backspacing: '5 in' }, deflection: '0.7 in' };
  const the = sound({ ...smallCase(), tyres: [...smallCase().tyres, entry] });
  const [slick, radial] = the.tyres;
  expect(slick).toMatchObject({ construction: 'bias', condition: 'run-in', label: 'slick, run-in' });
  expect(slick).not.toHaveProperty('rim');
  expect(slick).not.toHaveProperty('index');
  expect(radial?.rim).toEqual({ width: 11 * 0.0254, backspacing: 5 * 0.0254, flange: 0.5 * 0.0254 });
  expect(radial?.deflection).toBe(0.7 * 0.0254);
  expect(radial?.inputs.coldPressure).toMatchObject({
    source: 'catalogue',
    basis: 'tyres.csv:3; spread: common practice, no source',
    shown: 'normal, mean 18 psi, sd 0.4 psi, new every run',
  });
  expect(TYRES).toContain('radial,radial,29,18');
});

test('a heading that is wrong is told once, whatever stands below it', () => {
  const more = Array.from({ length: 17 }, (_, i) => `tub-${i},41,0.1,180,6,19,0.04,0.56`).join('\n');
  const of = (from: string, to: string) =>
    lines(smallCase(), { 'tubs.csv': (TUBS + more).replaceAll(from, to) });
  expect(of('inside_width_in', 'inside_with_in')).toEqual([
    'cars/tubs.csv:1:62  inside_with_in: read "inside_with_in"; there is no column of this name. Did you mean inside_width_in?',
  ]);
  expect(of('tub,', 'tubs,')).toEqual([
    'cars/tubs.csv:1:1  tubs: read "tubs"; there is no column of this name. Did you mean tub?',
  ]);
  expect(of(',liner_in', '')).toEqual([
    'cars/tubs.csv:1:1  the first line names 7 columns, every line below has 8 cells',
  ]);
  expect(of(',', ';')).toEqual([
    'cars/tubs.csv:1:1  its cells are parted by semicolons, not by commas. Save the sheet as CSV with commas, and with points before decimals',
  ]);
});

test('a shop’s own columns are carried along, and of a tub it is known whether it is there', () => {
  const stock = `tub,stock,inside_diameter_in,inside_width_in,supplier,note
wide,2,48.5,20,by the rail yard,
snug,no,41,19,,"dented, cheap"
new,soon,45,19,,
`;
  const result = read({ ...smallCase(), tubs: 'all' }, { 'tubs.csv': stock });
  if (!result.ok) throw new Error('refused');
  expect(result.value.tubs.map(({ name, listed, inStock }) => [name, listed, inStock])).toEqual([
    ['wide', { stock: '2', supplier: 'by the rail yard' }, true],
    ['snug', { stock: 'no', note: 'dented, cheap' }, false],
    ['new', { stock: 'soon' }, undefined],
  ]);
  expect(result.warnings.map(issueText)).toEqual([
    'cars/tubs.csv:4:5  warning: stock: read "soon"; stock is yes, no or a number of pieces; this counts as not said',
  ]);
});

test('a blank cell, or a column that is not there, is assumed and listed; what has no prior is asked for', () => {
  const tubs = 'tub,inside_diameter_in,inside_width_in,liner_in\nwide,48.5,20,\nsnug,41,19,0.1\n';
  const tyres = 'tyre,construction,free_diameter_in,rollout_in\nslick,bias,,102.1\nradial,radial,29,\n';
  const the = sound(
    { ...smallCase(), tyres: [{ tyre: 'slick', rim: { backspacing: '5 in' } }, { tyre: 'radial' }] },
    { 'tubs.csv': tubs, 'tyres.csv': tyres },
  );
  const [slick, radial] = the.tyres;
  for (const tyre of [slick!, radial!]) {
    for (const name of ['sectionWidth', 'treadWidth', 'mass'] as const) {
      expect(tyre.inputs[name].source, name).toBe('assumed');
      expect(tyre.inputs[name].law.kind, name).toBe('normal');
    }
    expect(tyre.inputs.stiffnessFactor.law).toMatchObject({ cov: 0.25 });
    expect(tyre.runsPerSeason).toBe(100);
  }
  expect(slick!.inputs.referenceRadius.source).toBe('catalogue');
  const assumed = the.assumed.map(({ path, shown }) => [path, shown]);
  expect(assumed).toEqual(
    expect.arrayContaining([
      ['tubs.csv:2 liner', '0.125 in'],
      ['tubs.csv:2 arcExtent', '180 deg'],
      ['tyres[0].rim.width', '13.26 in'],
      ['tyres[1].deflection', '0.76522 in'],
      ['tyres[1].referencePressure', '17 psi'],
      ['tyres[1].runsPerSeason', '100'],
    ]),
  );
  // Of tubs that nobody asked for nothing is assumed.
  expect(JSON.stringify(assumed)).not.toContain('tubs.csv:3');
  expect(lines(smallCase(), { 'tyres.csv': tyres.replace('102.1', '') })).toEqual([
    'cars/tyres.csv:2:12  free_diameter_in: nothing is written here',
    'cars/tyres.csv:2:13  rollout_in: nothing is written here',
  ]);
  expect(lines(smallCase(), { 'tubs.csv': tubs.replace('48.5,20', '48.5,') })).toEqual([
    'cars/tubs.csv:2:11  inside_width_in: nothing is written here',
  ]);
});

test('a tyre of which only size and construction are known can be reckoned with, whatever its size', () => {
  for (const construction of ['bias', 'radial']) {
    for (let diameter = 22; diameter <= 37; diameter += 1.5) {
      const tyres = `tyre,construction,free_diameter_in\nslick,${construction},${diameter}\n`;
      const tubs = 'tub,inside_diameter_in,inside_width_in\nwide,60,24\n';
      const pressure = construction === 'bias' ? '6 psi' : '17 psi';
      const the = { ...smallCase(), build: { tyre: 'slick', pressure } };
      expect(lines(the, { 'tyres.csv': tyres, 'tubs.csv': tubs }), `${construction} ${diameter}`).toEqual([]);
    }
  }
});
