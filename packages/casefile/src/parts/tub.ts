import { centralValue } from '@tubgap/statistics';
import type { CaseTub, CaseTyre } from '../case.ts';
import type { CatalogueTub } from '../catalogue/catalogue.ts';
import { exactField } from '../defaults/field-spec.ts';
import { inInches } from '../quantity.ts';
import { exactDefault } from './input.ts';
import type { Ledger } from './ledger.ts';

/**
 * A tub of the catalogue at its place on the car; what its row leaves blank is assumed.
 * @param catalogue  as a basis names it: 'tubs.csv'
 */
export function caseTub(
  { name, line, values, listed, inStock }: CatalogueTub,
  catalogue: string,
  centreForward: number,
  ledger: Ledger,
): CaseTub {
  const filled = (field: string): number => {
    const value = values[field];
    if (value !== undefined) return value;
    const row = `tubs[].${field}`;
    const { label, value: shown, basis = '' } = exactField(row);
    ledger.note({
      path: `${catalogue}:${line} ${field}`,
      label: `${label} of ${name}`,
      shown: String(shown),
      basis,
    });
    return exactDefault(row);
  };
  return {
    name,
    diameter: filled('insideDiameter'),
    liner: filled('liner'),
    arcExtent: filled('arcExtent'),
    legLength: filled('legLength'),
    insideWidth: filled('insideWidth'),
    skinThickness: filled('skinThickness'),
    arealDensity: filled('arealDensity'),
    centreForward,
    notches: [],
    ...(Object.keys(listed).length > 0 && { listed }),
    ...(inStock !== undefined && { inStock }),
  };
}

/** Why one of the tyres could never stand in this tub; undefined when all can. */
export function tubTooSmall(
  tub: CaseTub,
  tyres: readonly CaseTyre[],
  reserve: number,
): { lacks: 'diameter' | 'width'; reason: string } | undefined {
  const room = tub.diameter - 2 * tub.liner;
  for (const { name, inputs, own } of tyres) {
    const needed = 2 * (centralValue(inputs.referenceRadius.law) + (own?.reserve ?? reserve));
    if (room <= needed) {
      const bare = `tub ${tub.name} has a diameter of ${inInches(room)} inside its liner`;
      const reason = `${bare}, but tyre ${name} standing still takes ${inInches(needed)} with the reserve; more than that is needed`;
      return { lacks: 'diameter', reason };
    }
    const section = centralValue(inputs.sectionWidth.law);
    if (tub.insideWidth <= section) {
      const reason = `tub ${tub.name} is ${inInches(tub.insideWidth)} wide inside, but tyre ${name} is ${inInches(section)} wide; more than that is needed`;
      return { lacks: 'width', reason };
    }
  }
  return undefined;
}
