import type { Case, UncertainInput } from '@tubgap/casefile';
import { MOMENTS } from '@tubgap/core';
import { centralValue } from '@tubgap/statistics';
import { SIXTEENTH } from '@tubgap/units';
import { expect, test } from 'vitest';
import { setOutOf } from '../src/set-out.ts';
import { type CaseSetup, caseSetup } from '../src/setup.ts';
import { caseState } from '../src/state.ts';
import { findTolerances, type Tolerances } from '../src/tolerances.ts';
import { demoCase } from './demo.ts';

const exactly = (inputs: Record<string, UncertainInput>): Record<string, UncertainInput> =>
  Object.fromEntries(
    Object.entries(inputs).map(([name, input]) => [
      name,
      { ...input, law: { kind: 'constant', value: centralValue(input.law) } },
    ]),
  );

/** The demo without any spread: every run is the same one, and its needed height is known from one state a moment. */
function certainCase(): Case {
  const source = demoCase(1024, 16);
  return {
    ...source,
    hardPoints: [],
    car: exactly(source.car) as Case['car'],
    tyres: source.tyres.map(({ car: _, ...tyre }) => ({
      ...tyre,
      inputs: exactly(tyre.inputs) as typeof tyre.inputs,
    })),
  };
}

const TUB = 3;

/** Height, on a sixteenth of an inch, that the certain run needs with the tub's centre moved and its arc smaller. */
function neededHeight(setup: CaseSetup, index: number, ahead: number, loss: number): number {
  const tub = setup.clearance.tubs[index]!;
  const built = { ...tub, radius: tub.radius - loss, centreForward: tub.centreForward + ahead };
  const changed = { ...setup, clearance: { ...setup.clearance, tubs: [built] } };
  const heights = setup.tyres.flatMap((_, tyre) =>
    MOMENTS.map((moment) => caseState(changed, { tyre, tub: 0, topHeight: 1, moment }))
      .filter((state) => state.happens)
      .map((state) => state.requiredHeight),
  );
  return Math.ceil(Math.max(...heights) / SIXTEENTH - 1e-6) * SIXTEENTH;
}

// Derived: without spread the allowed misplacement is the largest one whose single run still keeps its reserve.
test.each([
  ['a tall tub, whose arc decides', TUB],
  ['a tub so short that its legs do once it is smaller', 1],
])('without any spread the tolerances of %s are those of one single run', (_, index) => {
  const source = certainCase();
  const setup = caseSetup(source);
  const neededBy = (ahead: number, loss: number): number => neededHeight(setup, index, ahead, loss);
  const needed = neededBy(0, 0);
  const picks = setup.clearance.tubs.map((__, t) => (t === index ? { height: { topHeight: needed } } : {}));
  const { rows } = findTolerances(source, setup, picks, index) as Tolerances;
  expect(rows).toHaveLength(5);
  const most = (offsets: readonly number[], fits: (offset: number) => boolean): number => {
    const end = offsets.findIndex((n) => !fits(n * SIXTEENTH));
    return SIXTEENTH * (offsets[(end < 0 ? offsets.length : end) - 1] ?? 0);
  };
  for (const row of rows) {
    const top = needed + row.higher + 1e-9;
    expect(row.lower).toBeCloseTo(row.higher, 9);
    expect(row.ahead).toBeCloseTo(
      most([1, 2, 4, 8], (off) => neededBy(off, 0) <= top),
      9,
    );
    expect(row.back).toBeCloseTo(
      most([1, 2, 4, 8], (off) => neededBy(-off, 0) <= top),
      9,
    );
    // The smaller arc stands about the same centre: its crown is lower by what it is smaller.
    expect(row.gapLess).toBeCloseTo(
      most([1, 2, 4, 8], (loss) => neededBy(0, loss) + loss <= top),
      9,
    );
  }
  expect(new Set(rows.map((row) => row.gapLess)).size).toBeGreaterThan(2);
});

test('with spread a tub that is set out higher may be off by more in every way, and shows more gap at its top', () => {
  const source = demoCase(2048, 16);
  const setup = caseSetup(source);
  const picks = setup.clearance.tubs.map((_, t) => (t === TUB ? { height: { topHeight: 1.0033 } } : {}));
  const { rows, angles } = findTolerances(source, setup, picks, TUB) as Tolerances;
  const top = angles.findIndex((angle) => Math.abs(angle) < 1e-9);
  for (const [k, row] of rows.entries()) {
    const before = rows[k - 1];
    if (before === undefined) continue;
    for (const way of ['lower', 'ahead', 'back', 'gapLess'] as const) {
      expect(row[way]).toBeGreaterThanOrEqual(before[way]);
    }
    expect(row.staticGaps[top]!).toBeGreaterThan(before.staticGaps[top]!);
  }
}, 60_000);

test('without a tub to build there is nothing to be off from', () => {
  const source = demoCase(1024, 16);
  expect(findTolerances(source, caseSetup(source), [], undefined)).toBeUndefined();
});

test('a tub is set out where a sixteenth each way is allowed, but no higher than the car has room for it', () => {
  const source = demoCase(1024, 16);
  const tub = source.tubs[TUB]!;
  const least = 1;
  const row = (higher: number, much: number) => ({
    higher: higher * SIXTEENTH,
    lower: much * SIXTEENTH,
    ahead: 2 * SIXTEENTH,
    back: 2 * SIXTEENTH,
    gapLess: much * SIXTEENTH,
    staticGaps: [],
  });
  const rows = [row(0, 0), row(2, 1), row(4, 2)];
  // Derived: the outside of the skin over the height that is set out.
  const highest = (more: number): Case => ({
    ...source,
    envelope: { highestTop: least + more * SIXTEENTH + tub.liner + tub.skinThickness },
  });
  const roomy = setOutOf(highest(2), TUB, least, rows);
  expect(roomy.row).toBe(1);
  expect(roomy.topHeight).toBeCloseTo(least + 2 * SIXTEENTH, 12);
  expect(roomy.passes).toBeCloseTo(least + SIXTEENTH, 12);
  expect(setOutOf(highest(1.5), TUB, least, rows)).toEqual({ row: 0, topHeight: least, passes: least });
  // Where no row leaves a sixteenth each way every hair counts at the least height.
  expect(setOutOf(highest(9), TUB, least, rows.slice(0, 1)).topHeight).toBe(least);
});
