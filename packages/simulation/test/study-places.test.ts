import type { Case, UncertainInput } from '@tubgap/casefile';
import { BLOCK } from '@tubgap/statistics';
import { describe, expect, it } from 'vitest';
import { touchCentres } from '../src/importance/centres.ts';
import { normalSpace } from '../src/importance/normal-space.ts';
import { createBlockRoom } from '../src/run-risk.ts';
import { caseSetup } from '../src/setup.ts';
import { findPlaces, parabolaOffset, type TubPlaces } from '../src/study/places.ts';
import { openStudy, performStudyTask } from '../src/study/study-tasks.ts';
import { demoCase } from './demo.ts';

const INCH = 0.0254;

function placesOf(source: Case): Promise<TubPlaces[]> {
  const setup = caseSetup(source);
  const centres = touchCentres(setup, normalSpace(setup), source.simulation.seed, createBlockRoom(setup));
  const sample = { draws: 2 * BLOCK, weightedBlocks: 2, centres };
  return findPlaces(source, sample, (placed) => {
    const study = openStudy([{ label: placed.name, source: placed }]);
    return {
      study,
      perform: async (tasks) => tasks.map((task) => performStudyTask(study, task)),
      close: async () => {},
    };
  });
}

const exactly = (input: UncertainInput, value: number): UncertainInput => ({
  ...input,
  law: { kind: 'constant', value },
});

/**
 * The demo on its slick alone, in one tub, with a tyre so stiff that thrust does not push it forward, without an
 * allowance ahead of its top, and with links that move the axle forward by a share of the body's drop.
 */
function evenCar(slope: number): Case {
  const source = demoCase(1, 1);
  const tyre = source.tyres[0]!;
  return {
    ...source,
    tyres: [
      {
        ...tyre,
        deflection: 0.25 * INCH,
        inputs: { ...tyre.inputs, lobeHeight: exactly(tyre.inputs.lobeHeight, 0) },
      },
    ],
    tubs: [source.tubs[3]!],
    hardPoints: [],
    car: {
      ...source.car,
      axlePathSlope: exactly(source.car.axlePathSlope, slope),
      bushingGive: exactly(source.car.bushingGive, 0),
    },
  };
}

const heightOf = (place: TubPlaces['own']): number => place.figures.at(-1)!.even?.height ?? Infinity;

describe('the best fore-aft place', () => {
  it('asks for less height than the places beside it, and an inch off costs more either way', async () => {
    const source = demoCase(1, 1);
    const found = await placesOf({ ...source, tubs: [source.tubs[0]!, source.tubs[2]!, source.tubs[4]!] });
    expect(found.map(({ tub }) => tub)).toEqual(['short-39', 'middle-44', 'full-50']);
    // A tub too small for the slick clears only with the ends of its legs above the tyre's shoulders.
    expect(heightOf(found[0]!.best!)).toBeGreaterThan(48 * INCH);
    expect(found[0]!.searched[8]!.figures.at(-1)!.decidedBy).toBe('leg');
    for (const places of found.slice(1)) {
      const { searched, best, inchAhead, inchBehind, own, asGood } = places;
      const least = Math.min(...searched.map(heightOf));
      expect(heightOf(best!)).toBeLessThan(least + INCH / 64);
      for (const off of [inchAhead!, inchBehind!])
        expect(heightOf(off)).toBeGreaterThan(heightOf(best!) + INCH / 16);
      expect(heightOf(own)).toBeGreaterThanOrEqual(heightOf(best!));
      expect(
        Math.abs(best!.centreForward / (INCH / 16) - Math.round(best!.centreForward / (INCH / 16))),
      ).toBeLessThan(1e-6);
      expect(asGood!.from).toBeLessThan(best!.centreForward);
      expect(asGood!.to).toBeGreaterThan(best!.centreForward);
    }
  });

  it('is straight above the axle for a tyre that nothing pushes forward, and follows the axle where links move it', async () => {
    const [even] = await placesOf(evenCar(0));
    expect(Math.abs(even!.best!.centreForward)).toBeLessThanOrEqual(INCH / 16 + 1e-9);
    // Derived: the demo's body drops to its stop near 2 in and on to some 3 in; the axle moves ahead by a fifth of it.
    const [led] = await placesOf(evenCar(0.2));
    expect(led!.best!.centreForward).toBeGreaterThan(0.2 * 1.7 * INCH);
    expect(led!.best!.centreForward).toBeLessThan(0.2 * 3.2 * INCH);
  });

  it('lies at the lowest point of the parabola through three heights', () => {
    // (x - 0.1)² at -1, 0, 1: 1.21, 0.01, 0.81.
    expect(parabolaOffset(1.21, 0.01, 0.81, 1)).toBeCloseTo(0.1, 12);
    expect(parabolaOffset(1, 1, 1, 1)).toBe(0);
    expect(parabolaOffset(Infinity, 1, 2, 1)).toBe(0);
  });
});
