import { createHash } from 'node:crypto';
import { readdirSync, readFileSync, rmSync, statSync, truncateSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parquetReadObjects } from 'hyparquet';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { tubgap } from './command.ts';
import { holdDescribed } from './described.ts';
import { demoFolder } from './small-sweep.ts';

/** The draws of a case on disk, given to others and taken back. Files hold 16 blocks of 1,024 runs. */
let folder: string;
const ASKED = ['--gaps', '0,30', '--tub', 'street-42', '--height', '39 1/4 in'];
const draws = (to: string, ...words: string[]) =>
  tubgap(folder, 'draws', 'demo/case.yaml', '--draws', '17000', '--to', to, ...words);
const read = (...place: string[]): string => readFileSync(join(folder, ...place), 'utf8');
const digests = (place: string): Record<string, string> =>
  Object.fromEntries(
    readdirSync(join(folder, place))
      .filter((name) => statSync(join(folder, place, name)).isFile())
      .map((name) => [
        name,
        createHash('sha256')
          .update(readFileSync(join(folder, place, name)))
          .digest('hex'),
      ]),
  );
/** Rows by the names of their columns; no cell of these tables is quoted. */
function rowsOf(text: string): Record<string, string>[] {
  const [head, ...lines] = text.trimEnd().split('\n');
  const names = head!.split(',');
  return lines.map((line) => Object.fromEntries(line.split(',').map((cell, c) => [names[c]!, cell])));
}

beforeAll(() => {
  folder = demoFolder('draws');
  expect(draws('plain', ...ASKED, '--workers', '1').code).toBe(0);
});
afterAll(async () => {
  await holdDescribed(folder);
  rmSync(folder, { recursive: true, force: true });
});

describe('tubgap draws', () => {
  it('writes every run once, with its digest as sha256sum reads it, the same whatever the workers', () => {
    const files = readdirSync(join(folder, 'plain')).filter((name) => /^draws.*\.csv$/.test(name));
    expect(files).toEqual(['draws-0001-of-0002.csv', 'draws-0002-of-0002.csv']);
    const rows = files.flatMap((name) => rowsOf(read('plain', name)));
    expect(rows).toHaveLength(2 * 17_000);
    expect(new Set(rows.map(({ block, run, tyre }) => `${block} ${run} ${tyre}`)).size).toBe(2 * 17_000);
    for (const name of files) {
      expect(read('plain', `${name}.sha256`)).toBe(`${digests('plain')[name]}  ${name}\n`);
    }
    expect(draws('again', ...ASKED, '--workers', '2').code).toBe(0);
    expect(digests('again')).toEqual(digests('plain'));
  });

  it('goes on from the files that are whole, and makes a cut one anew', () => {
    const whole = digests('again');
    truncateSync(join(folder, 'again', 'draws-0002-of-0002.csv'), 1000);
    const { code, err } = draws('again', ...ASKED);
    expect([code, err]).toEqual([0, expect.stringContaining('1 of 2 files are there already')]);
    expect(digests('again')).toEqual(whole);
  });

  it('fills one folder from several machines, and refuses what is another’s', () => {
    for (const shard of ['2/2', '1/2']) expect(draws('shared', ...ASKED, '--shard', shard).code).toBe(0);
    expect(digests('shared')).toEqual(digests('plain'));
    const other = draws('plain', ...ASKED, '--seed', '99');
    expect([other.code, other.err]).toEqual([
      2,
      expect.stringMatching(/plain: holds the draws of another case, seed.*nothing was written/),
    ]);
    writeFileSync(join(folder, 'demo', 'note.txt'), 'mine');
    expect(draws('demo').err).toMatch(/demo: holds something else than draws/);
  });

  it('gives a weighted sample whose sum is the printed risk, and the same numbers as Parquet', async () => {
    expect(draws('weighted', '--weighted').code).toBe(0);
    expect(draws('parquet', '--weighted', '--format', 'parquet').code).toBe(0);
    const name = 'draws-0001-of-0002';
    const rows = rowsOf(read('weighted', `${name}.csv`));
    const { buffer, byteOffset, byteLength } = readFileSync(join(folder, 'parquet', `${name}.parquet`));
    const kept = await parquetReadObjects({
      file: buffer.slice(byteOffset, byteOffset + byteLength) as ArrayBuffer,
    });
    const told = kept.map((row) =>
      Object.fromEntries(
        Object.entries(row).map(([key, value]) => [key, value === null ? '' : String(value)]),
      ),
    );
    expect(told).toEqual(
      rows.map((row) =>
        Object.fromEntries(Object.entries(row).map(([k, v]) => [k, v === 'inf' ? 'Infinity' : v])),
      ),
    );
    const slick = rows.filter(({ tyre }) => tyre === 'tall-slick');
    const risk =
      slick.reduce(
        (sum, row) =>
          sum + (Number(row['street-42.required_height_m']) > 39.25 * 0.0254 ? Number(row.weight) : 0),
        0,
      ) / slick.length;
    // The demo's pick says 1 in 2,100 there; so few draws know it to a tenth.
    expect(1 / risk).toBeGreaterThan(1750);
    expect(1 / risk).toBeLessThan(2550);
  });
});

