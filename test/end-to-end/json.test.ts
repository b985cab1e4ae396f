import { spawnSync } from 'node:child_process';
import { mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { FRONT_DOOR, tubgap } from './command.ts';
import { demoFolder } from './small-sweep.ts';

/** What other programs read: figures and ends as one JSON document on standard output, whatever the verb. */
let folder: string;
const FEW = ['--draws', '4096', '--cars', '300'];
const json = (...words: string[]) => {
  const { code, out, err } = tubgap(folder, ...words, '--json');
  return { code, err, found: JSON.parse(out) };
};
beforeAll(() => {
  folder = demoFolder('json');
  mkdirSync(join(folder, 'nothing'));
  expect(tubgap(folder, 'pick', 'demo/case.yaml', ...FEW).code).toBe(0);
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('figures', () => {
  it('of a pick are those of its results, its year and its revision', () => {
    const { found } = json('report', 'results/winged-door-car');
    const [pick] = found.picks;
    expect(pick).toMatchObject({ tub: 'street-42', height: { topHeight: expect.any(Number) } });
    const { topHeight } = pick.height;
    const year = json('year', 'results/winged-door-car').found;
    expect(year).toMatchObject({ cars: [{ tub: 'street-42' }], sum: { cars: 1, withTub: 1 } });
    expect(Number(year.cars[0].top_height_in) * 0.0254).toBeCloseTo(topHeight, 6);
    const revision = json('revision', 'results/winged-door-car', 'results/winged-door-car').found;
    expect(revision).toMatchObject({
      before: { tub: 'street-42' },
      changes: [],
      tubs: [{ tub: 'street-42', topHeightBefore: topHeight, topHeightAfter: topHeight }],
    });
    // Of a tub that stays high enough no more than is accepted, though the table of risks has no row at its height.
    expect(revision.runRiskAtOldHeight).toBeLessThanOrEqual(1 / 100);
    const judged = json('judge', 'demo/case.yaml', ...FEW).found;
    expect(judged.least.topHeight).toBe(topHeight);
  });

  it('are the same of a case from standard input', () => {
    const asked = ['state', '-', '--tub', 'street-42', '--height', '39 1/4 in', '--json'];
    const piped = spawnSync(process.execPath, [FRONT_DOOR, ...asked], {
      cwd: join(folder, 'demo'),
      encoding: 'utf8',
      input: readFileSync(join(folder, 'demo', 'case.yaml')),
    });
    const named = tubgap(folder, ...asked.with(1, 'demo/case.yaml'));
    // Only the place where a value stands is another.
    expect([piped.status, piped.stdout.replaceAll('standard input:', 'case.yaml:')]).toEqual([0, named.out]);
  });
});

describe('what is to be mended', () => {
  it.each([
    ['pick'],
    ['judge'],
    ['limits'],
    ['sweep', '--vary', 'run.trapSpeed = 200 mph, 210 mph'],
    ['compare'],
    ['place'],
    ['optimise', '--over', 'tubCentreForward = 0..1 in'],
    ['learn', '--measured', 'nothing'],
    ['plan'],
    ['state'],
  ])('%s: file, line, column, path and what was read', (verb, ...words) => {
    const text = readFileSync(join(folder, 'demo', 'case.yaml'), 'utf8');
    writeFileSync(join(folder, 'demo', 'broken.yaml'), text.replace('wheelbase: 108 in', 'wheelbase: 108'));
    const { code, err, found } = json(verb, 'demo/broken.yaml', ...words);
    expect([code, err]).toEqual([2, '']);
    expect(found).toEqual({
      exitCode: 2,
      errors: [
        expect.objectContaining({
          severity: 'error',
          code: 'missing-unit',
          file: expect.stringMatching(/broken\.yaml$/),
          line: text.split('\n').findIndex((line) => line.includes('wheelbase: 108 in')) + 1,
          column: expect.any(Number),
          path: 'car.wheelbase',
          read: '108',
          message: expect.stringContaining('108 in'),
        }),
      ],
    });
  });

  it('an option that cannot be read, a folder that is not there and measurements that hold nothing end so too', () => {
    for (const words of [
      ['judge', 'demo/case.yaml', '--height', '980'],
      ['report', 'results/nobody'],
      ['learn', 'demo/case.yaml', '--measured', 'nothing'],
    ]) {
      const { code, found } = json(...words);
      expect([code, found.exitCode]).toEqual([2, 2]);
      expect(found.errors[0].message).not.toBe('');
    }
  });
});
