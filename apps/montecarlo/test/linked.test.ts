import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { openCase } from '@tubgap/casefile/node';
import { describe, expect, it } from 'vitest';
import type { ReadCase } from '../src/options.ts';
import { StudyFault } from '../src/study/fault.ts';
import { swapSettings } from '../src/study/swap.ts';
import { type VariedInput, variedInput } from '../src/study/varied-input.ts';
import { readVary } from '../src/study/vary.ts';

const DEMO = fileURLToPath(new URL('../../../datasets/demo/case.yaml', import.meta.url));
const read = openCase(DEMO) as ReadCase;
const varied = (words: string): VariedInput => variedInput(read, [], readVary(words));
const told = ({ settings }: VariedInput): string[] =>
  settings.map((some) => some.map(({ path, value }) => `${path}=${value}`).join('; '));

describe('an entry of a sweep', () => {
  it('moves several places together: a list of paths, and every tyre', () => {
    expect(told(varied('tyres[*].coldPressure = ~, +1 psi'))).toEqual([
      '',
      'tyres[0].coldPressure=~7 psi; tyres[1].coldPressure=~18 psi',
    ]);
    const both = varied('suspension.wheelRate, suspension.droopTravel = ~, +10 %');
    // 215 lbf/in and 2.8 in of the demo, by hand.
    expect(told(both)).toEqual(['', 'suspension.wheelRate=~236.5 lbf/in; suspension.droopTravel=~3.08 in']);
    expect(both).toMatchObject({ values: [0, 10], unit: '%', own: 0 });
    expect(both.inputs.map(({ path }) => path)).toContain('suspension.wheelRate');
  });

  it('moves a tyre with several classes once, and all of its classes with it', () => {
    const again = `  - { tyre: tall-slick, runsPerSeason: 9, class: { name: guests, run: { distance: 1000 ft } } }\ntubs: `;
    const folder = mkdtempSync(join(tmpdir(), 'tubgap-linked-'));
    cpSync(dirname(DEMO), folder, { recursive: true });
    const file = join(folder, 'case.yaml');
    writeFileSync(file, readFileSync(DEMO, 'utf8').replace(/^tubs: /m, again));
    const classes = openCase(file) as ReadCase;
    rmSync(folder, { recursive: true });
    const of = (words: string): VariedInput => variedInput(classes, [], readVary(words));
    expect(told(of('tyres[*].coldPressure = +1 psi'))).toEqual([
      'tyres[0].coldPressure=~7 psi; tyres[1].coldPressure=~18 psi',
    ]);
    expect(told(of('tyres[*].runsPerSeason = 20'))).toEqual([
      'tyres[0].runsPerSeason=20; tyres[1].runsPerSeason=20; tyres[2].runsPerSeason=20',
    ]);
    for (const index of [0, 2]) {
      const swapped = swapSettings(classes.text, index, 'other', '');
      expect(swapped.map(({ path }) => path)).toEqual(['tyres[0]', 'tyres[2].tyre', 'build.tyre']);
      expect(JSON.parse(swapped[0]!.value)).toMatchObject({
        tyre: 'other',
        rim: { backspacing: '5 1/4 in' },
      });
    }
  });

  it('reads changes of the own value of each place, a range of them, and both ways at once', () => {
    const own = read.source.tyres.map(({ inputs }) => inputs.coldPressure.law);
    expect(own).toHaveLength(2);
    const range = varied('tyres[*].coldPressure = -0.5 psi to +0.5 psi by 0.5 psi');
    expect(range.texts).toEqual(['-0.5 psi', '0 psi', '+0.5 psi']);
    expect(range.sources.map(({ tyres }) => tyres.map(({ inputs }) => inputs.coldPressure.law))[1]).toEqual(
      own,
    );
    expect(varied('run.trapSpeed = ± 1 %').settings.map(([one]) => one!.value)).toEqual([
      '~221.76 mph',
      '~226.24 mph',
    ]);
    expect(varied('run.trapSpeed = ~224 mph, 230 mph').values).toEqual([224, 230]);
  });

  it.each([
    ['run.trapSpeed = +1 mph, 230 mph', /"230 mph" stands among changes/],
    ['car.rearShare = ±1 %', /of a share it is not plain/],
    ['weather.airTemperature = ±1 %', /a temperature has no nought/],
    ['run.trapSpeed = +1 psi', /psi is no unit of it, allowed are mph/],
    ['suspension[*].wheelRate = 1, 2', /suspension is no list/],
  ])('says what is wrong with %s', (words, reason) => {
    let lines: readonly string[] = [];
    try {
      varied(words);
    } catch (error) {
      if (error instanceof StudyFault) ({ lines } = error);
    }
    expect(lines.join(' ')).toMatch(reason);
  });
});