describe('tubgap evaluate', () => {
  it('gives draws that are given back the same bits', () => {
    const name = 'draws-0002-of-0002.csv';
    const { code, out } = tubgap(folder, 'evaluate', 'demo/case.yaml', '--points', `plain/${name}`, ...ASKED);
    expect(code).toBe(0);
    const rows = rowsOf(read('plain', name));
    const answers = rowsOf(out);
    expect(answers).toHaveLength(rows.length);
    answers.forEach(({ row, ...answer }, n) => {
      expect(Number(row)).toBe(n + 1);
      expect(rows[n]).toMatchObject(answer);
    });
    expect(Object.keys(answers[0]!)).toContain('gap_30deg_in_run_m');
  });

  it('takes any unit, leaves the rest at its middle, and names rows that it leaves out', () => {
    const points = [
      'study,tyre,run.trapSpeed_mph,tyres[].coldPressure_psi',
      'first,tall-slick,224,6',
      'typed,tall-slick,fast,6',
      'nobody,other-tyre,224,6',
      'stands,tall-slick,,',
      'too fast,tall-slick,4000,6',
    ];
    writeFileSync(join(folder, 'points.csv'), `${points.join('\n')}\n`);
    const { code, out, err } = tubgap(folder, 'evaluate', 'demo/case.yaml', '--points', 'points.csv');
    const answers = rowsOf(out);
    expect(code).toBe(0);
    expect(answers.map(({ row, study }) => [row, study])).toEqual([
      ['1', 'first'],
      ['4', 'stands'],
    ]);
    const height = (n: number) => Number(answers[n]!['street-42.required_height_m']);
    expect(height(0)).toBeCloseTo(height(1), 12);
    expect(err).toMatch(/points\.csv: row 2, run\.trapSpeed_mph: read "fast"; a number is needed/);
    expect(err).toMatch(/row 3, tyre: read "other-tyre"; the case runs tall-slick, class-radial/);
    expect(err).toMatch(/row 5, run\.trapSpeed_mph: read "4000"; .* of a run may be .* mph to .* mph/);
    expect(err).toMatch(/3 of 5 rows were left out/);
  });

  it('says how a column is written that it nearly knows, and gives no number', () => {
    writeFileSync(join(folder, 'points.csv'), 'tyre,run.trapSpeed\ntall-slick,224\n');
    const { code, out, err } = tubgap(
      folder,
      'evaluate',
      'demo/case.yaml',
      '--points',
      'points.csv',
      '--to',
      'a.csv',
    );
    expect([code, out]).toEqual([2, '']);
    expect(err).toMatch(
      /points\.csv:1: column 2: read "run\.trapSpeed"; .* run\.trapSpeed_mph or run\.trapSpeed_km_h or/,
    );
    expect(readdirSync(folder)).not.toContain('a.csv');
  });
});
