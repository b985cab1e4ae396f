import { existsSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { readTable } from '../written-table.ts';
import { type Finished, tubgap } from './command.ts';
import { holdDescribed } from './described.ts';
import { demoFolder, filesBelow, SWEEP } from './small-sweep.ts';

let folder: string;
beforeAll(() => {
  folder = demoFolder('repeats');
});
afterAll(async () => {
  await holdDescribed(folder);
  rmSync(folder, { recursive: true, force: true });
});

const run = (...words: string[]): Finished => tubgap(folder, ...words);
const found = (...place: string[]): Record<string, string> => filesBelow(join(folder, ...place));
/** The command that a folder's guide repeats it with. */
const guided = (...place: string[]): string[] => {
  const [, words] = /^ {2}tubgap (.*)$/m.exec(found(...place)['READ-ME.txt']!)!;
  return [...words!.matchAll(/"((?:[^"\\]|\\.)*)"|(\S+)/g)].map(([, quoted, bare]) => quoted ?? bare!);
};

it('a sweep of the build tyre under a name of its own moves all of the car’s heights, and its guide’s command makes its bytes again', async () => {
  // Where the axle's height was measured it stays; a pressure that both may be set up at.
  const file = join(folder, 'demo/car.yaml');
  const text = readFileSync(join(folder, 'demo/case.yaml'), 'utf8');
  writeFileSync(file, text.replace(/ {2}axleHeight: .*\n/, ''));
  const done = run(
    ...['sweep', 'demo/car.yaml', '--vary', 'build.tyre = tall-slick, class-radial', '--name', 'on-radials'],
    ...['--set', 'build.pressure=10 psi', '--draws', '2048', '--seed', '3', '--seasons'],
  );
  expect([done.code, done.err]).toEqual([0, expect.anything()]);
  const rows = (await readTable(join(folder, 'results/on-radials/sweep.csv'))).filter(
    ({ tyre }) => tyre === 'any',
  );
  expect(rows.map((row) => row.build_tyre)).toEqual(['as in the case', 'tall-slick', 'class-radial']);
  expect(rows[1]!.even_height_in).toBe(rows[0]!.even_height_in);
  // On a smaller tyre the axle stands lower when the tub is set, and the tub with it.
  expect(Number(rows[2]!.even_height_in)).toBeLessThan(Number(rows[0]!.even_height_in) - 1);
  expect(Number(rows[2]!.gap_at_0deg_in)).toBeGreaterThan(Number(rows[0]!.gap_at_0deg_in) + 1);
  const words = guided('results/on-radials');
  expect(words.slice(0, 4)).toEqual(['sweep', 'case/case.yaml', '--file', 'sweep.yaml']);
  const again = tubgap(join(folder, 'results/on-radials'), ...words, '--results', join(folder, 'again'));
  expect([again.code, again.err]).toEqual([0, expect.anything()]);
  expect(readdirSync(join(folder, 'again'))).toHaveLength(1);
  expect(found('again', readdirSync(join(folder, 'again'))[0]!)).toEqual(found('results/on-radials'));
});

it('shards under a name merge under it, or under another, to one run’s bytes; a name that is a path is none', () => {
  expect(run(...SWEEP, '--results', 'alone').code).toBe(0);
  for (const part of ['1/2', '2/2']) {
    expect(run(...SWEEP, '--results', 'named', '--name', 'first', '--shard', part).code).toBe(0);
  }
  expect(readdirSync(join(folder, 'named'))).toEqual(['first-shards']);
  expect(run('merge', 'named/first-shards').code).toBe(0);
  expect(run('merge', 'named/first-shards', '--name', 'second').code).toBe(0);
  expect(readdirSync(join(folder, 'named')).toSorted()).toEqual(['first', 'first-shards', 'second']);
  const [one] = readdirSync(join(folder, 'alone'));
  for (const name of ['first', 'second']) expect(found('named', name)).toEqual(found('alone', one!));
  for (const name of ['../out', 'a/b', '.hidden', '']) {
    const refused = run('merge', 'named/first-shards', '--name', name);
    expect([name, refused.code, refused.err]).toEqual([name, 2, expect.stringMatching(/--name/)]);
    expect(run(...SWEEP, '--name', name).code).toBe(2);
  }
  expect(existsSync(join(folder, 'results/out'))).toBe(false);
  expect(existsSync(join(folder, 'out'))).toBe(false);
});
