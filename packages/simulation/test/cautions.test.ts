import { describe, expect, it } from 'vitest';
import { caseCautions } from '../src/cautions.ts';
import { caseSetup } from '../src/setup.ts';
import { demoCase } from './demo.ts';

describe('the caution about laws with hard ends', () => {
  it('names laws, and not the toss that decides whether grip is lost: its ends are those of a chance', () => {
    const found = caseCautions(caseSetup(demoCase(1024, 1)));
    const text = found.find(({ code }) => code === 'bounded-laws')!.text;
    expect(text).toContain('relative humidity');
    expect(text).not.toContain('whether grip is lost');
  });
});
