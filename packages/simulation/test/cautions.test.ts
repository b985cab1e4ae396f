import type { Case, UncertainInput } from '@tubgap/casefile';
import type { CarInput } from '@tubgap/core';
import { describe, expect, it } from 'vitest';
import { caseCautions } from '../src/cautions.ts';
import { restCautions } from '../src/sense-checks.ts';
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

const G = 9.80665;
const at = (input: UncertainInput, value: number): UncertainInput => ({
  ...input,
  law: { kind: 'constant', value },
});

/** The demo with one input of the car exact for its second tyre's class alone, the radial's. */
function inClass(name: CarInput, value: number): Case {
  const source = demoCase(1024, 1);
  return {
    ...source,
    tyres: source.tyres.map((tyre, i) =>
      i === 1 ? { ...tyre, car: { ...tyre.car, [name]: at(source.car[name], value) } } : tyre,
    ),
  };
}

const told = (source: Case, code: string): string[] =>
  caseCautions(caseSetup(source))
    .filter((caution) => caution.code === code)
    .map(({ text }) => text);

describe('a caution about the car', () => {
  it('looks at the class of every tyre and says whose it is', () => {
    // Once only the build tyre’s class was looked at: 0.3 g for the radial reaches 188 mph over 1,320 ft in no way.
    expect(told(demoCase(1024, 1), 'trap-speed')).toEqual([]);
    const [text, ...more] = told(inClass('launchAcceleration', 0.3 * G), 'trap-speed');
    expect(more).toEqual([]);
    expect(text).toMatch(/^class-radial: The launch acceleration cannot reach the trap speed/);
  });

  it('says in how many launches the load that moves to the rear is cut at the weight on the front', () => {
    // Derived: of the slick's triangular law, 1.9 to 2.6 to 3.2 g, (3.2 − 2.66)²/(1.3 · 0.6) = 37 % lie above the lift at
    // 0.48 · 108/19.5 = 2.66 g; the radial's ends at 2.2 g. 256 launches: 3 % a standard error.
    const [text, ...more] = told(demoCase(1024, 1), 'front-wheels');
    expect(more).toEqual([]);
    const share = Number(/^tall-slick: In about (\d+) % of the launches/.exec(text!)![1]);
    expect(Math.abs(share - 37)).toBeLessThan(4 * 3);
    expect(text).toContain('ends at what the front axle carries');
  });

  it('says that notches move with the tub, where there are any', () => {
    const source = demoCase(1024, 1);
    expect(told(source, 'notches')).toEqual([]);
    const notched = source.tubs.map((tub) => ({ ...tub, notches: [{ angle: 0.5, depth: 0.01 }] }));
    expect(told({ ...source, tubs: notched }, 'notches')[0]).toMatch(
      /moves with its tub.*stays where it is/s,
    );
  });
});

describe('a sense check', () => {
  it('doubts a launch that no such tyre can hold, and names what to check', () => {
    expect(told(demoCase(1024, 1), 'launch-grip')).toEqual([]);
    const quick = inClass('launchAcceleration', 2.8 * G);
    const street: Case = {
      ...quick,
      tyres: quick.tyres.map((tyre, i) =>
        i === 1
          ? { ...tyre, inputs: { ...tyre.inputs, coldPressure: at(tyre.inputs.coldPressure, 30 * 6894.757) } }
          : tyre,
      ),
    };
    const [text] = told(street, 'launch-grip');
    expect(text).toMatch(
      /^class-radial: The launch asks .* grip of 2\.[89].*street radial.*Check the launch acceleration/s,
    );
  });

  it('doubts power that has nothing to do with the trap speed', () => {
    expect(told(demoCase(1024, 1), 'power')).toEqual([]);
    // Drag area in square feet taken for square metres: 6.2 in place of 0.58.
    expect(told(inClass('dragArea', 6.2), 'power')[0]).toMatch(
      /^class-radial: .* hp at the tread.*Check mass, drag area/s,
    );
  });

  it('says where a tyre stands in the skin of a tub before it has turned', () => {
    const setup = caseSetup(demoCase(1024, 1));
    const place = (topHeight: number) => [{ tub: 3, name: 'tall-46', topHeight }];
    expect(restCautions(setup, place(1))).toEqual([]);
    expect(restCautions(setup, place(0.8))[0]!.text).toMatch(
      /^tall-46 with its top at 31\.50 in has no gap at all.*Check/s,
    );
  });
});
