import type { Construction } from '@tubgap/core';
import { fieldSpec } from './defaults/field-spec.ts';
import type { LawText } from './defaults/row.ts';
import { anyTyreSpec, carSpec, DEFAULTS, tyreSpec } from './defaults.ts';
import { type QuantitySpec, type Reading, readQuantity } from './quantity.ts';

/** What a single number at a place of the table must be; RangeError when the table has no such place. */
function specAt(path: string, construction?: Construction): QuantitySpec {
  const car = DEFAULTS.car.find((row) => row.path === path);
  if (car) return carSpec(car);
  const tyre = DEFAULTS.tyre.find((row) => row.path === path);
  if (tyre) return construction === undefined ? anyTyreSpec(tyre) : tyreSpec(tyre, construction);
  const exact = DEFAULTS.exact.find((row) => row.path === path);
  if (exact) return fieldSpec(exact);
  throw new RangeError(`the table of defaults has no field ${path}`);
}

/**
 * One quantity as a case file would read it at a place, SI, or why it is none: kind, range and words are the table's.
 * @param path  as the table has it: 'run.trapSpeed', 'tyres[].coldPressure'; RangeError for any other
 * @param construction  of the tyre, whose own range then holds; left out: the widest of all
 */
export const readAt = (path: string, raw: unknown, construction?: Construction): Reading<number> =>
  readQuantity(raw, specAt(path, construction));

/** What the table takes where a case says nothing. */
export interface StandingDefault {
  /** As the table has it: 'suspension.antiSquat', 'tyres[].growthScale'. */
  path: string;
  label: string;
  /** A law, or an exact value, as a case file would write it. */
  value: LawText | string | number;
  /** Where it comes from; a setting of the simulation has no reason. */
  basis?: string;
}

/** Every default of the table that has a value of its own, the tyre's for a construction. */
export function standingDefaults(construction: Construction): StandingDefault[] {
  const inputs = [
    ...DEFAULTS.car.map(({ path, label, prior }) => ({ path, label, prior })),
    ...DEFAULTS.tyre.map(({ path, label, prior }) => ({ path, label, prior: prior[construction] })),
  ];
  return [
    ...inputs.flatMap(({ path, label, prior }) =>
      prior.law ? [{ path, label, value: prior.law, basis: prior.basis }] : [],
    ),
    ...DEFAULTS.exact.flatMap(({ path, label, value, basis }) =>
      value === undefined ? [] : [{ path, label, value, ...(basis === undefined ? {} : { basis }) }],
    ),
  ];
}
