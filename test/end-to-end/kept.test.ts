import { execFileSync, spawn, spawnSync } from 'node:child_process';
import {
  cpSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { hostname } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { DEMO, type Finished, FRONT_DOOR, tubgap } from './command.ts';
import { demoFolder, filesBelow, NAME, SWEEP, startApp, until } from './small-sweep.ts';

const CAR = 'winged-door-car';
const CASE = 'demo/case.yaml';
const QUICK = ['--draws', '2048', '--cars', '80', '--seed', '3'];
const MEASURED = ['--measured', 'measured'];
const VARY = ['--vary', 'run.trapSpeed = 216 mph, 228 mph'];
const PLAN = ['--tub', 'street-42', '--tyre', 'tall-slick', '--height', '39 1/4 in'];

let folder: string;
const inFolder = (...names: string[]): string => join(folder, ...names);
const run = (...words: string[]): Finished => tubgap(folder, ...words);

beforeAll(() => {
  folder = demoFolder('kept');
  cpSync(join(DEMO, '../demo-measurements'), inFolder('measured'), { recursive: true });
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Every verb that writes a folder of its own, with the ending of that folder. */
const VERBS = [
  ['pick', '', []],
  ['learn', '-learned', MEASURED],
  ['plan', '-first-test', PLAN],
  ['sweep', '-sweep', VARY],
  ['compare', '-compare', []],
  ['place', '-place', []],
  ['optimise', '-optimise', ['--over', 'tubCentreForward = 0..1 in']],
] as const;

describe('a folder that somebody keeps under the name of the results', () => {
  it.each(VERBS)(
    'is refused by %s before anything runs, with what stands there, and stays as it is',
    (verb, ending, words) => {
      const place = inFolder('shop', CAR + ending);
      cpSync(inFolder('demo'), place, { recursive: true });
      writeFileSync(join(place, 'notes.txt'), 'the left door rubs');
      const before = filesBelow(inFolder('shop'));
      const done = run(verb, join('shop', CAR + ending, 'case.yaml'), ...words, '--results', 'shop');
      expect(done.err).toMatch(
        /holds .*notes\.txt.*; this program did not write it, and it would be lost\. Move it/,
      );
      expect([done.code, done.out]).toEqual([2, '']);
      expect(filesBelow(inFolder('shop'))).toEqual(before);
      expect(readdirSync(inFolder('shop')).filter((name) => name.startsWith('.'))).toEqual([]);
    },
  );

  it('is not written into by show, which takes no file but a page of its own', () => {
    const place = inFolder('shown', CAR);
    cpSync(inFolder('demo'), place, { recursive: true });
    const before = filesBelow(place);
    const beside = run('show', CASE, '--no-open', '--results', 'shown');
    expect(beside.out).toContain(`shown/${CAR}-at-the-car.html`);
    expect(filesBelow(place)).toEqual(before);
    expect(run('show', CASE, '--no-open', '--out', `shown/${CAR}-at-the-car.html`).code).toBe(0);
    const over = run('show', CASE, '--no-open', '--out', `shown/${CAR}/case.yaml`);
    expect(over.err).toMatch(/is no page that this program has written, and would be lost\. Name another/);
    expect(over.code).toBe(2);
    expect(filesBelow(place)).toEqual(before);
  });

  it('a place that can hold no folder ends every verb at once, in words', () => {
    for (const [verb, , words] of VERBS) {
      const { code, err } = run(verb, CASE, ...words, '--results', '/proc/tubgap');
      expect(err).toMatch(/^\/proc\/tubgap: cannot be written to \(.*\)\. .*choose another folder/);
      expect(code).toBe(2);
    }
    expect(run('sweep', CASE, ...VARY, '--results', '/proc/tubgap', '--shard', '1/3').code).toBe(2);
    expect(run('show', CASE, '--no-open', '--out', '/proc/tubgap/page.html').err).toMatch(
      /could not be written/,
    );
  });
});

describe('the results of a pick', () => {
  /** With a blank before it and a folder of that name without: what is printed must not come from there. */
  const RESULTS = ' shop results';
  const place = (...names: string[]): string => inFolder(RESULTS, CAR, ...names);
  const sheet = (): string => readFileSync(place('check-sheet.csv'), 'utf8');
  const filled = (): string => sheet().replaceAll(/,$/gm, ',6.125');
  let mine: string;

  beforeAll(() => {
    mkdirSync(inFolder(RESULTS.trim(), CAR), { recursive: true });
    const picked = run('pick', CASE, ...QUICK, '--results', RESULTS);
    expect(picked.out).toContain('BUILD');
    expect(picked.err).toBe('');
    expect(readdirSync(inFolder(RESULTS.trim(), CAR))).toEqual([]);
    mine = filled();
    expect(mine).not.toBe(sheet());
  });

  it('keep a filled check sheet through report and the same pick, and put it aside where its blank is another', async () => {
    writeFileSync(place('check-sheet.csv'), mine);
    for (const words of [
      ['report', join(RESULTS, CAR)],
      ['pick', CASE, ...QUICK, '--results', RESULTS],
    ]) {
      const done = run(...words);
      expect(done.err).toMatch(
        /changed since this program wrote it, and left as it is: check-sheet\.csv\.\n$/,
      );
      expect(sheet()).toBe(mine);
    }
    const other = run('pick', CASE, ...QUICK, '--set', 'run.trapSpeed=~150 mph', '--results', RESULTS);
    expect(other.err).toContain(
      '(tubgap pick case/case.yaml --draws 2048 --cars 80 --seed 3), which gives way',
    );
    expect(other.err).toMatch(/check-sheet\.csv was changed .* is kept as check-sheet\.changed\.csv/);
    expect(readFileSync(place('check-sheet.changed.csv'), 'utf8')).toBe(mine);
    expect(sheet()).not.toBe(mine);
    expect(sheet()).toMatch(/,$/m);
  });

  it('lie aside after a cut between the two renames, and come back for report, year, show and revision', () => {
    const whole = filesBelow(place());
    for (const words of [
      ['report', join(RESULTS, CAR)],
      ['year', join(RESULTS, CAR), '--to', '.'],
      ['show', join(RESULTS, CAR), '--no-open'],
      ['revision', join(RESULTS, CAR), join(RESULTS, CAR)],
    ]) {
      renameSync(place(), inFolder(RESULTS, `.${CAR}.before`));
      const done = run(...words);
      expect([done.code, done.err]).toEqual([0, '']);
      expect(Object.keys(filesBelow(place()))).toEqual(Object.keys(whole));
      expect(readdirSync(inFolder(RESULTS))).toEqual([CAR]);
    }
  });

  it('are not written by report or show while another process writes them', () => {
    const lock = inFolder(RESULTS, `.${CAR}.lock`);
    mkdirSync(lock);
    writeFileSync(join(lock, 'holder'), JSON.stringify({ pid: process.pid, host: hostname(), began: '' }));
    const before = filesBelow(place());
    for (const words of [
      ['report', join(RESULTS, CAR)],
      ['show', join(RESULTS, CAR), '--no-open'],
    ]) {
      const done = run(...words);
      expect(done.err).toMatch(/another run is writing it \(process \d+ on .*\)\. Wait for it/);
      expect(done.code).toBe(2);
    }
    expect(filesBelow(place())).toEqual(before);
    rmSync(lock, { recursive: true });
  });

  it('an overview of cars keeps what somebody wrote into the one before', () => {
    const words = ['year', join(RESULTS, CAR), '--to', '.'];
    expect(run(...words).err).toBe('');
    writeFileSync(inFolder('shop-year.csv'), 'remarks by hand');
    expect(run(...words).err).toMatch(/left as it is: shop-year\.csv/);
    expect(readFileSync(inFolder('shop-year.csv'), 'utf8')).toBe('remarks by hand');
  });
});

it('parts of a pick that was cut stay while another one of that case runs, and are told', async () => {
  const parts = (): string[] => {
    const all = inFolder('cut', `.${CAR}.parts`);
    return existsSync(all) ? Object.keys(filesBelow(all)).filter((name) => !name.includes('writing')) : [];
  };
  const words = ['pick', CASE, '--draws', '16384', '--cars', '32', '--workers', '1', '--results', 'cut'];
  const first = startApp(folder, words);
  await until('some finished parts', () => parts().length > 2);
  first.child.kill('SIGTERM');
  await first.end;
  const kept = parts();
  const other = startApp(folder, [...words, '--seed', '9']);
  await until('parts of the other', () => parts().length > kept.length);
  other.child.kill('SIGTERM');
  expect((await other.end).err).toMatch(
    /^Finished parts of another run of this case stay for it; remove them/,
  );
  expect(parts()).toEqual(expect.arrayContaining(kept));
});

it.each([
  ['learn', '-learned', MEASURED],
  ['plan', '-first-test', []],
])('of two runs of %s that write the same results one is refused at once', async (verb, ending, words) => {
  const all = [verb, CASE, ...words, '--results', 'twice'];
  const first = spawn(process.execPath, [FRONT_DOOR, ...all], { cwd: folder });
  const end = new Promise((resolve) => first.on('close', resolve));
  await until('the hold', () => existsSync(inFolder('twice', `.${CAR}${ending}.lock`)));
  const second = run(...all);
  first.kill('SIGTERM');
  expect(second.err).toMatch(/another run is writing it/);
  expect(second.code).toBe(2);
  expect(await end).toBe(143);
  expect(existsSync(inFolder('twice'))).toBe(false);
});

it('a sweep runs where no file can be linked, in one go and in shards, and tells that it replaces another', async () => {
  const noLinks = `data:text/javascript,${encodeURIComponent(
    'import fs from "node:fs"; import { syncBuiltinESMExports } from "node:module";' +
      'fs.linkSync = () => { throw Object.assign(new Error("EPERM: no links"), { code: "EPERM" }); };' +
      'syncBuiltinESMExports();',
  )}`;
  const env = { NODE_OPTIONS: `--import ${noLinks}` };
  const words = [...SWEEP, '--results', 'fat'];
  const one = await startApp(folder, words, env).end;
  expect([one.code, one.err]).toEqual([0, expect.not.stringContaining('failed')]);
  const before = filesBelow(inFolder('fat', NAME));
  const two = await startApp(folder, [...words, '--shards', '4'], env).end;
  expect(two.err).toMatch(/holds a sweep from before \(tubgap sweep case\/case\.yaml .*\), which gives way/);
  expect(two.code).toBe(0);
  expect(filesBelow(inFolder('fat', NAME))).toEqual(before);
  expect(readdirSync(inFolder('fat'))).toEqual([NAME]);
});

it('an old file that cannot be deleted is told, and the new results stand', ({ skip }) => {
  const words = ['plan', CASE, ...PLAN, '--results', 'hard'];
  const place = `${CAR}-first-test`;
  expect(run(...words).code).toBe(0);
  const old = inFolder('hard', place, 'first-test.csv');
  if (spawnSync('chattr', ['+i', old]).status !== 0) {
    process.stderr.write('\nSKIPPED: no file can be made undeletable here.\n\n');
    return skip();
  }
  try {
    for (const height of ['39 1/2 in', '39 3/4 in']) {
      const done = run(...words, '--height', height);
      expect(done.err).toMatch(/\.before: the results from before could not be taken away: first-test\.csv/);
      expect(done.code).toBe(0);
      expect(readFileSync(inFolder('hard', place, 'first-test.html'), 'utf8')).toContain(height.slice(0, 2));
    }
  } finally {
    execFileSync('chattr', ['-i', inFolder('hard', `.${place}.before`, 'first-test.csv')]);
  }
});
