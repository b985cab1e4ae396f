import { alongText } from '@tubgap/units';
import { unbroken } from '@tubgap/wording';
import type { MeasuredCar } from '../carried/measures.ts';
import type { caseIn } from './bench-case.ts';
import { type BenchState, withoutLesson } from './bench-state.ts';
import { lengthText } from './words.ts';

type ReadCase = Extract<ReturnType<typeof caseIn>, { ok: true }>;

/** Places nearer than this, m, are the same: a link rounds to a ten-thousandth of a millimetre. */
const SAME = 1e-6;

/** The car as a state shows it, to be kept with what is measured of it. */
export function carOf(state: BenchState): MeasuredCar {
  const { tub, topHeight, centre, notches, values } = withoutLesson(state);
  return {
    tub,
    topHeight,
    ...(centre === undefined ? {} : { centre }),
    notches: Object.fromEntries(Object.entries(notches).map(([name, list]) => [name, [...list]])),
    values: { ...values },
  };
}

/** The state in which the page shows the car as it was measured, nothing learned in it. */
export const measuredState = (state: BenchState, car: MeasuredCar): BenchState =>
  withoutLesson({ ...state, ...car, centre: car.centre });

const valuesText = (values: BenchState['values']): string =>
  JSON.stringify(
    Object.entries(values)
      .filter(([path]) => path !== 'learned')
      .sort(),
  );

/** Whether two states set the same values, what was learned left aside. */
export const sameValues = (a: BenchState['values'], b: BenchState['values']): boolean =>
  valuesText(a) === valuesText(b);

/** Where a tub stands, in words. */
export function placeText(found: ReadCase, { topHeight, units }: BenchState): string {
  const { name, centreForward } = found.source.tubs[found.tub]!;
  return `${name}, top at ${lengthText(topHeight, 'up', units)}, centre ${unbroken(alongText(centreForward, units))}`;
}

/** What the page shows otherwise than it was measured, in words; empty when it is the same car in the same place. */
export function changedSince(
  shown: ReadCase,
  state: BenchState,
  measured: ReadCase,
  then: BenchState,
): string[] {
  const [tub, was] = [shown.source.tubs[shown.tub]!, measured.source.tubs[measured.tub]!];
  const sameTub = tub.name === was.name;
  const notches = (of: typeof tub): string =>
    JSON.stringify(of.notches.map(({ angle, depth }) => [angle.toFixed(6), depth.toFixed(6)]));
  const moved =
    !sameTub ||
    Math.abs(state.topHeight - then.topHeight) > SAME ||
    Math.abs(tub.centreForward - was.centreForward) > SAME;
  return [
    ...(moved ? [placeText(shown, state)] : []),
    ...(sameTub && notches(tub) !== notches(was) ? ['another notch'] : []),
    ...(sameValues(state.values, then.values) ? [] : ['other values of the car']),
  ];
}
