import { cpSync, existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, dirname, join } from 'node:path';
import { readResults } from '@tubgap/results';
import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest';
import { changedResult } from '../papers/paper-folder.ts';
import { DEMO, tubgap } from './command.ts';

interface Carried {
  file: string;
  files: Record<string, string>;
  start?: { tub: string; topHeight: number };
}

const carriedIn = (page: string): Carried =>
  JSON.parse(/id="carried">(.*)<\/script>/.exec(readFileSync(page, 'utf8'))![1]!) as Carried;

describe('the page beside results', () => {
  const demo = inject('demo');
  const name = basename(demo);
  const { picks, chosen } = readResults(demo);
  const pick = picks[chosen!]!;
  let folder: string;
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), 'tubgap-show-'));
    cpSync(DEMO, join(folder, 'demo'), { recursive: true });
    cpSync(demo, join(folder, 'results', name), { recursive: true });
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));
  const page = (): string => join(folder, 'results', name, 'at-the-car.html');

  it('is made of their own copy of the case when their folder is given, wherever the case has gone', () => {
    rmSync(page());
    expect(tubgap(folder, 'show', join('results', name), '--no-open')).toMatchObject({ code: 0, err: '' });
    const { file, files, start } = carriedIn(page());
    expect(files[file]).toBe(readFileSync(join(folder, 'results', name, 'case', 'case.yaml'), 'utf8'));
    expect(Object.keys(files).sort()).toEqual(['case.yaml', 'tubs.csv', 'tyres.csv']);
    expect(start).toMatchObject({ tub: pick.tub, topHeight: pick.height!.topHeight });
  });

  it('holds what was set for the run that made them, and what is set now before that', () => {
    const set = changedResult(demo, ({ case: made }) => {
      made.settings = [
        { path: 'run.trapSpeed', value: '~231 mph' },
        { path: 'build.reserve', value: '3/8 in' },
      ];
    });
    cpSync(join(demo, 'case'), join(set, 'case'), { recursive: true });
    const now = ['--set', 'build.reserve=5/16 in'];
    expect(tubgap(dirname(set), 'show', set, ...now, '--no-open').code).toBe(0);
    const { file, files } = carriedIn(join(set, 'at-the-car.html'));
    expect(files[file]).toContain('mean: 231 mph');
    expect(files[file]).toContain('reserve: 5/16 in');
  });

  it('stays when the case was edited since: the new page lies beside, and begins at no pick', () => {
    const before = readFileSync(page());
    const file = join(folder, 'demo', 'case.yaml');
    writeFileSync(file, readFileSync(file, 'utf8').replace(/mean: 224 mph/, 'mean: 236 mph'));
    const shown = tubgap(folder, 'show', 'demo/case.yaml', '--no-open');
    expect(shown.code).toBe(0);
    expect(shown.err).toMatch(/holds results of another state of this case/);
    expect(readFileSync(page()).equals(before)).toBe(true);
    const beside = join(folder, 'results', `${name}-at-the-car.html`);
    expect(existsSync(beside)).toBe(true);
    expect(carriedIn(beside).start).toBeUndefined();
  });

  it('is refused in words for a folder that holds no results', () => {
    const { code, err } = tubgap(folder, 'show', 'demo', '--no-open');
    expect(code).toBe(2);
    expect(err).toMatch(/no result to read/);
    expect(err).not.toMatch(/at .*\.js/);
  });
});
