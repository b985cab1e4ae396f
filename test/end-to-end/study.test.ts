import { cpSync, existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';
import { parseString } from 'fast-csv';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { DEMO, type Finished, tubgap } from './command.ts';
import { holdDescribed } from './described.ts';
import { startApp } from './small-sweep.ts';

const SMALL = ['--draws', '8192', '--seed', '3'];
const SPEED = 'run.trapSpeed = 216 mph to 232 mph by 16 mph';
const PRESSURE = 'tyres[tall-slick].coldPressure = 5, 7 psi';
let folder: string;

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'tubgap-study-'));
  cpSync(DEMO, join(folder, 'demo'), { recursive: true });
  const place = join(folder, 'demo', 'case.yaml');
  const text = readFileSync(place, 'utf8').replace('tubs: all', 'tubs: [short-39, street-42, middle-44]');
  writeFileSync(place, text);
});

afterAll(async () => {
  await holdDescribed(folder);
  rmSync(folder, { recursive: true, force: true });
});

const run = (...words: string[]): Finished => tubgap(folder, ...words);
const sweep = (...words: string[]): Finished => run('sweep', 'demo/case.yaml', ...words, ...SMALL);

type Row = Record<string, string>;
const table = (...place: string[]): Promise<Row[]> =>
  new Promise((resolve, reject) => {
    const rows: Row[] = [];
    parseString(readFileSync(join(folder, ...place), 'utf8'), { headers: true })
      .on('data', (row: Row) => rows.push(row))
      .on('error', reject)
      .on('end', () => resolve(rows));
  });
