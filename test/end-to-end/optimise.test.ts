import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseString } from 'fast-csv';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { DEMO, type Finished, tubgap } from './command.ts';

const SMALL = ['--draws', '16384', '--cars', '128', '--seed', '3'];
const RISKS = ['--set', 'accept.runRisk=1 in 200', '--set', 'accept.seasonRisk=40 %'];
const CENTRE = 'tubCentreForward = 0 in to 1 in by 1/4 in';
const PRESSURE = 'tyres[*].coldPressure = +0..+2 psi by 1 psi';
let folder: string;

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'tubgap-optimise-'));
  cpSync(DEMO, join(folder, 'demo'), { recursive: true });
  const place = join(folder, 'demo', 'case.yaml');
  const text = readFileSync(place, 'utf8').replace('tubs: all', 'tubs: [street-42, middle-44]');
  writeFileSync(place, text);
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

const run = (...words: string[]): Finished => tubgap(folder, ...words);
const optimise = (...words: string[]): Finished =>
  run('optimise', 'demo/case.yaml', ...words, ...SMALL, ...RISKS);

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
        join(entry.parentPath, entry.name).slice(join(folder, ...place).length),
        readFileSync(join(entry.parentPath, entry.name), 'utf8'),
      ]),
  );

describe('tubgap optimise', () => {
  it('gives the same bytes with 1 and 2 workers and by its own command, and the figure of a pick with these values', async () => {
    const words = ['--over', CENTRE, '--over', PRESSURE, '--tub', 'street-42'];
    const one = optimise(...words, '--workers', '1', '--results', 'one');
    const two = optimise(...words, '--workers', '2', '--results', 'two');
    expect([one.code, two.code]).toEqual([0, 0]);
    const files = filesOf('one', 'winged-door-car-optimise');
    expect(filesOf('two', 'winged-door-car-optimise')).toEqual(files);
    const command = /tubgap (optimise case\/case\.yaml .*)/.exec(files['/READ-ME.txt']!)![1]!;
    const again = [...command.matchAll(/"((?:[^"\\]|\\.)*)"|(\S+)/g)].map(
      ([, quoted, bare]) => quoted ?? bare!,
    );
    const repeated = tubgap(
      join(folder, 'one', 'winged-door-car-optimise'),
      ...again,
      ...['--results', join(folder, 'again')],
    );
    expect(repeated.code).toBe(0);
    expect(filesOf('again', 'winged-door-car-optimise')).toEqual(files);

    const rows = await table('one', 'winged-door-car-optimise', 'optimum.csv');
    const best = rows.find(({ place, tyre }) => place === '0' && tyre === 'any')!;
    expect(best).toMatchObject({ stands: 'best', drawn_by: 'judged', tyres_coldPressure_psi: '2' });
    const picked = run(
      ...['pick', 'demo/case.yaml', ...SMALL, ...RISKS, '--json', '--results', 'picked'],
      ...['--set', `tubCentreForward=${best.tubCentreForward_in} in`],
      ...['--set', 'tyres[0].coldPressure=~8 psi', '--set', 'tyres[1].coldPressure=~19 psi'],
    );
    const { picks } = JSON.parse(picked.out) as {
      picks: { tub: string; height: { topHeight: number; runRisk: unknown; seasonRisk: unknown } }[];
    };
    const { height } = picks.find(({ tub }) => tub === 'street-42')!;
    const study = JSON.parse(files['/study.json']!) as {
      best: { topHeight: number; runRisk: unknown; seasonRisk: unknown };
    };
    expect(study.best).toMatchObject({
      topHeight: height.topHeight,
      runRisk: height.runRisk,
      seasonRisk: height.seasonRisk,
    });
    expect(one.out.replace(/\s+/g, ' ')).toMatch(
      /LOWEST TOP street-42 .*: top at least .* WITH tub's centre ahead of the axle \S+.* in and change of cold pressure, every tyre \+2 psi HELD BY the end of its range holds change of cold pressure, every tyre \+2 psi/,
    );
    expect(one.out).toMatch(/\+3 psi\s+would\s+need/);
  });

  it('finds the least of the grid that a sweep goes through', async () => {
    const swept = run(
      ...['sweep', 'demo/case.yaml', '--draws', '16384', '--seed', '3', ...RISKS, '--results', 'swept'],
      ...['--vary', 'tubCentreForward = 0 in to 1 in by 1/4 in', '--vary', PRESSURE.replace('..', ' to ')],
      ...['--vary', 'tub = street-42'],
    );
    expect(swept.code).toBe(0);
    const heights = (await table('swept', 'winged-door-car-sweep', 'sweep.csv'))
      .filter(({ tyre, as_in_case }) => tyre === 'any' && as_in_case === 'no')
      .toSorted((a, b) => Number(a.even_height_in) - Number(b.even_height_in));
    const best = (await table('one', 'winged-door-car-optimise', 'optimum.csv')).find(
      ({ place, tyre }) => place === '0' && tyre === 'any',
    )!;
    const same = heights.find(
      (row) =>
        row.tubCentreForward_in === best.tubCentreForward_in &&
        row.tyres_coldPressure_psi === best.tyres_coldPressure_psi,
    )!;
    // Other draws, and fewer on the way: within a 32nd of the least by the draws of the sweep.
    expect(Number(same.even_height_in) - Number(heights[0]!.even_height_in)).toBeLessThan(1 / 32);
  });

  it('names the smallest tub that will do and the highest speed, and refuses what cannot be looked over', () => {
    const tub = optimise(
      '--over',
      CENTRE,
      '--goal',
      'tub',
      '--height',
      '36 in',
      '--results',
      'none',
      '--json',
    );
    expect(JSON.parse(tub.out)).toMatchObject({ kind: 'optimum', goal: 'tub', does: false, chosen: null });
    const speed = optimise(
      ...['--over', 'tubCentreForward = 0.25..0.75 in by 0.25 in', '--goal', 'speed', '--tub', 'street-42'],
      ...['--height', '39 in', '--results', 'speed', '--json'],
    );
    const { limits } = JSON.parse(speed.out) as { limits: Record<'best' | 'own', { value: number | null }> };
    expect(limits.best.value!).toBeGreaterThanOrEqual(limits.own.value ?? 0);
    const refused = (...words: string[]): string => {
      const done = optimise(...words);
      expect(done.code, done.err).toBe(2);
      return done.err.replace(/\s+/g, ' ');
    };
    expect(refused()).toContain('Nothing to choose was named');
    expect(refused('--over', 'accept.runRisk = 1..2 %')).toContain('what is accepted is set in the case');
    expect(refused('--over', 'tyres[0].coldPressure = 6..900 psi')).toMatch(
      /coldPressure read "900 psi"; cold pressure must be 3 psi to 15 psi/,
    );
    expect(refused('--over', CENTRE, '--goal', 'speed')).toContain('needs the top height');
    expect(refused('--over', CENTRE, '--height', '39 in')).toContain('leave it out');
  });
});
