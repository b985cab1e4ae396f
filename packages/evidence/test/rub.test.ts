import { caseSetup } from '@tubgap/simulation';
import { describe, expect, it } from 'vitest';
import {
  evidenceParts,
  impossibleRubs,
  type MarkReading,
  noReadings,
  rubRaise,
  spaceOf,
} from '../src/index.ts';
import { demoCase } from './demo.ts';

const source = demoCase();
const setup = caseSetup(source);
const INCH = 0.0254;

const rub = (angle: number, top: number, thickness = 0, touched = true): MarkReading => ({
  file: 'marks.csv',
  line: 2,
  date: '',
  tyre: 'tall-slick',
  angle: (angle * Math.PI) / 180,
  touched,
  thickness: thickness * INCH,
  runs: 2,
  built: { tub: 'street-42', topHeight: top * INCH, centreForward: undefined },
});

const impossible = (...marks: MarkReading[]): number[] => {
  const parts = evidenceParts(source, setup, { ...noReadings(), marks });
  return impossibleRubs(spaceOf(setup, parts, 1), parts, 1).map((conflict) => marks.indexOf(conflict.mark!));
};

describe('a rub', () => {
  it('where no car of the case comes near is impossible; where one may, or nothing touched, it is none', () => {
    expect(impossible(rub(35, 41))).toEqual([0]);
    expect(impossible(rub(35, 37.5), rub(0, 36, 0, false))).toEqual([]);
  });

  it('asks for the height of the case and what the tyre came nearer than in an ordinary run', () => {
    const found = rubRaise(source, setup, rub(20, 41), 39.25 * INCH, 1);
    // Near the top nearly all of a raise is gained as gap.
    expect(found.gainOfRaise).toBeGreaterThan(0.8);
    expect(found.gainOfRaise).toBeLessThan(1.02);
    // By hand: the blur of a mark is 0.08 in; it stands 1.75 in above what the case asks for.
    expect(found.nearer).toBeCloseTo(found.ordinaryGap + 0.08 * INCH, 10);
    expect((found.raiseBy! + 1.75 * INCH) * found.gainOfRaise).toBeCloseTo(found.nearer, 10);
    expect(found.raiseBy!).toBeGreaterThan(INCH);
  });

  it('on a witness asks for so much less, but never for less than the case', () => {
    const [bare, thin, thick] = [0, 1, 6].map((thickness) =>
      rubRaise(source, setup, rub(20, 39, thickness), 39.25 * INCH, 1),
    );
    expect((bare!.raiseBy! - thin!.raiseBy!) * bare!.gainOfRaise).toBeCloseTo(INCH, 10);
    expect(thick!.raiseBy!).toBeGreaterThan(0.25 * INCH);
  });

  it('is mended by no height beside the tyre, or where the case has none', () => {
    expect(rubRaise(source, setup, rub(100, 41), 39.25 * INCH, 1).raiseBy).toBeUndefined();
    expect(rubRaise(source, setup, rub(20, 41), undefined, 1).raiseBy).toBeUndefined();
  });
});
