import {
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join, relative } from 'node:path';
import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest';
import { FEW_DRAWS } from '../papers/made.ts';
import { type Row, readTable } from '../written-table.ts';
import { DEMO, FRONT_DOOR, tubgap } from './command.ts';
import { holdDescribed } from './described.ts';
import { startApp, until } from './small-sweep.ts';

const picked = inject('picked');
let folder: string;
let place: string;

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'tubgap-pick-'));
  cpSync(DEMO, join(folder, 'demo'), { recursive: true });
  place = join(folder, 'results', basename(inject('demo')));
  cpSync(inject('demo'), place, { recursive: true });
});

afterAll(async () => {
  await holdDescribed(folder);
  rmSync(folder, { recursive: true, force: true });
});

describe('tubgap pick on the demo, in an empty folder', () => {
  it('ends well and says which tub, how high, with which risk and which cautions', () => {
    expect(picked.err).toBe('');
    expect(picked.code).toBe(0);
    expect(picked.out).toMatch(/BUILD\s+\S+ tub, top .* in above the track/);
    expect(picked.out).toMatch(/GAP\s+.* in or more to see standing still/);
    expect(picked.out).toMatch(/TOO CLOSE\s+a run comes closer than/);
    expect(picked.out).toMatch(/Risk, a run/);
    expect(picked.out).toMatch(/can kill/);
    expect(picked.out).toMatch(/invented/);
  });

  it('writes a risk table whose probability never rises with height and whose intervals hold it', async () => {
    const rows = await readTable(join(place, 'risk.csv'));
    expect(Object.keys(rows[0]!)).toEqual([
      'case',
      'tyre',
      'tub',
      'tub_diameter_in',
      'at_height_in',
      'draws',
      'touches',
      'run_risk',
      'run_risk_low',
      'run_risk_high',
      'gap_p01_in',
      'gap_p05_in',
      'gap_p50_in',
      'tight_angle_deg',
      'tight_moment',
      'method',
      'cov',
      'effective_draws',
      'contact_risk',
      'contact_risk_low',
      'contact_risk_high',
    ]);
    const groups = new Map<string, Row[]>();
    for (const row of rows) {
      const name = `${row.tyre} ${row.tub}`;
      groups.set(name, [...(groups.get(name) ?? []), row]);
    }
    expect(groups.size).toBe(15);
    for (const group of groups.values()) {
      expect(group.length).toBeGreaterThan(3);
      for (const [i, row] of group.entries()) {
        const p = Number(row.run_risk);
        if (row.method === 'counted') expect(Number(row.touches) / Number(row.draws)).toBeCloseTo(p, 6);
        else expect(Number(row.effective_draws)).toBeGreaterThanOrEqual(50);
        expect(Number(row.run_risk_low)).toBeLessThanOrEqual(p);
        expect(Number(row.run_risk_high)).toBeGreaterThan(p - 1e-12);
        const contact = Number(row.contact_risk);
        expect(contact).toBeLessThanOrEqual(p);
        expect(Number(row.contact_risk_high)).toBeGreaterThan(contact - 1e-12);
        expect(row.gap_p05_in !== '').toBe(Number(row.at_height_in) % 1 === 0);
        if (row.gap_p05_in !== '') expect(Number(row.gap_p05_in)).toBeLessThan(Number(row.gap_p50_in));
        if (i === 0) continue;
        expect(Number(row.at_height_in) - Number(group[i - 1]!.at_height_in)).toBeCloseTo(0.25, 6);
        expect(p).toBeLessThanOrEqual(Number(group[i - 1]!.run_risk));
      }
    }
    for (const row of rows.filter((candidate) => candidate.tyre === 'any')) {
      const alone = rows.filter(
        (other) => other.tub === row.tub && other.at_height_in === row.at_height_in && other.tyre !== 'any',
      );
      for (const other of alone) {
        expect(Number(row.touches)).toBeGreaterThanOrEqual(Number(other.touches));
        expect(row.method === 'weighted' || Number(row.run_risk) >= Number(other.run_risk)).toBe(true);
      }
    }
  });

  it('writes a pick a tub, on a sixteenth of an inch, whose upper bounds are within what the shop accepts', async () => {
    const rows = await readTable(join(place, 'pick.csv'));
    expect(rows).toHaveLength(5);
    const withHeight = rows.filter((row) => row.top_height_in !== '');
    expect(withHeight.length).toBeGreaterThan(1);
    for (const row of withHeight) {
      expect((Number(row.top_height_in) * 16) % 1).toBeCloseTo(0, 6);
      expect(Number(row.run_risk_high)).toBeLessThanOrEqual(1 / 2000);
      expect(Number(row.season_risk_high)).toBeLessThanOrEqual(1 / 20);
      expect(Number(row.contact_risk)).toBeLessThanOrEqual(Number(row.run_risk));
      expect(Number(row.gap_at_0deg_in)).toBeGreaterThan(0);
    }
    expect(rows.filter((row) => row.fits === 'no').every((row) => row.reason !== '')).toBe(true);
  });

  it('writes shares with the whole closing as a row of its own, for every moment of the run', async () => {
    const rows = await readTable(join(place, 'shares.csv'));
    expect(new Set(rows.map((row) => row.moment)).size).toBe(8);
    expect(rows.some((row) => row.share === 'whole closing')).toBe(true);
  });

  it('explains the folder: what ran, every assumed value, the seed', () => {
    const guide = readFileSync(join(place, 'READ-ME.txt'), 'utf8');
    expect(guide).toMatch(/seed 1\b/);
    expect(guide).toMatch(/20,480 runs and 128 seasons/);
    expect(guide).toMatch(/Assumed, because the case does not say/);
    for (const name of ['case.yaml', 'tubs.csv', 'tyres.csv']) {
      expect(readFileSync(join(place, 'case', name), 'utf8')).toBe(readFileSync(join(DEMO, name), 'utf8'));
    }
  });
});

