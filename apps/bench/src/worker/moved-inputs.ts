import { type Case, inputsOf, type LearnedFile, type LearnedInput } from '@tubgap/casefile';
import { carColumn } from '@tubgap/core';
import { type Believed, type CarSpace, growthCurve } from '@tubgap/evidence';
import type { CaseSetup } from '@tubgap/simulation';
import { quantile } from '@tubgap/statistics';
import type { QuantityKind } from '@tubgap/units';

/** The middle of a range that nine in ten lie in, and its ends; SI. */
export type Range = readonly [low: number, middle: number, high: number];

/** Something that came out otherwise than it was assumed. */
export interface Moved {
  label: string;
  tyre?: string;
  /** Of a growth: the speed at which it is told, m/s. */
  speed?: number;
  kind: QuantityKind;
  before: Range;
  after: Range;
}

/** Less than this, in standard deviations of what was assumed, is no reason for anything. */
const MATTERS_MIDDLE = 0.25;
const MATTERS_SPREAD = 0.8;

const matters = ({ middle, spreadBelow, spreadAbove }: LearnedInput): boolean =>
  Math.abs(middle) >= MATTERS_MIDDLE || (spreadBelow + spreadAbove) / 2 <= MATTERS_SPREAD;

const rangeOf = (source: Case, input: LearnedInput): { kind: QuantityKind; range: Range } => {
  const { law, kind } = inputsOf(source, input)[0]!.input;
  return { kind, range: [quantile(law, 0.05), quantile(law, 0.5), quantile(law, 0.95)] };
};

/** Growth at the finish of one tyre: what its growth scale means to whoever has a tape. */
function growthMoved(
  setup: CaseSetup,
  believed: Believed,
  whole: CarSpace,
  tyre: number,
  seed: number,
): Moved {
  const own = setup.tyres[tyre]!;
  const speed = own.centralCar[carColumn('trapSpeed')]!;
  const { before, after } = growthCurve(setup, believed, whole, tyre, [], speed, seed);
  const last = ({ low, middle, high }: typeof before): Range => [low.at(-1)!, middle.at(-1)!, high.at(-1)!];
  return {
    label: 'growth',
    tyre: own.name,
    speed,
    kind: 'length',
    before: last(before),
    after: last(after),
  };
}

/** What moved so far that it is worth naming, the most first. @param updated  the case with what was learned */
export function movedInputs(
  source: Case,
  updated: Case,
  learned: LearnedFile,
  setup: CaseSetup,
  believed: Believed,
  whole: CarSpace,
  seed: number,
): Moved[] {
  return learned.inputs
    .filter(matters)
    .sort((a, b) => Math.abs(b.middle) - Math.abs(a.middle))
    .map((input): Moved => {
      const { label, tyre } = input;
      if (tyre !== undefined && input.input === 'growthScale') {
        const index = setup.tyres.findIndex(({ name }) => name === tyre);
        return growthMoved(setup, believed, whole, index, seed);
      }
      const { kind, range } = rangeOf(source, input);
      return {
        label,
        ...(tyre === undefined ? {} : { tyre }),
        kind,
        before: range,
        after: rangeOf(updated, input).range,
      };
    });
}
