import { INCH } from '@tubgap/units';
import { expect, test } from 'vitest';
import { lines, smallCase, sound, TYRES } from './small-case.ts';

const named = (tyre: string, rest: object = {}, pressure = '16 psi') => ({
  ...smallCase(),
  build: { tyre, pressure },
  tyres: [{ tyre, ...rest }],
});

test('a size as printed stands in for a row of the catalogue, and is listed as assumed', () => {
  const the = sound(named('315/60R15', { construction: 'radial' }));
  const { inputs, construction, name } = the.tyres[0]!;
  expect([name, construction]).toEqual(['315/60R15', 'radial']);
  // By the regulation's tolerances: 381 mm + 2 · 189 mm · 0.97 and 1.04; a section of 315 mm.
  expect(inputs.referenceRadius).toMatchObject({ source: 'assumed', law: { kind: 'uniform', low: 0.37383 } });
  expect((inputs.referenceRadius.law as { high: number }).high).toBeCloseTo(0.38706, 9);
  expect(inputs.sectionWidth.law).toMatchObject({ low: 0.315 * 0.95, high: 0.315 * 1.05 });
  for (const input of ['referenceRadius', 'sectionWidth', 'treadWidth', 'mass'] as const) {
    expect(inputs[input].source, input).toBe('assumed');
  }
  expect(inputs.referenceRadius.basis).toMatch(/the size printed on the tyre/);
  const taped = sound(named('315/60R15', { construction: 'radial', rollout: '94.2 in' }));
  expect(taped.tyres[0]!.inputs.referenceRadius).toMatchObject({ source: 'case' });
});

test('a row that is named by its size may leave blank what that tells, or have no column for it', () => {
  const bare = 'tyre,construction\n315/60R15,radial\n28.0 x 10.5,bias\n';
  const { tyres } = sound(named('28.0x10.5', {}, '7 psi'), { 'tyres.csv': bare });
  expect(tyres[0]!.construction).toBe('bias');
  expect(tyres[0]!.inputs.referenceRadius.law).toMatchObject({ low: 0.985 * 14 * INCH });
  const blank = 'tyre,construction,free_diameter_in\n315/60R15,radial,\nslick,bias,\n';
  expect(lines(smallCase(), { 'tyres.csv': blank })).toEqual([
    'cars/tyres.csv:3:12  free_diameter_in: nothing is written here',
  ]);
  const measured = sound(named('315/60R15'), {
    'tyres.csv': blank.replace('15,radial,', '15,radial,29.8').replace('bias,', 'bias,32'),
  });
  expect(measured.tyres[0]!.inputs.referenceRadius).toMatchObject({ source: 'catalogue' });
  expect(measured.tyres[0]!.inputs.sectionWidth).toMatchObject({ law: { kind: 'uniform' } });
});

test('a case whose tyres are all sizes as printed names no catalogue of tyres', () => {
  const without = (tyre: string, rest: object) => ({
    ...named(tyre, rest),
    catalogues: { tubs: 'tubs.csv' },
  });
  const radial = { construction: 'radial' };
  const [own, beside] = [without('315/60R15', radial), named('315/60R15', radial)].map((one) => sound(one));
  const lawsOf = (one: typeof own) =>
    Object.values(one!.tyres[0]!.inputs).map(({ law, source }) => [law, source]);
  expect(lawsOf(own)).toEqual(lawsOf(beside));
  expect(lines(without('315/60R15', {}))).toEqual([
    expect.stringMatching(/tyres\[0\]\.tyre: read "315\/60R15"; a size does not tell how the tyre is built/),
  ]);
  expect(lines(without('slick', {}))).toEqual([
    expect.stringMatching(
      /read "slick"; the case names no catalogue of tyres.*Write the size, as 33\.5x17\.0-16/,
    ),
  ]);
  expect(lines({ ...named('slick'), catalogues: {} })[0]).toMatch(/catalogues\.tubs/);
});

test('a size without a construction, and one that no tyre has, are told', () => {
  expect(lines(named('315/60R15'))).toEqual([
    expect.stringMatching(
      /tyres\[0\]\.tyre: read "315\/60R15"; the catalogue has no row of this size.*Write construction: bias/,
    ),
  ]);
  expect(lines(named('455/100R26', { construction: 'radial' }))).toEqual([
    expect.stringMatching(/the diameter is 61\.827 in; allowed are 16 to 44 in/),
  ]);
  const radial = { ...smallCase(), tyres: [{ tyre: 'slick', construction: 'radial' }] };
  expect(lines(radial, { 'tyres.csv': TYRES })).toEqual([
    expect.stringMatching(/tyres\[0\]\.construction: read "radial"; the catalogue has slick as bias/),
  ]);
});