const bytes = (where: string): Map<string, string> =>
  new Map(
    readdirSync(where, { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile())
      .map((entry) => join(entry.parentPath, entry.name))
      .sort()
      .map((file) => [relative(where, file), readFileSync(file, 'utf8')]),
  );

describe('the same seed', () => {
  it('gives the same bytes, another seed others, and a swap that was cut is mended without loss', async () => {
    const parent = join(folder, 'results');
    const [name] = readdirSync(parent);
    const before = bytes(place);
    renameSync(place, join(parent, `.${name}.before`));
    mkdirSync(join(parent, `.${name}.writing`));
    writeFileSync(join(parent, `.${name}.writing`, 'result.json'), '{"half":');
    const refused = tubgap(folder, 'pick', 'demo/case.yaml', '--draws', '0');
    expect(refused.code).toBe(2);
    expect(existsSync(place)).toBe(false);
    expect(tubgap(folder, 'pick', 'demo/case.yaml', ...FEW_DRAWS).code).toBe(0);
    expect(bytes(place)).toEqual(before);
    expect(readdirSync(parent)).toEqual([name]);
    const words = ['pick', 'demo/case.yaml', ...FEW_DRAWS, '--seed', '0', '--results', 'other'];
    expect((await startApp(folder, words).end).code).toBe(0);
    const runsOf = (text: string): string => JSON.stringify(JSON.parse(text).runs);
    const other = readFileSync(join(folder, 'other', name!, 'result.json'), 'utf8');
    expect(runsOf(other)).not.toBe(runsOf(before.get('result.json')!));
  });
});

describe('a car whose window is low', () => {
  it('gets the smallest tub that it has room for, and is told what a smaller one lacks', async () => {
    const rows = await readTable(join(place, 'pick.csv'));
    const fitting = rows.filter((row) => row.fits === 'yes' && row.top_height_in !== '');
    const [first, second] = fitting.map((row) => Number(row.top_height_in));
    expect(first).toBeGreaterThan(second!);
    // A liner of 0.06 in and a skin of 0.040 in are above the inside of both; between their tops is the window.
    const window = 0.5 * (first! + second!) + 0.1;
    const setting = `envelope={ highestTop: ${window} in }`;
    const done = tubgap(folder, 'pick', 'demo/case.yaml', ...FEW_DRAWS, '--set', setting, '--results', 'low');
    expect(done.err).toBe('');
    expect(done.code).toBe(0);
    expect(done.out).toContain(`BUILD         ${fitting[1]!.tub} tub`);
    const words = done.out.replace(/[\s│]+/g, ' ');
    expect(words).toContain('smallest that fits car and tyres');
    expect(words).toMatch(/fits the tyres, not the car: [\d /]+ in more room under/);
    const [name] = readdirSync(join(folder, 'low'));
    const envelope = await readTable(join(folder, 'low', name!, 'envelope.csv'));
    expect(envelope.find((row) => row.tub === fitting[0]!.tub)!.fits_both).toBe('no');
    expect(envelope.find((row) => row.tub === fitting[1]!.tub)!.fits_both).toBe('yes');
  });
});

describe('a results folder alone', () => {
  it('is the same whatever the case file is called, and repeats its run by the command that its guide gives', () => {
    const setting = 'run.trapSpeed=~210 mph';
    const oneTub = ['--set', 'tubs=[street-42]'];
    const words = ['--draws', '1024', '--cars', '8', '--seed', '3', '--set', setting, ...oneTub];
    cpSync(join(folder, 'demo', 'case.yaml'), join(folder, 'demo', 'mycar.yaml'));
    expect(tubgap(folder, 'pick', 'demo/mycar.yaml', ...words, '--results', 'first').code).toBe(3);
    expect(tubgap(folder, 'pick', 'demo/case.yaml', ...words, '--results', 'plain').code).toBe(3);
    const [name] = readdirSync(join(folder, 'first'));
    const first = bytes(join(folder, 'first', name!));
    expect(bytes(join(folder, 'plain', name!))).toEqual(first);
    const alone = mkdtempSync(join(tmpdir(), 'tubgap-alone-'));
    cpSync(join(folder, 'first', name!), alone, { recursive: true });
    const guide = first.get('READ-ME.txt')!;
    expect(guide).toContain('run.trapSpeed = ~210 mph');
    const command = /makes the same again: tubgap (.*)/.exec(guide)![1]!;
    const given = [...command.matchAll(/"([^"]*)"|(\S+)/g)].map(([, quoted, plain]) => quoted ?? plain!);
    expect(tubgap(alone, ...given).code).toBe(3);
    expect(bytes(join(alone, 'results', name!))).toEqual(first);
    rmSync(alone, { recursive: true, force: true });
  });
});

describe('a case that is edited while its pick runs', () => {
  it('changes nothing of what comes: result, papers and page are of the case as it was read', async () => {
    const file = join(folder, 'demo', 'edited.yaml');
    const text = readFileSync(join(folder, 'demo', 'case.yaml'), 'utf8');
    writeFileSync(file, text);
    const words = ['pick', 'demo/edited.yaml', ...FEW_DRAWS, '--results', 'edited'];
    const run = startApp(folder, words, {}, [], FRONT_DOOR);
    // Its hold on the results is taken after the case was read.
    await until('the hold on the results', () => {
      const results = join(folder, 'edited');
      return existsSync(results) && readdirSync(results).some((name) => name.endsWith('.lock'));
    });
    writeFileSync(file, text.replace(/^title: .*/m, 'title: Edited meanwhile').replace('224 mph', '200 mph'));
    const [name] = readdirSync(join(folder, 'results'));
    expect((await run.end).code).toBe(0);
    expect(bytes(join(folder, 'edited', name!))).toEqual(bytes(place));
  });
});

describe('what can go wrong', () => {
  it('too few draws: not known is not no, the number that is needed, exit code 3', async () => {
    const done = tubgap(
      folder,
      'pick',
      'demo/case.yaml',
      '--draws',
      '1000',
      '--cars',
      '20',
      '--set',
      'tubs=[street-42]',
      '--results',
      'few',
    );
    expect(done.code).toBe(3);
    expect(done.out).toMatch(
      /NOT KNOWN +too few runs to say whether this tub keeps the accepted risk: street-42/,
    );
    const words = done.out.replace(/[│\s]+/g, ' ');
    expect(words).toMatch(
      /needs about 7,37\d draws .*; nor is it known to fit at any place looked at, from /,
    );
    const [name] = readdirSync(join(folder, 'few'));
    const rows = await readTable(join(folder, 'few', name!, 'pick.csv'));
    expect(rows.map((row) => [row.top_height_in, row.fits])).toEqual([['', 'not known']]);
    const rooms = await readTable(join(folder, 'few', name!, 'envelope.csv'));
    expect(rooms.map((row) => [row.fits_tyre, row.fits_both])).toEqual([['not known', 'not known']]);
    const sheet = readFileSync(join(folder, 'few', name!, 'build-sheet.html'), 'utf8');
    expect(sheet).toContain('Not known yet what to build');
    expect(sheet).not.toContain('Nothing to build');
  });

  it('a fault in the case: file, line, column and field, exit code 2, results untouched', () => {
    const before = bytes(place);
    const text = readFileSync(join(folder, 'demo/case.yaml'), 'utf8').replace('215 lbf/in', '215 lbf');
    writeFileSync(join(folder, 'demo/broken.yaml'), text);
    const done = tubgap(folder, 'pick', 'demo/broken.yaml');
    expect(done.code).toBe(2);
    expect(done.err).toMatch(/demo\/broken\.yaml:\d+:\d+\s+suspension\.wheelRate/);
    expect(done.err).not.toMatch(/\bat .*\.js:\d+/);
    expect(done.out).toBe('');
    expect(bytes(place)).toEqual(before);
  });

  it('a missing case file and an unknown option are one clear sentence each', () => {
    const missing = tubgap(folder, 'pick', 'nowhere.yaml');
    expect(missing.code).toBe(2);
    expect(missing.err).toMatch(/^nowhere\.yaml: cannot be read/);
    const unknown = tubgap(folder, 'pick', 'demo/case.yaml', '--drawz', '5');
    expect(unknown.code).toBe(2);
    expect(unknown.err).toMatch(/--drawz/);
    const wrong = tubgap(folder, 'pick', 'demo/case.yaml', '--draws', 'ten');
    expect(wrong.code).toBe(2);
    expect(wrong.err).toMatch(/whole number/);
  });
});

describe('tubgap state', () => {
  it('gives every value of one state, as text with formulas and as JSON', () => {
    const words = ['state', 'demo/case.yaml', '--tub', 'tall-46', '--height', '40 in', '--moment', 'finish'];
    const text = tubgap(folder, ...words);
    expect(text.code).toBe(0);
    expect(text.out).toMatch(/growth\s+0\.03\d+ m\s+1\.\d+ in\s+slick scale · R₀\(p_ref\) ln/);
    const json = JSON.parse(tubgap(folder, ...words, '--json').out);
    expect(json.topHeight).toBeCloseTo(40 * 0.0254, 12);
    const sum = Object.values(json.shares as Record<string, number>).reduce((a, b) => a + b, 0);
    expect(sum).toBeCloseTo(json.closing, 12);
    expect(json.inputs).toHaveLength(55);
    const slower = JSON.parse(tubgap(folder, ...words, '--set', 'run.trapSpeed=180 mph', '--json').out);
    expect(slower.carSpeed).toBeCloseTo(180 * 0.44704, 10);
    expect(slower.growth).toBeLessThan(json.growth);
    const wrong = tubgap(folder, ...words, '--set', 'run.trapSpead=180 mph');
    expect(wrong.code).toBe(2);
    expect(wrong.err).toMatch(/^--set run\.trapSpead .*Did you mean trapSpeed\?/);
    expect(tubgap(folder, ...words.with(3, 'tall-64')).code).toBe(2);
  });
});
