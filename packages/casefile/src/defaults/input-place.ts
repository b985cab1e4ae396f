import type { CarInput, TyreInput } from '@tubgap/core';
import type { QuantityKind } from '@tubgap/units';
import { DEFAULTS } from '../defaults.ts';

/** Where an input of the core stands in a case, and what it is: whatever a case may give in its place. */
export interface InputPlace {
  /** 'car.mass'; of a tyre 'tyres[].coldPressure'. */
  path: string;
  label: string;
  kind: QuantityKind;
}

/** The throw of a die that decides whether grip is lost, from 0 to 1: no case can give it, so the table has no row for it. */
export const TOSS_PATH = 'run.gripLost.toss';
const TOSS: InputPlace = {
  path: TOSS_PATH,
  label: 'grip is lost where this is below its chance',
  kind: 'ratio',
};

/** Place of a car's input. */
export function carInputPlace(name: CarInput): InputPlace {
  const { path, label, kind } = DEFAULTS.car.find((row) => row.name === name) ?? TOSS;
  return { path, label, kind };
}

/** Place of a tyre's input. */
export function tyreInputPlace(name: TyreInput): InputPlace {
  const { path, label, kind } = DEFAULTS.tyre.find((row) => row.name === name)!;
  return { path, label, kind };
}
