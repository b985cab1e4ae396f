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
import { sealedText } from '@tubgap/results';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readTable } from '../written-table.ts';
import { DEMO, type Finished, tubgap } from './command.ts';
import { holdDescribed } from './described.ts';

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
});

afterAll(async () => {
  await holdDescribed(folder);
  rmSync(folder, { recursive: true, force: true });
});

describe('tubgap learn on the demo’s invented measurements', () => {
  it('ends well and says what to build, the risk, the growth, what taught and what to measure next', () => {
    expect(learned.err).toBe('');
    expect(learned.code).toBe(0);
    expect(learned.out).toMatch(/LEARNED\s+from 11 files/);
    expect(learned.out).toMatch(/Build anew\s+street-42 tub: top .* in, was .* in: .* in less/);
    expect(learned.out).toMatch(/Growth\s+tall-slick at 224 mph: \d\.\d\d in/);
    expect(learned.out).toMatch(/run log: .* in less alone/);
    // The tub that was measured comes first, judged as it is believed now and as it was.
    expect(learned.out).toMatch(
      /WITHIN\s+street-42 tub, top 39 5\/16 in [\s\S]*Before\s+street-42 tub[\s\S]*LEARNED/,
    );
    expect(learned.out).toMatch(
      /Check sheet\s+NOT PASSED YET: 19 of 26 pass; 7 not measured: gap at -30°, right/,
    );
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
        'before.json',
        'check-verdict.csv',
        'columns.csv',
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

  it('takes how the case stood before from its own earlier run, and then prints and writes the very same', () => {
    const kept = join(folder, 'kept');
    cpSync(join(folder, 'results'), kept, { recursive: true });
    const own = join(kept, 'winged-door-car-learned');
    const files = (of: string): Record<string, string> =>
      Object.fromEntries(readdirSync(of).map((name) => [name, readFileSync(join(of, name), 'utf8')]));
    const again = (): string => {
      const words = ['--measured', 'measured', ...SMALL, '--results', 'kept'];
      return tubgap(folder, 'learn', 'demo/case.yaml', ...words).out.replaceAll('kept/', 'results/');
    };
    expect(again()).toBe(learned.out);
    expect(files(own)).toEqual(files(place));
    // What it takes is that file: with other figures under a sound seal it tells these.
    const text = readFileSync(join(own, 'before.json'), 'utf8');
    const { digest: _, ...held } = JSON.parse(text);
    held.before.picks[held.before.chosen].height.topHeight += 0.0254;
    writeFileSync(join(own, 'before.json'), sealedText(held));
    const was = (out: string): number => Number(/was (\d+)/.exec(out.split('Build anew')[1]!)![1]);
    expect(was(again())).toBe(was(learned.out) + 1);
    // Changed by hand it is worth nothing, and all is simulated anew.
    writeFileSync(join(own, 'before.json'), text.replace('"limitingTyre"', '"limitingTyre" '));
    expect(again()).toBe(learned.out);
  });

  it('narrows the growth about more than was assumed, and lists what was left out', async () => {
    const growth = (await readTable(join(place, 'growth.csv'))).filter(({ what }) => what === 'curve');
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

/** What was printed, without its line breaks. */
const inOneLine = (text: string): string => text.replace(/\s+/g, ' ');

describe('tubgap learn stops a car', () => {
  const measured = (name: string, files: Record<string, string>): Finished => {
    mkdirSync(join(folder, name));
    for (const [file, text] of Object.entries(files)) writeFileSync(join(folder, name, file), text);
    return tubgap(
      folder,
      'learn',
      'demo/case.yaml',
      '--measured',
      name,
      '--results',
      `out-${name}`,
      ...SMALL,
    );
  };
  const paper = (name: string, file: string): string =>
    readFileSync(join(folder, `out-${name}`, 'winged-door-car-learned', file), 'utf8');
  const built = (top: string): string => `tub,top_height_in\nstreet-42,${top}\n`;

  it('whose check sheet fails: first of all, in words, with every value, papers and cautions', async () => {
    const sheet = readFileSync(join(folder, 'measured', 'check-sheet.csv'), 'utf8')
      .replace(/(left,15,.*),6 1\/4/, '$1,4 5/8')
      .replace(/(right,0,.*),6 3\/16/, '$1,5 3/4');
    const { code, out } = measured('low', { 'check-sheet.csv': sheet, 'as-built.csv': built('39 5/16') });
    expect(code).toBe(4);
    const [first] = out.split('\n');
    expect(first).toMatch(/^ {2}DO NOT RUN {4}the check sheet: FAIL: gap at 15°, left; gap at 0°, right\./);
    expect(out).toMatch(
      /gap at 15°, left: 4\.625 in, passes at 5\.7829 in and over: FAIL by 1\.1579 in\s+\(check-sheet/,
    );
    expect(out).toMatch(/can kill[\s\S]*qualified chassis builder/);
    expect(paper('low', 'learn.html')).toMatch(/<b>Do not run:<\/b> the check sheet: FAIL/);
    const rows = await readTable(join(folder, 'out-low', 'winged-door-car-learned', 'check-verdict.csv'));
    expect(
      rows
        .filter(({ judgement }) => judgement === 'FAIL')
        .map(({ side }) => side)
        .sort(),
    ).toEqual(['left', 'right']);
    expect(rows.filter(({ judgement }) => judgement === 'PASS')).toHaveLength(13);
  });

  it('that rubs where its case says no car can: causes outside the case, a raise by the mark, and papers', () => {
    const { code, out } = measured('rub', {
      'as-built.csv': built('40 1/4'),
      'marks.csv': 'tyre,angle_deg,mark,runs\ntall-slick,35,rub,2\n',
    });
    expect(code).toBe(4);
    expect(out.split('\n')[0]).toMatch(
      /^ {2}DO NOT RUN {4}a rub that the case calls impossible: tall-slick at 35°/,
    );
    expect(out).toMatch(
      /Look for\s+a mount, bracket or weld[\s\S]*bends[\s\S]*tyre shake[\s\S]*landing[\s\S]*another tyre/,
    );
    // By the mark alone: the case's own height, and all that an ordinary run leaves there.
    const raise = /by the mark alone the top must go up by (\d+)( \d+\/\d+)? in, to (\d+)/.exec(
      inOneLine(out),
    );
    expect(Number(raise?.[1])).toBeGreaterThanOrEqual(1);
    expect(Number(raise?.[3])).toBeGreaterThan(41);
    expect(inOneLine(out)).toMatch(/Case alone street-42 tub, top 40 1\/4 in .* this clears nothing/);
    expect(out).not.toMatch(/widen or move the law/);
    expect(paper('rub', 'learn.html')).toMatch(/<b>Do not run:<\/b> a rub that the case calls impossible/);
    expect(existsSync(join(folder, 'out-rub', 'winged-door-car-learned', 'learned.yaml'))).toBe(false);
  });

  it('never by the absence of a mark where nothing was stuck that would show one: that says nothing, and is said', () => {
    const { code, err } = measured('bare', {
      'as-built.csv': built('38 1/2'),
      'marks.csv': 'tyre,angle_deg,mark,runs\ntall-slick,0,not touched,6\n',
    });
    expect(code).toBe(2);
    expect(err).toMatch(/marks\.csv:2 {2}left out: no mark says nothing where nothing was stuck/);
    expect(err).toMatch(/there is nothing to learn from/);
  });

  it('says how far a tub that stands too low must go up, before and after', () => {
    const { code, out } = measured('short', {
      'as-built.csv': built('37 1/2'),
      'tyre-mass.csv': 'tyre,mass_lb\ntall-slick,43\n',
    });
    expect(code).toBe(4);
    const line = inOneLine(out);
    expect(line).toMatch(
      /an invented car\] NOT WITHIN street-42 tub, top 37 1\/2 in .* raise it by [12] \d+\/\d+ in, to 39/,
    );
    expect(line).toMatch(
      /Before street-42 tub, top 37 1\/2 in .* NOT within .* raise it by .* LEARNED .* Build anew/,
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
