import {
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readTable } from '../written-table.ts';
import { DEMO, type Finished, tubgap } from './command.ts';

const SMALL = ['--draws', '16384', '--cars', '128'];
let folder: string;
let learned: Finished;
let place: string;

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'tubgap-learn-'));
  cpSync(DEMO, join(folder, 'demo'), { recursive: true });
  cpSync(join(DEMO, '../demo-measurements'), join(folder, 'measured'), { recursive: true });
  learned = tubgap(folder, 'learn', 'demo/case.yaml', '--measured', 'measured', ...SMALL);
  place = join(folder, 'results', 'winged-door-car-learned');
}, 120_000);

afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('tubgap learn on the demo’s invented measurements', () => {
  it('ends well and says what to build, the risk, the growth, what taught and what to measure next', () => {
    expect(learned.err).toBe('');
    expect(learned.code).toBe(0);
    expect(learned.out).toMatch(/LEARNED\s+from 10 files/);
    expect(learned.out).toMatch(/Build\s+street-42 tub: top .* in, was .* in: .* lower/);
    expect(learned.out).toMatch(/Growth\s+tall-slick at 224 mph: \d\.\d\d in/);
    expect(learned.out).toMatch(/run log: .* lower alone/);
    expect(learned.out).toMatch(/Measure next/);
    expect(learned.out).toMatch(/rollout\.csv:\d+:\d+ [\s\S]*kPa/);
    expect(learned.out).toMatch(/How sure\s+4 searches[\s\S]*different cars[\s\S]*\(R-hat 1\.0/);
    expect(learned.out).toMatch(/can kill/);
    expect(learned.out).toMatch(/invented/);
  });

  it('writes every file that its guide names, and no other', () => {
    expect(readdirSync(place).sort()).toEqual(
      [
        'READ-ME.txt',
        'before-after.csv',
        'contributions.csv',
        'growth.csv',
        'growth.svg',
        'learn.html',
        'learned.yaml',
        'measure-next.csv',
        'rejected-rows.csv',
        'written.json',
      ].sort(),
    );
  });

  it('narrows the growth about more than was assumed, and lists what was left out', async () => {
    const growth = (await readTable(join(place, 'growth.csv'))).filter(({ row }) => row === 'curve');
    const fast = growth.reduce((best, row) =>
      Math.abs(Number(row.speed_mph) - 224) < Math.abs(Number(best.speed_mph) - 224) ? row : best,
    );
    const width = (when: string): number => Number(fast[`${when}_p95_in`]) - Number(fast[`${when}_p05_in`]);
    expect(width('after')).toBeLessThan(0.5 * width('before'));
    // The invented slick grows by 1.41 in at 224 mph, by a law of its own.
    expect(Number(fast.after_p05_in)).toBeLessThan(1.41);
    expect(Number(fast.after_p95_in)).toBeGreaterThan(1.41);
    const rejected = await readTable(join(place, 'rejected-rows.csv'));
    expect(rejected).toHaveLength(1);
    const contributions = await readTable(join(place, 'contributions.csv'));
    expect(contributions.map(({ measurement }) => measurement)).toContain('marks');
    expect(contributions.at(-1)!.measurement).toBe('all together');
  });

  it('puts it on one page that asks no network', () => {
    const page = readFileSync(join(place, 'learn.html'), 'utf8');
    expect(page).not.toMatch(/<script|src="http|href="http|url\(/);
    expect(page).toMatch(/Invented example/);
    expect(page).toMatch(/Tyre contact at speed can kill/);
    expect(page.match(/<h2>/g)!.length).toBeGreaterThanOrEqual(6);
  });

  it('gives a file that the case can name: the model then uses it, and another law refuses it', () => {
    cpSync(join(place, 'learned.yaml'), join(folder, 'demo', 'learned.yaml'));
    // A tub that is built anew has placing errors of its own: those of this one are not carried on.
    expect(readFileSync(join(place, 'learned.yaml'), 'utf8')).not.toMatch(/topHeightError|centreError/);
    const growth = (...words: string[]): number =>
      JSON.parse(tubgap(folder, 'state', 'demo/case.yaml', '--json', ...words).out).growth;
    const plain = growth();
    expect(growth('--set', 'learned=learned.yaml')).toBeGreaterThan(1.08 * plain);
    const other = tubgap(
      folder,
      'state',
      'demo/case.yaml',
      '--set',
      'learned=learned.yaml',
      '--set',
      'suspension.bumpTravel=~2.4 in',
    );
    expect(other.code).toBe(2);
    expect(other.err).toMatch(
      /free bump travel.* was learned starting from 1\.\d+ in .*moved to a middle of 2\.4 in/,
    );
  });
});

describe('tubgap learn refuses', () => {
  const refused = (name: string, files: Record<string, string>): Finished => {
    mkdirSync(join(folder, name));
    for (const [file, text] of Object.entries(files)) writeFileSync(join(folder, name, file), text);
    return tubgap(folder, 'learn', 'demo/case.yaml', '--measured', name, '--results', 'refused', ...SMALL);
  };

  it('readings that disagree with the rest, naming the line, and writes nothing', () => {
    const { code, err } = refused('odd', {
      'rollout.csv':
        'tyre,pressure_psi,rollout_in\ntall-slick,5,105.8\ntall-slick,6,105.9\ntall-slick,7,108.4\ntall-slick,8,106.1\n',
    });
    expect(code).toBe(2);
    expect(err).toMatch(/nothing was learned/);
    expect(err).toMatch(/rollout\.csv:4/);
    expect(existsSync(join(folder, 'refused'))).toBe(false);
  });

  it('a folder with nothing to learn from, or none at all, in words', () => {
    const empty = refused('empty', { 'notes.csv': 'a,b\n1,2\n' });
    expect(empty.code).toBe(2);
    expect(empty.err).toMatch(/nothing to learn from.*rollout\.csv/s);
    const none = tubgap(folder, 'learn', 'demo/case.yaml', '--measured', 'nowhere');
    expect(none.code).toBe(2);
    expect(none.err).toMatch(/nowhere: there is no such folder/);
  });
});
