import { describe, expect, it } from 'vitest';
import { easyStep, readOver } from '../src/study/over.ts';

const texts = (range: string): string[] => readOver(`tyres[*].coldPressure = ${range}`).texts;

describe('a range that is looked over', () => {
  it('has both ends, in steps that are easily set, in rising order', () => {
    expect(texts('6..9 psi')).toHaveLength(31);
    expect(texts('6..9 psi').slice(0, 2)).toEqual(['6 psi', '6.1 psi']);
    expect(texts('9 psi to 6 psi by 1 psi')).toEqual(['6 psi', '7 psi', '8 psi', '9 psi']);
    expect(texts('6..9 psi by 2 psi')).toEqual(['6 psi', '8 psi', '9 psi']);
    expect(texts('7..7 psi')).toEqual(['7 psi']);
    expect(texts('5, 6, 8 psi')).toEqual(['5 psi', '6 psi', '8 psi']);
    expect([easyStep(1, 'in'), easyStep(4, 'in'), easyStep(30, 'mm'), easyStep(0.4, 'g')]).toEqual([
      1 / 16,
      1 / 8,
      1,
      0.02,
    ]);
  });

  it('keeps changes changes, also where they end at nothing', () => {
    expect(texts('+0..+1 psi by 0.5 psi')).toEqual(['0 psi', '+0.5 psi', '+1 psi']);
    expect(texts('-1..+0 psi by 0.5 psi')).toEqual(['-1 psi', '-0.5 psi', '+0 psi']);
    expect(texts('-10..+10 % by 10 %')).toEqual(['-10 %', '0 %', '+10 %']);
  });

  it('refuses what is no range, what is the shop’s to accept, and too many values', () => {
    expect(() => readOver('tubCentreForward')).toThrow('a place of the case and its range are needed');
    expect(() => readOver('accept.runRisk = 1..2 %')).toThrow('not to be looked over');
    expect(() => texts('a..b')).toThrow('numbers and their unit are needed');
    expect(() => texts('0..10 psi by 0.01 psi')).toThrow(/values/);
  });
});
