import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { assess, CaseFault, drawSide, eachBlock, judge, openCase, riskRows, withLaw } from '../src/index.ts';

const demo = (name: string): string =>
  readFileSync(new URL(`../../../datasets/demo/${name}`, import.meta.url), 'utf8');
const files = { 'tubs.csv': demo('tubs.csv'), 'tyres.csv': demo('tyres.csv') };
const few = { 'simulation.draws': '2048', 'simulation.cars': '16' };
const open = (set: Record<string, string> = few) => openCase(demo('case.yaml'), { files, set });

describe('openCase', () => {
  it('throws every fault with its place', () => {
    const broken = demo('case.yaml').replace('wheelbase: 108 in', 'wheelbase: long');
    const fault = (() => {
      try {
        openCase(broken, { files });
      } catch (error) {
        return error;
      }
    })() as CaseFault;
    expect(fault).toBeInstanceOf(CaseFault);
    expect(fault.issues).toMatchObject([{ path: 'car.wheelbase', read: 'long', line: expect.any(Number) }]);
  });

  it('takes another law by path, and refuses a path where none stands', () => {
    const source = withLaw(open(), 'run.trapSpeed', { kind: 'constant', value: 100 });
    expect(source.car.trapSpeed.law).toEqual({ kind: 'constant', value: 100 });
    expect(() => withLaw(open(), 'run.topSpeed', { kind: 'constant', value: 100 })).toThrow(
      /no uncertain input run\.topSpeed/,
    );
  });
});

describe('draws and verdicts', () => {
  it('are of the same runs: what a block needs is counted by the assessment', async () => {
    const whole = open();
    const source = { ...whole, tubs: whole.tubs.filter(({ name }) => name === 'street-42') };
    const heights: number[] = [];
    await eachBlock(source, { draws: 2048 }, ({ tyre, count, requiredHeight }) => {
      if (tyre === 'tall-slick') heights.push(...requiredHeight['street-42']!.subarray(0, count));
    });
    const rows = riskRows(source, await assess(source)).filter(({ tyre }) => tyre === 'tall-slick');
    expect(rows.length).toBeGreaterThan(3);
    for (const { topHeight, risk } of rows) {
      expect([risk.events, risk.touches]).toEqual([
        2048,
        heights.filter((height) => height > topHeight).length,
      ]);
    }
  });

  it('name what the case has where it is asked about something else', async () => {
    await expect(async () => judge(open(), { tub: 'round-99' })).rejects.toThrow(
      /no tub round-99; it has short-39, street-42/,
    );
    expect(() => drawSide(open(), 'round-99', 1)).toThrow(RangeError);
    expect(drawSide(open(), 'street-42', 39.25 * 0.0254)).toMatch(/top 39 1\/4 in/);
  });
});
