import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type Result, ResultsError, readResults, readStudy, type StudyOf, sealedText } from '@tubgap/results';
import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest';
import { tubgap } from './command.ts';
import { demoFolder, NAME, SWEEP, startApp } from './small-sweep.ts';

let folder: string;
let result: string;
let study: string;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'tubgap-damaged-'));
  cpSync(inject('demo'), join(folder, 'demo'), { recursive: true });
  const small = demoFolder('damaged');
  expect((await startApp(small, [...SWEEP, '--results', 'results']).end).code).toBe(0);
  cpSync(join(small, 'results', NAME), join(folder, 'study'), { recursive: true });
  rmSync(small, { recursive: true, force: true });
  result = readFileSync(join(folder, 'demo', 'result.json'), 'utf8');
  study = readFileSync(join(folder, 'study', 'study.json'), 'utf8');
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

const writeResult = (text: string): void => writeFileSync(join(folder, 'demo', 'result.json'), text);
const writeStudy = (text: string): void => writeFileSync(join(folder, 'study', 'study.json'), text);

/** The places of all digits of a text. */
const digitsOf = (text: string): number[] => [...text.matchAll(/\d/g)].map(({ index }) => index);

describe('a single digit that was changed', () => {
  it.each([
    ['result.json', () => result, writeResult, () => readResults(join(folder, 'demo'))],
    ['study.json', () => study, writeStudy, () => readStudy(join(folder, 'study'))],
  ] as const)('anywhere in %s is never read as good', (_, whole, write, read) => {
    const text = whole();
    const digits = digitsOf(text);
    const place = fc.nat(digits.length - 1);
    fc.assert(
      fc.property(place, fc.integer({ min: 1, max: 9 }), (n, more) => {
        const at = digits[n]!;
        const digit = (Number(text[at]) + more) % 10;
        write(text.slice(0, at) + digit + text.slice(at + 1));
        expect(read).toThrow(ResultsError);
        expect(read).toThrow(/again/);
      }),
      { numRuns: 60 },
    );
    write(text);
    expect(read).not.toThrow();
  });

  it('is told by every verb that reads it, which then says and writes nothing', () => {
    writeResult(
      result.replace(/"topHeight": 0\.(\d)/, (_, digit) => `"topHeight": 0.${(Number(digit) + 1) % 10}`),
    );
    for (const words of [
      ['report', 'demo'],
      ['year', 'demo'],
      ['revision', 'demo', 'demo'],
    ]) {
      const done = tubgap(folder, ...words);
      expect(done.err).toMatch(
        /result\.json: it does not match its digest: something in it was changed .* none of it can be trusted\. Run the case again/,
      );
      expect([done.code, done.out]).toEqual([2, '']);
    }
    writeResult(result);
  });
});

describe('parts that do not belong together, though every number is sound', () => {
  const changed = (change: (result: Result) => void): void => {
    const { digest: _, ...value } = JSON.parse(result);
    change(value);
    writeResult(sealedText(value));
  };

  it.each([
    ['picks', (the: Result) => the.picks.pop()],
    ['risks of one tub', (the: Result) => the.risks[0]![1]!.pop()],
    ['gaps', (the: Result) => the.gaps.pop()],
    ['tyres', (the: Result) => the.tyres.pop()],
    ['tubs', (the: Result) => the.tubs.push(the.tubs[0]!)],
    ['hard points', (the: Result) => the.hardPointFigures[0]!.pop()],
    ['outlines', (the: Result) => the.outlines.tyres[1]!.quantiles[0]!.pop()],
    ['a tally', (the: Result) => the.runs.all.tubs.pop()],
    ['static gaps', (the: Result) => the.build.staticGapAngles.pop()],
  ] as const)('are refused: %s', (_, change) => {
    changed((the) => void change(the));
    expect(() => readResults(join(folder, 'demo'))).toThrow(
      /entries where \d+ are needed\. Run the case again/,
    );
  });

  it.each([
    ['a chosen tub', (the: Result) => Object.assign(the, { chosen: 5 })],
    ['a build tyre', (the: Result) => Object.assign(the.build, { tyre: 'none' })],
    ['the order of the picks', (the: Result) => the.picks.reverse()],
  ] as const)('are refused: %s', (_, change) => {
    changed((the) => void change(the));
    expect(() => readResults(join(folder, 'demo'))).toThrow(/speaks of what the file does not hold/);
  });

  it('are refused where a number is none of a car', () => {
    changed((the) => Object.assign(the.tubs[0]!, { diameter: 1e300 }));
    expect(() => readResults(join(folder, 'demo'))).toThrow(/tubs\.0\.diameter: .*Run the case again/);
    writeResult(result);
  });

  it('are refused in a study', () => {
    const { digest: _, ...value } = JSON.parse(study) as StudyOf<'sweep'> & { digest: string };
    for (const change of [
      (the: StudyOf<'sweep'>) => the.points[1]!.figures.pop(),
      (the: StudyOf<'sweep'>) => the.points[2]!.at.pop(),
      (the: StudyOf<'sweep'>) => the.tubs[0]!.sides.pop(),
      (the: StudyOf<'sweep'>) => the.varied[0]!.values!.pop(),
      (the: StudyOf<'sweep'>) => Object.assign(the, { chosen: 7 }),
    ]) {
      const one = structuredClone(value);
      change(one);
      writeStudy(sealedText(one));
      expect(() => readStudy(join(folder, 'study'))).toThrow(/entries where|does not hold/);
    }
    writeStudy(study);
  });
});
