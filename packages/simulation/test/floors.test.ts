import { beforeAll, describe, expect, it } from 'vitest';
import { caseSetup, findingRisks, pickHeights } from '../src/index.ts';
import { performHere, simulateUntilSettled } from '../src/simulate.ts';
import { HEIGHT_STEPS } from '../src/tally.ts';
import { type Findings, reportedFrom } from '../src/tasks.ts';
import { demoCase } from './demo.ts';

const source = demoCase(8192, 128);
const setup = caseSetup(source);

/** The case simulated, and the same with every height in question. */
async function simulated(asked: readonly number[]): Promise<Findings> {
  return (await simulateUntilSettled(source, setup, performHere(source), () => {}, asked)).found;
}

describe('floors', () => {
  let found: Findings;
  let whole: Findings;
  beforeAll(async () => {
    found = await simulated([]);
    whole = await simulated([0]);
  });

  it('lie where one run in ten touches, far below what is picked', () => {
    const risks = findingRisks(whole);
    found.floors.forEach((tubs, i) => {
      tubs.forEach((floor, t) => {
        const step = Math.round((floor - setup.lowestHeights[t]!) / (0.0254 / 16));
        if (step === 0) return;
        expect(step % 4).toBe(0);
        expect(risks.tyres[i]![t]!.touch(step).estimate).toBeGreaterThan(0.09);
        expect(risks.tyres[i]![t]!.touch(step).estimate).toBeLessThan(0.25);
      });
    });
    expect(found.floors.flat().some((floor, k) => floor > whole.floors.flat()[k]!)).toBe(true);
  });

  it('leave every risk above them, the centres and the picks as they are', () => {
    expect(found.centres).toEqual(whole.centres);
    const runs = whole.runs;
    expect(pickHeights(source, setup, findingRisks(found), found.runs)).toEqual(
      pickHeights(source, setup, findingRisks(whole), runs),
    );
    const own = findingRisks(found);
    const all = findingRisks(whole);
    source.tubs.forEach((_, t) => {
      const stepOf = (height: number): number =>
        Math.round((height - setup.lowestHeights[t]!) / (0.0254 / 16));
      const from = stepOf(reportedFrom(found, t));
      for (let step = from; step < HEIGHT_STEPS; step++) {
        expect(own.all[t]!.touch(step)).toEqual(all.all[t]!.touch(step));
        expect(own.seasons[t]!(step)).toEqual(all.seasons[t]!(step));
      }
      found.floors.forEach((floors, i) => {
        for (let step = stepOf(floors[t]!); step < HEIGHT_STEPS; step++) {
          expect(own.tyres[i]![t]!.touch(step)).toEqual(all.tyres[i]![t]!.touch(step));
          expect(own.tyres[i]![t]!.contact(step)).toEqual(all.tyres[i]![t]!.contact(step));
        }
      });
    });
  });

  it('say no risk below them too small', () => {
    const own = findingRisks(found);
    const all = findingRisks(whole);
    own.tyres.forEach((tubs, i) => {
      tubs.forEach(({ touch }, t) => {
        expect(touch(0).estimate).toBeGreaterThanOrEqual(all.tyres[i]![t]!.touch(0).estimate - 1e-12);
      });
    });
  });
});
