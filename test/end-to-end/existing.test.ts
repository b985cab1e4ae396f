import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { formatQuantity } from '@tubgap/units';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { DEMO, tubgap } from './command.ts';

const FEW = ['--draws', '16384', '--cars', '128'];
let folder: string;

/** The demo with a tub in the car. */
function caseWith(name: string, existing: string): string {
  const text = readFileSync(join(DEMO, 'case.yaml'), 'utf8');
  const put = text.replace('  reserve: 1/2 in\n', `  reserve: 1/2 in\n  existing: ${existing}\n`);
  expect(put).not.toBe(text);
  writeFileSync(join(folder, 'demo', name), put);
  return `demo/${name}`;
}

const resultOf = (results: string) =>
  JSON.parse(readFileSync(join(folder, results, 'winged-door-car/result.json'), 'utf8'));

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'tubgap-existing-'));
  cpSync(DEMO, join(folder, 'demo'), { recursive: true });
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('a case with a tub in the car', () => {
  it('leads with a tub that is too low and what brings it within, each of which put back does', () => {
    const file = caseWith('low.yaml', '{ tub: street-42, topHeight: 38 1/2 in }');
    const { code, out, err } = tubgap(folder, 'pick', file, ...FEW, '--results', 'low');
    expect(err).toBe('');
    expect(code).toBe(0);
    expect(out.indexOf('IN THE CAR')).toBeLessThan(out.indexOf('BUILD'));
    expect(out).toMatch(/IN THE CAR\s+street-42 tub, top 38 1\/2 in .* NOT\s+within/);
    const report = readFileSync(join(folder, 'low/winged-door-car/report.html'), 'utf8');
    expect(report.indexOf('In the car: street-42')).toBeGreaterThan(0);
    expect(report.indexOf('In the car: street-42')).toBeLessThan(report.indexOf('Build street-42'));
    expect(readFileSync(join(folder, 'low/winged-door-car/decision.svg'), 'utf8')).toContain('In the car');
    for (const sheet of ['build-sheet.html', 'check-sheet.html']) {
      const text = readFileSync(join(folder, 'low/winged-door-car', sheet), 'utf8').replaceAll('\u00a0', ' ');
      expect(text.indexOf('In the car: street-42 tub, top 38 1/2 in'), sheet).toBeGreaterThan(
        text.indexOf('<main'),
      );
      expect(text.indexOf('In the car:'), sheet).toBeLessThan(text.indexOf('<figure'));
      expect(text).toMatch(/In the car: [^<]* NOT within[^<]*<\/b>[^<]*To mend: raise it by/);
    }
    const results = join(folder, 'low/winged-door-car');
    const boards = readdirSync(results).filter((file) => file.endsWith('.dxf'));
    expect(boards.length).toBeGreaterThan(0);
    for (const board of boards) {
      expect(readFileSync(join(results, board), 'utf8'), board).toMatch(
        /In the car: street-42 tub, top 38 1\/2 in .* NOT within.*To mend: raise it by/,
      );
    }
    const { verdict, limits } = resultOf('low').existing;
    expect(verdict).toMatchObject({ standing: 'not within', tub: 'street-42' });
    const judge = (...words: string[]) => tubgap(folder, 'judge', file, ...FEW, ...words).code;
    expect(judge()).toBe(4);
    expect(judge('--height', `${verdict.heightNeeded / 0.0254} in`)).toBe(0);
    const mends = limits.filter(({ outcome }: { outcome: string }) => outcome === 'limit');
    expect(mends.map(({ code: of }: { code: string }) => of)).toEqual(
      expect.arrayContaining(['speed', 'travel']),
    );
    for (const { path, kind, value, beyond } of mends) {
      const put = (one: number): number | null => judge('--set', `${path}=~${formatQuantity(one, kind)}`);
      expect(put(value), path).toBe(0);
      expect(put(beyond), path).toBe(4);
    }
  });

  it('says of one that is within how fast the car may run, by limits as by pick', () => {
    const file = caseWith('high.yaml', '{ insideDiameter: 42.5 in, insideWidth: 18.5 in, topHeight: 41 in }');
    const { code, out } = tubgap(folder, 'limits', file, ...FEW, '--of', 'speed', '--json');
    expect(code).toBe(0);
    const { verdict, limits } = JSON.parse(out);
    expect(verdict).toMatchObject({ standing: 'within', tub: 'existing' });
    expect(limits[0].value).toBeGreaterThan(224 * 0.44704);
    tubgap(folder, 'pick', file, ...FEW, '--results', 'high');
    expect(resultOf('high').existing).toMatchObject({ verdict, limits });
  });

  it('names no limit where too few runs and seasons were simulated to tell, and ends in 3', () => {
    const file = caseWith('rare.yaml', '{ tub: street-42, topHeight: 46 in }');
    const risks = ['--set', 'accept.runRisk=0.0001', '--set', 'accept.seasonRisk=0.0001'];
    const rare = [...risks, '--of', 'speed', '--json'];
    const { code, out } = tubgap(folder, 'limits', file, ...FEW, ...rare);
    expect(code).toBe(3);
    expect(JSON.parse(out).limits[0]).toMatchObject({ outcome: 'not known', value: null });
  });

  it('refuses a tub that it cannot tell, with what to write', () => {
    const unsaid = tubgap(folder, 'judge', caseWith('unsaid.yaml', '{ topHeight: 39 in }'), ...FEW);
    expect(unsaid.code).toBe(2);
    expect(unsaid.err).toMatch(/build\.existing.*insideDiameter and insideWidth/);
    const both = caseWith('both.yaml', '{ tub: street-42, insideDiameter: 42 in, topHeight: 39 in }');
    expect(tubgap(folder, 'judge', both, ...FEW).err).toContain('leave out one of the two');
  });

  it('says where the case asks about one height that the tub to build stands at another', () => {
    const { out } = tubgap(folder, 'pick', 'demo/case.yaml', ...FEW, '--set', 'heights=[38.5 in]');
    expect(out).toMatch(/you asked\s+about a top at 38 1\/2 in, which is another height than this/);
  });
});
