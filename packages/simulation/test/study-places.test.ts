import type { Case, UncertainInput } from '@tubgap/casefile';
import { BLOCK } from '@tubgap/statistics';
import { describe, expect, it } from 'vitest';
import { touchCentres } from '../src/importance/centres.ts';
import { normalSpace } from '../src/importance/normal-space.ts';
import { createBlockRoom } from '../src/run-risk.ts';
import { caseSetup } from '../src/setup.ts';
import { findPlaces, type TubPlaces } from '../src/study/find-places.ts';
import { type PerformTubs, parabolaOffset } from '../src/study/places.ts';
import { lackAt } from '../src/study/search-places.ts';
import { openStudy, performStudyTask, type StudySample } from '../src/study/study-tasks.ts';
import { demoCase } from './demo.ts';

const INCH = 0.0254;

/** Tasks of a case in other tubs, here. */
const here =
  (source: Case): PerformTubs =>
  (tubs) => {
    const study = openStudy([{ label: source.name, source: { ...source, tubs: [...tubs] } }]);
    return async (tasks) => tasks.map((task) => performStudyTask(study, task));
  };

function sampleOf(source: Case): StudySample {
  const setup = caseSetup(source);
  const centres = touchCentres(setup, normalSpace(setup), source.simulation.seed, createBlockRoom(setup));
  return { draws: 8 * BLOCK, weightedBlocks: 4, centres };
}

const placesOf = (source: Case): Promise<TubPlaces[]> => findPlaces(source, sampleOf(source), here(source));

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
    tubs: [{ ...source.tubs[3]!, centreForward: INCH }],
    hardPoints: [],
    car: {
      ...source.car,
      axlePathSlope: exactly(source.car.axlePathSlope, slope),
      bushingGive: exactly(source.car.bushingGive, 0),
    },
  };
}

const heightOf = (place: TubPlaces['own']): number => place.figures.at(-1)!.even?.height ?? Infinity;

/** Where the band of places lies in which the slick passes between such legs, in ahead. */
const BAND = 0.35;

/** Few draws support no rare risk. */
const accepting = (source: Case, runRisk: number): Case => ({
  ...source,
  simulation: { ...source.simulation, cars: 64 },
  accept: { runRisk, seasonRisk: 0.9 },
});

describe('the best fore-aft place', () => {
  it('asks for less height than the places beside it, and an inch off costs more either way', async () => {
    const demo = accepting(demoCase(1, 1), 0.004);
    const source = { ...demo, tubs: [demo.tubs[0]!, demo.tubs[1]!, demo.tubs[2]!] };
    const found = await placesOf(source);
    // A tub too small for the slick clears only with the ends of its legs above the tyre's shoulders.
    expect(found[0]!.best!.topHeight).toBeGreaterThan(48 * INCH);
    expect(found[0]!.own.figures.at(-1)!.decidedBy).toBe('leg');
    for (const { searched, best, inchAhead, inchBehind, atBest } of found) {
      const there = searched.find(({ centreForward }) => centreForward === best!.centreForward)!;
      expect(heightOf(there)).toBeLessThan(Math.min(...searched.map(heightOf)) + INCH / 32);
      for (const off of [inchAhead!, inchBehind!])
        expect(heightOf(off)).toBeGreaterThan(heightOf(there) + INCH / 16);
      expect(
        Math.abs(best!.centreForward / (INCH / 16) - Math.round(best!.centreForward / (INCH / 16))),
      ).toBeLessThan(1e-6);
      expect(atBest!.centreForward).toBe(best!.centreForward);
    }
    const { asGood, best } = found[2]!;
    expect(asGood!.from).toBeLessThan(best!.centreForward);
    expect(asGood!.to).toBeGreaterThan(best!.centreForward);
  });

  it('is looked for by the risk that no height takes away where there is no height at all', async () => {
    const demo = accepting(demoCase(1, 1), 0.05);
    // Legs down past the axle, hardly further apart than the slick is long at speed.
    const legs = { ...demo.tubs[1]!, diameter: 39.5 * INCH, legLength: 60 * INCH };
    const at = (inches: number): Case => ({ ...demo, tubs: [{ ...legs, centreForward: inches * INCH }] });
    const source = at(BAND - 1 / 3);
    const [found] = await placesOf(source);
    const grid = [BAND - 1, BAND - 1 / 3, BAND + 1 / 3, BAND + 1];
    for (const inches of grid) {
      const place = found!.searched.find(
        ({ centreForward }) => Math.abs(centreForward - inches * INCH) < 1e-9,
      );
      expect(lackAt(source, place!)[0]).toBe(2);
    }
    expect(found!.best!.centreForward / INCH).toBeGreaterThan(BAND - 1 / 4);
    expect(found!.best!.centreForward / INCH).toBeLessThan(BAND + 1 / 4);
  });

  it('is straight above the axle for a tyre that nothing pushes forward, and follows the axle where links move it', async () => {
    const [even] = await placesOf(accepting(evenCar(0), 0.004));
    expect(Math.abs(even!.best!.centreForward)).toBeLessThanOrEqual(INCH / 8 + 1e-9);
    // Derived: the demo's body drops to its stop near 2 in and on to some 3 in; the axle moves ahead by a fifth of it.
    const [led] = await placesOf(accepting(evenCar(0.2), 0.004));
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
