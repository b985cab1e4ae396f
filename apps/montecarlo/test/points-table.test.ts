import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { openCase } from '@tubgap/casefile/node';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { ReadCase } from '../src/options.ts';
import { StudyFault } from '../src/study/fault.ts';
import { readPointsTable } from '../src/study/points-table.ts';
import { pointSetup, pointsOf } from '../src/study/sweep-points.ts';
import { variedInput } from '../src/study/varied-input.ts';
import { readVary } from '../src/study/vary.ts';

let folder: string;
let read: ReadCase;
const written = (text: string): string => {
  const file = join(folder, 'points.csv');
  writeFileSync(file, text);
  return file;
};

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'tubgap-points-'));
  cpSync(fileURLToPath(new URL('../../../datasets/demo', import.meta.url)), folder, { recursive: true });
  const catalogue = join(folder, 'tyres.csv');
  const text = readFileSync(catalogue, 'utf8');
  const row = text.split('\n').find((line) => line.startsWith('tall-slick,'))!;
  // The same slick under another name and an inch taller.
  writeFileSync(catalogue, `${text.trimEnd()}\n${row.replace('tall-slick,bias,33.7', 'taller,bias,34.7')}\n`);
  read = openCase(join(folder, 'case.yaml')) as ReadCase;
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('a table of points', () => {
  it('is a setup a row: by path and unit, an empty cell the case’s own', async () => {
    const file = written('\uFEFFrun.trapSpeed_mph,tyres[tall-slick].coldPressure_psi,who\n230,6.5,a\n,,b\n');
    const { varies, unread } = await readPointsTable(file, read.source);
    expect(unread).toEqual(['who']);
    expect(varies.map(({ path, texts }) => [path, ...texts])).toEqual([
      ['run.trapSpeed', '230 mph', '~'],
      ['tyres[tall-slick].coldPressure', '6.5 psi', '~'],
    ]);
    const inputs = varies.map((vary) => variedInput(read, [], vary));
    const ats = pointsOf('points', [2, 2]);
    expect(ats).toEqual([
      [0, 0],
      [1, 1],
    ]);
    const [first, second] = ats.map((at) => pointSetup(read, [], inputs, at).source);
    expect(first!.car.trapSpeed.law).toMatchObject({ mean: expect.closeTo(230 * 0.44704, 9) });
    expect(second!.car).toEqual(read.source.car);
  });

  it.each([
    ['run.trapSpeed_mph,car.mas_kg\n230,1100\n', /read "car\.mas_kg"; no input of a run/],
    ['run.trapSpeed_mph\nfast\n', /row 1, run\.trapSpeed_mph: read "fast"/],
    ['run.trapSpeed_mph,tyre\n230,tall-slick\n', /a row is a setup of the whole car/],
    ['run.trapSpeed_mph,who\n230\n', /row 1: it has 1 cells/],
    ['run.trapSpeed_mph\n', /holds no rows/],
  ])('names what is wrong with %j', async (text, reason) => {
    const fault = await readPointsTable(written(text), read.source).catch((error: unknown) => error);
    expect(fault).toBeInstanceOf(StudyFault);
    expect((fault as StudyFault).lines.join(' ')).toMatch(reason);
  });
});

describe('a tyre swapped by name', () => {
  it('keeps what is the car’s, lets go what was measured of the other, and takes the build along', () => {
    const swapped = variedInput(read, [], readVary('tyres[tall-slick].tyre = tall-slick, taller'));
    expect(swapped.settings[0]).toEqual([]);
    const [own, other] = swapped.sources;
    expect(own).toEqual(read.source);
    const [was, is] = [own!.tyres[0]!, other!.tyres[0]!];
    expect(is.name).toBe('taller');
    expect(is.inputs.coldPressure.law).toEqual(was.inputs.coldPressure.law);
    // The demo's slick has its rollout taped: 106 in, 16.87 in of radius. The other's row says 34.7 in.
    expect(is.inputs.referenceRadius.law).not.toEqual(was.inputs.referenceRadius.law);
    expect(other!.build.tyre).toBe('taller');
  });

  it('stays where a value of the same entry is set beside it', () => {
    const inputs = ['tyres[0].tyre = taller', 'tyres[0].coldPressure = 7 psi'].map((words) =>
      variedInput(read, [], readVary(words)),
    );
    const { source } = pointSetup(read, [{ path: 'tyres[0].runsPerSeason', value: '9' }], inputs, [0, 0]);
    expect(source.tyres[0]).toMatchObject({ name: 'taller', runsPerSeason: 9 });
    expect(source.tyres[0]!.inputs.coldPressure.law).toMatchObject({
      mean: expect.closeTo(7 * 6894.757293168, 3),
    });
  });
});
