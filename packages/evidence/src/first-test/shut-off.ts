import type { Case, UncertainInput } from '@tubgap/casefile';
import { speedAlong } from '@tubgap/core';
import type { CaseSetup } from '@tubgap/simulation';
import { relocateLaw } from '@tubgap/statistics';
import { FOOT } from '@tubgap/units';

/** Places at which a driver may shut off, m; those before the end of the track are taken. */
const SHUT_OFF = [60, 330, 660, 1000].map((feet) => feet * FOOT);
/** A place so near to the end of the track is its end. */
const NEAR_END = 0.95;

/** Where the runs of a first test are shut off, m, the whole track last. */
export const shutOffPlaces = (distance: number): number[] => [
  ...SHUT_OFF.filter((place) => place < NEAR_END * distance),
  distance,
];

const withLaw = (input: UncertainInput, factor: number, offset: number): UncertainInput => ({
  ...input,
  law: relocateLaw(input.law, factor, offset),
});

/**
 * The case of a run that is shut off early: slower at the end of a shorter track, still pulling. One tub is left in it.
 * @param shutOff  from the start, m
 * @param harder  more gauge pressure in the tyre, Pa
 */
export function shutOffCase(
  source: Case,
  setup: CaseSetup,
  tyre: number,
  tub: number,
  shutOff: number,
  harder: number,
): Case {
  const own = source.tyres[tyre]!;
  const { centralCar, run } = setup.tyres[tyre]!;
  const trap = own.car?.trapSpeed ?? source.car.trapSpeed;
  const speed = speedAlong(centralCar, run.distance, shutOff);
  const full = speedAlong(centralCar, run.distance, run.distance);
  const isWhole = shutOff >= run.distance;
  const acceleration = own.car?.finishAcceleration ?? source.car.finishAcceleration;
  const as: UncertainInput = { ...acceleration, law: { kind: 'constant', value: 1 } };
  const changed = isWhole ? {} : { trapSpeed: withLaw(trap, speed / full, 0), finishAcceleration: as };
  return {
    ...source,
    tubs: [source.tubs[tub]!],
    tyres: source.tyres.map((other, i) => ({
      ...other,
      ...(i === tyre
        ? {
            car: { ...other.car, ...changed },
            own: {
              ...other.own,
              distance: shutOff,
              finishAccelerationIs: isWhole ? run.finishAccelerationIs : ('relative' as const),
            },
          }
        : {}),
      inputs:
        i === tyre && harder > 0
          ? { ...other.inputs, coldPressure: withLaw(other.inputs.coldPressure, 1, harder) }
          : other.inputs,
    })),
  };
}