const filesOf = (...place: string[]): Record<string, string> =>
  Object.fromEntries(
    readdirSync(join(folder, ...place), { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile())
      .map((entry) => [
        entry.parentPath === join(folder, ...place)
          ? entry.name
          : `${basename(entry.parentPath)}/${entry.name}`,
        readFileSync(join(entry.parentPath, entry.name), 'utf8'),
      ]),
  );

describe('tubgap sweep', () => {
  it('gives the same bytes with 1 and 2 workers and from its own sweep file, and every point in one tidy table', async () => {
    const words = ['--vary', SPEED, '--vary', PRESSURE, '--vary', 'tub = street-42'];
    const one = sweep(...words, '--workers', '1', '--results', 'one');
    const two = sweep(...words, '--workers', '2', '--results', 'two');
    expect([one.code, two.code]).toEqual([0, 0]);
    const files = filesOf('one', 'winged-door-car-sweep');
    expect(filesOf('two', 'winged-door-car-sweep')).toEqual(files);
    expect(Object.keys(files).toSorted()).toEqual([
      'READ-ME.txt',
      'case/case.yaml',
      'case/tubs.csv',
      'case/tyres.csv',
      'columns.csv',
      'study.json',
      'summary.csv',
      'sweep-grid-height.svg',
      'sweep-grid-risk.svg',
      'sweep-run_trapSpeed.svg',
      'sweep-tyres_tall_slick_coldPressure.svg',
      'sweep.csv',
      'sweep.yaml',
      'written.json',
    ]);
    const again = tubgap(
      join(folder, 'one', 'winged-door-car-sweep'),
      ...['sweep', 'case/case.yaml', '--file', 'sweep.yaml', ...SMALL, '--results', join(folder, 'again')],
    );
    expect(again.code).toBe(0);
    expect(files['READ-ME.txt']).toContain(
      'tubgap sweep case/case.yaml --file sweep.yaml --draws 8192 --seed 3',
    );
    expect(filesOf('again', 'winged-door-car-sweep')).toEqual(files);

    const rows = await table('one', 'winged-door-car-sweep', 'sweep.csv');
    // 2 x 2 points and the case as it stands, 2 tyres and all together, 1 tub.
    expect(rows).toHaveLength((2 * 2 + 1) * 3);
    const whole = rows.filter(({ tyre, tub }) => tyre === 'any' && tub === 'street-42');
    const at = (mph: string, psi: string): Row =>
      whole.find((row) => row.run_trapSpeed_mph === mph && row.tyres_tall_slick_coldPressure_psi === psi)!;
    expect(whole[0]).toMatchObject({
      as_in_case: 'yes',
      run_trapSpeed_mph: '224',
      height_change_in: '0.0000',
    });
    for (const psi of ['5', '7']) {
      const [slow, fast] = [at('216', psi), at('232', psi)];
      expect(Number(fast.even_height_in)).toBeGreaterThan(Number(slow.even_height_in));
      expect(Number(fast.run_risk)).toBeGreaterThan(Number(slow.run_risk));
    }
    expect(Number(at('232', '5').height_change_low_in)).toBeGreaterThan(0);
    expect(Number(at('216', '7').height_change_high_in)).toBeLessThan(0);
    const difference = Number(at('232', '5').run_risk) - Number(whole[0]!.run_risk);
    expect(Number(at('232', '5').run_risk_change) / difference).toBeCloseTo(1, 2);

    const summary = await table('one', 'winged-door-car-sweep', 'summary.csv');
    expect(summary).toHaveLength(2 * (2 * 2));
    expect(one.out).toMatch(
      /MOVES IT\s+(speed at the finish|cold pressure, tall-slick): from .* \(.*\)\s+to .* \(.*\)/,
    );
    expect(one.out).toContain('class-radial has a speed at the finish of its own');
    expect(one.out).toMatch(/Build\s+by tubgap pick/);
  });

  it('varies one input at a time, reads heights and tyres off the same runs, and keeps the spread of what it moves', async () => {
    const done = sweep(
      ...['--vary', 'run.trapSpeed = 224 mph, 340 mph', '--vary', PRESSURE, '--mode', 'one-at-a-time'],
      ...[
        '--vary',
        'topHeight = 38 in to 40 in by 1 in',
        '--vary',
        'tyre = tall-slick',
        '--vary',
        'suspension.bumpTravel = { law: constant, value: 1.4 in, each: car }',
        '--results',
        'alone',
      ],
    );
    expect(done.code).toBe(0);
    const rows = await table('alone', 'winged-door-car-sweep', 'sweep.csv');
    expect(new Set(rows.map(({ tyre }) => tyre))).toEqual(new Set(['tall-slick', 'any']));
    expect(new Set(rows.map(({ point }) => point)).size).toBe(1 + 2 + 2 + 1);
    const slick = rows.filter(({ tyre, tub }) => tyre === 'tall-slick' && tub === 'street-42');
    // 224 mph is the case's own middle: with its spread kept, nothing differs.
    for (const row of slick.filter(({ point }) => point === '1')) {
      expect(row).toMatchObject({ height_change_in: '0.0000', run_risk_change: '0' });
    }
    const risks = slick
      .filter(({ point }) => point === '0')
      .map((row) => [row.at_height_in, Number(row.run_risk)]);
    expect(risks.map(([height]) => height)).toEqual(
      expect.arrayContaining(['38.0000', '39.0000', '40.0000']),
    );
    expect(risks.map(([, risk]) => risk)).toEqual(
      risks.map(([, risk]) => risk).toSorted((a, b) => Number(b) - Number(a)),
    );
    expect(done.out).toMatch(/The case as it stands in street-42:[\s\S]*40 in/);
    // One value has no range: it is told against the case.
    expect(done.out.replace(/\s+/g, ' ')).toMatch(
      /free bump travel to the stop: [\d /]+ in less \(exactly 1\.4 in\)/,
    );
    expect(done.out).toMatch(
      /speed at the finish 340 mph:\s+tall-slick: The\s+launch acceleration cannot reach/,
    );
  });

  it('answers what it cannot run with the place, what was read and what to do, and writes nothing', async () => {
    writeFileSync(
      join(folder, 'bad.yaml'),
      'mode: grid\nsweep:\n  - { vary: run.trapSpeed, from: 200 mph, to: 240 mph }\n',
    );
    writeFileSync(join(folder, 'word.yaml'), 'mode: all\nsweep:\n  - run.trapSpeed = 200 mph, 210 mph\n');
    const vary = (words: string): string[] => ['--vary', words];
    const cases: [string[], RegExp][] = [
      [[], /Nothing to vary was named/],
      [
        vary('run.trapspeed = 200 mph, 210 mph'),
        /--vary run\.trapspeed .*no field of this name.*Did you mean trapSpeed/,
      ],
      [vary('tyres[slick].coldPressure = 5 psi, 6 psi'), /no entry slick; it has tall-slick or class-radial/],
      [vary('run.trapSpeed = 200 mph to 240 km/h by 10 mph'), /"from" is in mph, "to" in km\/h/],
      [vary('run.trapSpeed = 200 to 240 by 10'), /read "200"; the unit is missing: write 200 mph/],
      [vary('run.trapSpeed = 200 mph to 205 mph by 10 mph'), /the step of 10 mph is longer than the range/],
      [
        vary('tyres[0].coldPressure = 50 psi, 60 psi'),
        /cold pressure must be 3 psi to 15 psi.*Did you mean 5 psi/,
      ],
      [vary('tub = street-41'), /no tub "street-41"; it has short-39, street-42, middle-44/],
      [vary('topHeight = 39'), /a height above the track/],
      [[...vary(SPEED), ...vary(SPEED)], /varied twice/],
      [
        [
          ...vary('run.trapSpeed = 200 mph to 240 mph by 0.5 mph'),
          ...vary('tyres[0].coldPressure = 4 psi to 9 psi by 0.1 psi'),
        ],
        /81 x 51 values are 4,131 points; 1,000 are the most[\s\S]*about .* (minutes|hours)[\s\S]*one-at-a-time: 132 points/,
      ],
      [['--file', 'none.yaml'], /none\.yaml: cannot be read \(ENOENT\)/],
      [['--file', 'bad.yaml'], /bad\.yaml:3:5 .*needs from, to and by/],
      [['--file', 'word.yaml'], /word\.yaml:1:7 .*read "all"; allowed are grid, one at a time and points/],
    ];
    for (const [words, told] of cases) {
      const asked = ['sweep', 'demo/case.yaml', ...words, ...SMALL, '--results', 'nothing'];
      const done = await startApp(folder, asked).end;
      expect(done.err, words.join(' ')).toMatch(told);
      expect(done.err).not.toMatch(/\bat .*\.js:\d/);
      expect(done.code).toBe(2);
    }
    expect(cases).toHaveLength(14);
    expect(existsSync(join(folder, 'nothing'))).toBe(false);
  });
});

describe('tubgap compare', () => {
  it('says which tyre fits which tub at which height, what each adds, and the smallest common tub', async () => {
    const done = run('compare', 'demo/case.yaml', '--draws', '8192', '--cars', '128', '--results', 'classes');
    expect(done.code).toBe(0);
    const rows = await table('classes', 'winged-door-car-compare', 'classes.csv');
    expect(rows).toHaveLength(2 * 3);
    const [slick, radial] = rows.filter(({ tub }) => tub === 'street-42');
    // The taller tyre asks for all of the height, the smaller one adds nothing to it.
    expect(Number(slick!.adds_to_others_in)).toBeCloseTo(
      Number(slick!.run_top_height_in) - Number(radial!.run_top_height_in),
      3,
    );
    expect(Number(radial!.adds_to_others_in)).toBe(0);
    const [tooTall, fits] = rows.filter(({ tub }) => tub === 'short-39');
    // The slick clears the small tub only with the ends of its legs above the tyre's shoulders.
    expect(tooTall).toMatchObject({ fits: 'yes', tyre: 'tall-slick' });
    expect(Number(tooTall!.run_top_height_in)).toBeGreaterThan(48);
    expect(fits).toMatchObject({ fits: 'yes', tyre: 'class-radial' });
    expect(done.out).toMatch(/COMMON TUB\s+street-42/);
    expect(done.out).toMatch(/class-radial: short-39/);
    const files = filesOf('classes', 'winged-door-car-compare');
    const [, words] = /^ {2}tubgap (.*)$/m.exec(files['READ-ME.txt']!)!;
    expect(words).toBe('compare case/case.yaml --draws 8192 --cars 128 --seed 1');
    const repeated = [...words!.split(' '), '--results', join(folder, 'repeated')];
    expect(tubgap(join(folder, 'classes', 'winged-door-car-compare'), ...repeated).code).toBe(0);
    expect(filesOf('repeated', 'winged-door-car-compare')).toEqual(files);
  });

  it('finds no difference at all between a case and itself, and tells a stiffer stop from nothing', async () => {
    const same = run(
      'compare',
      'demo/case.yaml',
      '--against',
      'demo/case.yaml',
      ...SMALL,
      '--results',
      'same',
    );
    expect(same.code).toBe(0);
    expect(same.out).toContain('the same risk');
    for (const row of await table('same', 'winged-door-car-compare', 'setups.csv')) {
      expect(['', '0.0000']).toContain(row.height_change_in);
      expect(['', '0.0000']).toContain(row.height_change_high_in);
      expect(['', '0']).toContain(row.run_risk_change_low);
    }
    const other = run(
      'compare',
      'demo/case.yaml',
      '--set',
      'suspension.bumpTravel=~1.4 in',
      // Fewer runs leave too much open of what no centre leads to.
      ...['--draws', '65536', '--seed', '3'],
      '--results',
      'other',
    );
    const rows = await table('other', 'winged-door-car-compare', 'setups.csv');
    const b = rows.find((row) => row.setup === 'B' && row.tyre === 'any' && row.tub === 'street-42')!;
    expect(Number(b.height_change_high_in)).toBeLessThan(-0.25);
    expect(Number(b.run_risk_change_high)).toBeLessThan(0);
    expect(other.out).toMatch(/against A: .* in less/);
    expect(other.out).toMatch(/fewer of [\d,]+ runs come too close/);
  });

  it('sets both ends of an input and of the wheelbase beside the case; the tub stays on the body', async () => {
    const done = run(
      ...['compare', 'demo/case.yaml', '--ends', 'tyres[1].coldPressure = 15 psi, 19 psi'],
      ...['--wheelbase', '107.5 in, 108.5 in', ...SMALL, '--results', 'ends'],
    );
    expect(done.code).toBe(0);
    const rows = await table('ends', 'winged-door-car-compare', 'setups.csv');
    expect([...new Set(rows.map(({ what }) => what))]).toEqual([
      'the case as it stands',
      'cold pressure, class-radial 15 psi',
      'cold pressure, class-radial 19 psi',
      'wheelbase 107.5 in',
      'wheelbase 108.5 in',
    ]);
    const height = (setup: string): number =>
      Number(
        rows.find((row) => row.setup === setup && row.tyre === 'tall-slick' && row.tub === 'middle-44')!
          .even_height_in,
      );
    // The axle half an inch back puts the tub half an inch ahead of it, nearer to its best place; and the other way round.
    expect(height('D')).toBeGreaterThan(height('A') + 0.05);
    expect(height('E')).toBeLessThan(height('D') - 0.05);
    const bad = run('compare', 'demo/case.yaml', '--ends', 'run.trapSpeed = 200 mph', '--results', 'bad');
    expect(bad.code).toBe(2);
    expect(bad.err).toMatch(/has 1 values; write the two ends/);
  });
});

describe('tubgap place', () => {
  it('names the best place of every tub, what an inch off costs, and what decides it', async () => {
    const done = run('place', 'demo/case.yaml', ...SMALL, '--results', 'place');
    expect(done.code).toBe(0);
    const rows = (await table('place', 'winged-door-car-place', 'place.csv')).filter(
      ({ tyre }) => tyre === 'any',
    );
    const of = (tub: string, place: string): Row =>
      rows.find((row) => row.tub === tub && row.place === place)!;
    expect(of('short-39', 'best').decided_by).toBe('leg');
    expect(Number(of('short-39', 'best').run_top_height_in)).toBeGreaterThan(48);
    // Seven at first, and six beside the best of them: there a leg decides.
    expect(rows.filter((row) => row.tub === 'short-39' && row.place === 'searched')).toHaveLength(13);
    for (const tub of ['middle-44']) {
      expect(Number(of(tub, 'an inch behind the best').above_best_in)).toBeGreaterThan(0);
      expect(Number(of(tub, 'an inch ahead of the best').above_best_in)).toBeGreaterThan(0);
    }
    expect(readFileSync(join(folder, 'place', 'winged-door-car-place', 'place.svg'), 'utf8')).toContain(
      '<svg',
    );
    expect(done.out).toMatch(/BEST PLACE\s+street-42 .*: centre .* ahead of the axle/);
  });
});

it('a hard point that no height clears is named, in words and in the table', async () => {
  const file = join(folder, 'demo', 'barred.yaml');
  const text = readFileSync(join(folder, 'demo', 'case.yaml'), 'utf8');
  writeFileSync(file, text.replace('ahead: 19 in, above: 19.5 in', 'ahead: 12 in, above: 13.5 in'));
  const done = run(
    'sweep',
    'demo/barred.yaml',
    '--vary',
    'run.trapSpeed = 220 mph',
    '--draws',
    '2048',
    '--results',
    'barred',
  );
  expect(done.out.replace(/\s+/g, ' ')).toContain(
    'the hard point cage bar is in the way, which no height helps',
  );
  const rows = await table('barred', 'winged-door-car-sweep', 'sweep.csv');
  expect(rows.filter(({ decided_by }) => decided_by === 'cage bar').length).toBeGreaterThan(0);
});
