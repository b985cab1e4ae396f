import { cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readTable } from '../written-table.ts';
import { ROOT, tubgap } from './command.ts';
import { holdDescribed } from './described.ts';
import { demoFolder } from './small-sweep.ts';

/**
 * What the columns of tables mean. Besides what is written here the tables of every end-to-end test that leaves some are
 * held the same way, when it ends: `holdDescribed`.
 */
let folder: string;
const FEW = ['--draws', '2048', '--seed', '3'];

beforeAll(() => {
  folder = demoFolder('columns');
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

const run = (...words: string[]): void => {
  const { code, err } = tubgap(folder, ...words);
  expect([words.join(' '), code === 0 || code === 3, err]).toEqual([words.join(' '), true, err]);
};

describe('every column of every table', () => {
  it('of a pick, sweep, comparison, place, year and draws is described beside it, and nothing else is', async () => {
    run('pick', 'demo/case.yaml', ...FEW);
    run('sweep', 'demo/case.yaml', ...FEW, '--vary', 'suspension.bumpTravel = 1.2, 1.6 in', '--seasons');
    run('compare', 'demo/case.yaml', ...FEW);
    run('compare', 'demo/case.yaml', ...FEW, '--set', 'run.trapSpeed=232 mph', '--name', 'two');
    run('place', 'demo/case.yaml', ...FEW, '--units', 'metric');
    run('year', 'results/winged-door-car');
    run('draws', 'demo/case.yaml', '--draws', '2048');
    const places = readdirSync(join(folder, 'results'));
    expect(places).toHaveLength(6);
    expect(await holdDescribed(folder)).toBe(12 + 3 + 2 + 2 + 2 + 2 + 2);
    const [speed] = (await readTable(join(folder, 'results/winged-door-car-sweep/columns.csv'))).filter(
      ({ column }) => column === 'suspension_bumpTravel_in',
    );
    expect(speed).toMatchObject({ file: 'sweep.csv', unit: 'in', about: expect.stringContaining('varied') });
  });

  it('is missed where a table has one more than its dictionary, or one less', async () => {
    const place = mkdtempSync(join(tmpdir(), 'tubgap-columns-'));
    const at = join(place, 'results');
    mkdirSync(at);
    cpSync(join(folder, 'results/winged-door-car-compare'), at, { recursive: true });
    const file = join(at, 'classes.csv');
    const text = readFileSync(file, 'utf8');
    writeFileSync(file, text.replace(/^case,/, 'case,more,'));
    await expect(holdDescribed(place)).rejects.toThrow();
    writeFileSync(file, text.replace(/^case,/, ''));
    await expect(holdDescribed(place)).rejects.toThrow();
    rmSync(file);
    await expect(holdDescribed(place)).rejects.toThrow();
    rmSync(place, { recursive: true, force: true });
  });

  it('of answers to points is one of those of the draws, and of a run’s history in the guide', async () => {
    const place = join(folder, 'results/winged-door-car-draws');
    const described = new Set((await readTable(join(place, 'columns.csv'))).map(({ column }) => column!));
    writeFileSync(join(folder, 'points.csv'), 'tyre,run.trapSpeed_mph\ntall-slick,224\n');
    run('evaluate', 'demo/case.yaml', '--points', 'points.csv', '--to', 'answers.csv');
    const [answer] = await readTable(join(folder, 'answers.csv'));
    expect(Object.keys(answer!).filter((name) => !described.has(name))).toEqual(['row']);
    run('state', 'demo/case.yaml', '--history', 'run.csv');
    const [moment] = await readTable(join(folder, 'run.csv'));
    const guide = readFileSync(`${ROOT}apps/montecarlo/README.md`, 'utf8');
    const told = [...guide.matchAll(/^\| `([a-z_A-Z0-9]+)` \| ([^|]*) \| ([^|]+) \|$/gm)].map(
      ([, name]) => name,
    );
    expect(told).toEqual(['row', ...Object.keys(moment!)]);
  });

  it('has one name in the dictionary that a table really uses', () => {
    const names = ['pick', 'study', 'learned', 'book'].flatMap((part) =>
      [
        ...readFileSync(`${ROOT}packages/wording/src/columns/${part}.ts`, 'utf8').matchAll(
          /^ {2}(\w+): \[/gm,
        ),
      ].map(([, name]) => name!),
    );
    expect(names.length).toBeGreaterThan(150);
    expect(new Set(names).size).toBe(names.length);
    const sources = ['apps/reporter/src', 'apps/learner/src', 'packages/wording/src/table.ts'].flatMap(
      textsOf,
    );
    const used = new Set(sources.flatMap((text) => [...text.matchAll(/'(\w+)'/g)].map(([, name]) => name!)));
    expect(names.filter((name) => !used.has(name))).toEqual([]);
  });
});

/** Texts of the TypeScript below a place of the tree, or of one file. */
function textsOf(place: string): string[] {
  if (place.endsWith('.ts')) return [readFileSync(ROOT + place, 'utf8')];
  return readdirSync(ROOT + place, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && entry.name.endsWith('.ts'))
    .map((entry) => readFileSync(join(entry.parentPath, entry.name), 'utf8'));
}
