import { cpSync, existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, dirname, join } from 'node:path';
import { readResults, sealedText } from '@tubgap/results';
import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest';
import { changedResult } from '../papers/paper-folder.ts';
import { DEMO, tubgap } from './command.ts';

interface Carried {
  file: string;
  files: Record<string, string>;
  start?: { tub: string; topHeight: number };
  sample?: { madeBy: string; tyres: { events: number }[] };
}

const carriedIn = (page: string): Carried =>
  JSON.parse(/id="carried">(.*)<\/script>/.exec(readFileSync(page, 'utf8'))![1]!) as Carried;

/** Characters of the sample that a page may carry for a tub with two tyres. */
const SAMPLE_A_TUB = 30_000;

/** A sample as another seed would have written it. */
function otherRun(text: string): object {
  const { digest: _, ...sample } = JSON.parse(text) as Record<string, unknown>;
  return { ...sample, seed: 7 };
}

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

  it('carries the sample that the pick was made of, in 30 kB a tub', () => {
    const { sample } = carriedIn(page());
    const { draws, tubs } = readResults(demo);
    expect(sample?.tyres.map(({ events }) => events)).toEqual([draws, draws]);
    expect(JSON.stringify(sample).length / tubs.length).toBeLessThan(SAMPLE_A_TUB);
  });

  it.each([
    [
      'changed by a digit',
      (text: string) => text.replace(/"events": (\d)/, '"events": 1$1'),
      /does not match its digest/,
    ],
    ['cut off', (text: string) => text.slice(0, text.length / 2), /not readable as JSON/],
    ['of another run', (text: string) => sealedText(otherRun(text)), /is of another run of the case/],
    ['not there', undefined, /^$/],
  ])('does without a sample that is %s, and says why', (_, spoil, said) => {
    const file = join(folder, 'results', name, 'sample.json');
    const sound = readFileSync(file, 'utf8');
    if (spoil === undefined) rmSync(file);
    else writeFileSync(file, spoil(sound));
    const { code, err } = tubgap(folder, 'show', join('results', name), '--no-open');
    writeFileSync(file, sound);
    expect(code).toBe(0);
    expect(err).toMatch(said);
    if (spoil !== undefined) expect(err).toMatch(/sample\.json: .*the page counts runs of its own/s);
    expect(carriedIn(page()).sample).toBeUndefined();
    expect(carriedIn(page()).start).toMatchObject({ tub: pick.tub });
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
