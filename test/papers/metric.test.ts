import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { readResults } from '@tubgap/results';
import { shownLength } from '@tubgap/units';
import { afterAll, beforeAll, expect, inject, it } from 'vitest';
import { tubgap } from '../end-to-end/command.ts';
import { writeMetricDemo } from '../metric-case.ts';
import { readTable } from '../written-table.ts';

const demo = inject('demo');

let folder: string;
let results: string;
let printed: string;

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'tubgap-metric-'));
  writeMetricDemo(join(folder, 'metric'));
  const done = tubgap(folder, 'pick', 'metric/case.yaml', '--draws', '20480', '--cars', '128');
  expect({ code: done.code, err: done.err }).toEqual({ code: 0, err: '' });
  printed = done.out;
  results = join(folder, 'results', 'winged-door-car');
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Every number and text of a result by its place in it. */
function leaves(value: unknown, path = ''): [string, unknown][] {
  if (typeof value !== 'object' || value === null) return [[path, value]];
  return Object.entries(value).flatMap(([key, inner]) => leaves(inner, `${path}.${key}`));
}

// A measure goes through another unit and back: its last digits move, and angles of the tightest place with them, for
// where a gap is least it hardly changes with the angle.
const CLOSE = 2e-5;

it('has the figures of the same car written in inches', () => {
  const [inch, metric] = [demo, results].map((place) => leaves(readResults(place)));
  const there = new Map(metric);
  expect(there.get('.case.units')).toBe('mm');
  let numbers = 0;
  for (const [path, value] of inch!) {
    const other = there.get(path);
    if (typeof value !== 'number') {
      // What was written is told as it was written, and where it stands.
      if (!/\.shown$|^\.digest$/.test(path)) expect([path, other]).toEqual([path, value]);
      continue;
    }
    numbers += 1;
    const off = Math.abs((other as number) - value);
    expect([path, off <= CLOSE * Math.abs(value) + 1e-9]).toEqual([path, true]);
  }
  expect(numbers).toBeGreaterThan(10_000);
  expect(metric).toHaveLength(inch!.length + 1);
});

/** The words of a paper on one line. */
const words = (text: string): string =>
  text
    .replace(/<(style|script)\b.*?<\/\1>/gs, '')
    .replace(/<[^>]*>/g, ' ')
    .replace(/[\s\u00a0]+/g, ' ');

/** Inches, miles, pounds and all that in words; "1 in 2,000" is none. */
const IMPERIAL =
  /(?<!\d)(?:\d[\d,.]*(?: \d+\/\d+)?|\d+\/\d+) (?:in(?! \d| N\b)|ft|mph|psi|lb|lbf|sq ft|°F)(?![\w-])/g;
/** What leads stands right in front of it, be it in brackets or below. */
const LED = /(?:mm|\bm|kPa|km\/h)(?:,? \(| )$/;
/** The bar of a drawing that shows who opens it in the wrong unit. */
const BAR = /^4 in: measure before you cut/;

it('leads with millimetres on every paper, and none has an inch alone', () => {
  const papers = readdirSync(results).filter(
    (file) => /\.(html|svg|txt|csv|dxf)$/.test(file) && file !== 'at-the-car.html',
  );
  expect(papers.length).toBeGreaterThan(14);
  const alone = [...papers, ''].flatMap((file) => {
    const text = words(file === '' ? printed : readFileSync(join(results, file), 'utf8'));
    // An axis of a chart has its second unit over its figures.
    return [...text.matchAll(IMPERIAL)]
      .filter(({ 0: own, index }) => {
        const behind = text.slice(index);
        const isAxis = /^[0-9.]+ in (?:−|\d|\()/.test(behind) || /gap, mm [\d ]+$/.test(text.slice(0, index));
        return !LED.test(text.slice(0, index)) && !BAR.test(behind) && !isAxis && own !== '';
      })
      .map(({ 0: own, index }) => `${file}: ${text.slice(index - 40, index)}${own}`);
  });
  expect(alone).toEqual([]);
});

it('names the tub’s height in millimetres everywhere', async () => {
  const result = readResults(results);
  const top = result.tolerances!.setOut.topHeight;
  const shown = shownLength(top, 'up');
  expect(words(printed)).toContain(`top set out at ${shown.mm} above the track`);
  for (const [file, said] of [
    ['report.html', `top at ${shown.mm}`],
    ['decision.svg', `top at ${shown.mm}`],
    ['build-sheet.html', `set out at ${shown.mm} ${shown.inch} above the track`],
    ['check-sheet.html', shown['mm first']],
    ['template-tall-slick.dxf', `set out at ${shown.mm}`],
  ] as const)
    expect(words(readFileSync(join(results, file), 'utf8')), file).toContain(said);
  const builtElsewhere = / top ([\d, m]+) too close /.exec(
    words(readFileSync(join(results, 'build-sheet.html'), 'utf8')),
  );
  expect(builtElsewhere![1]).toContain(shown.mm);
  const [picked] = (await readTable(join(results, 'pick.csv'))).filter((row) => row.set_out_mm !== '');
  expect(Number(picked!.set_out_mm)).toBeCloseTo(1000 * top, 2);
  const [blank] = await readTable(join(results, 'check-sheet.csv'));
  expect(Object.keys(blank!)).toContain('measured_mm');
});

it('keeps every table in its units', () => {
  for (const file of readdirSync(results).filter((name) => name.endsWith('.csv'))) {
    const [head] = readFileSync(join(results, file), 'utf8').split('\n');
    expect([file, head!.split(',').filter((name) => /_(in|ft|mph|psi|lb)$/.test(name))]).toEqual([file, []]);
  }
});

it('is told in the other units where the command line asks for them, as the inch case is', () => {
  const other = tubgap(folder, 'report', results, '--units', 'inch');
  expect(other.code).toBe(0);
  cpSync(demo, join(folder, 'inch'), { recursive: true });
  const inch = tubgap(folder, 'report', join(folder, 'inch'));
  const lead = (out: string): string => words(out.slice(0, out.indexOf('Assumed')));
  expect(lead(other.out)).toBe(lead(inch.out));
  for (const file of ['pick.csv', 'check-sheet.csv', 'shares.csv'])
    expect(readFileSync(join(results, file), 'utf8').split('\n')[0]).toBe(
      readFileSync(join(demo, file), 'utf8').split('\n')[0],
    );
  expect(tubgap(folder, 'report', results, '--units', 'furlongs').err).toMatch(/inch or metric is needed/);
});
