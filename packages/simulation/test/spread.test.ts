import type { Case, UncertainInput } from '@tubgap/casefile';
import { CAR_INPUTS, TYRE_INPUTS } from '@tubgap/core';
import { centralValue, isSpread } from '@tubgap/statistics';
import { describe, expect, it } from 'vitest';
import { createBlockRoom } from '../src/run-risk.ts';
import { caseSetup } from '../src/setup.ts';
import { inspectShares } from '../src/shares.ts';
import { demoCase } from './demo.ts';

/** Shares of every tyre and moment in one tub: a digest that every input must move. */
function digest(source: Case): string {
  const setup = caseSetup(source);
  const room = createBlockRoom(setup);
  const tub = setup.clearance.tubs[3]!;
  return JSON.stringify(setup.tyres.map((_, i) => inspectShares(setup, 1, i, tub, 1.02, room)));
}

const still = (input: UncertainInput): UncertainInput => ({
  ...input,
  law: { kind: 'constant', value: centralValue(input.law) },
});

describe('every uncertain input of the demo', () => {
  const source = demoCase(2048, 1);
  const whole = digest(source);
  const spread = CAR_INPUTS.filter((name) => isSpread(source.car[name].law));
  const tyreSpread = source.tyres.flatMap((tyre, i) =>
    TYRE_INPUTS.filter((name) => isSpread(tyre.inputs[name].law)).map((name) => [i, name] as const),
  );

  it('is there to be tried', () => {
    expect(spread.length).toBeGreaterThan(20);
    expect(tyreSpread.length).toBeGreaterThan(16);
  });

  it.each(spread)('%s changes the result when its spread is taken away', (name) => {
    expect(digest({ ...source, car: { ...source.car, [name]: still(source.car[name]) } })).not.toBe(whole);
  });

  it.each(tyreSpread)('tyre %i, %s changes the result when its spread is taken away', (i, name) => {
    const tyres = source.tyres.map((tyre, k) =>
      k === i ? { ...tyre, inputs: { ...tyre.inputs, [name]: still(tyre.inputs[name]) } } : tyre,
    );
    expect(digest({ ...source, tyres })).not.toBe(whole);
  });
});
