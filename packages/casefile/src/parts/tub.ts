import { centralValue } from '@tubgap/statistics';
import type { CaseTub, CaseTyre } from '../case.ts';
import type { CatalogueRow } from '../catalogue/catalogue.ts';
import { inInches } from '../quantity.ts';

/** A tub of the catalogue at its place on the car. */
export function caseTub(row: CatalogueRow, centreForward: number): CaseTub {
  const { insideDiameter, liner, arcExtent, legLength, insideWidth, skinThickness, arealDensity } =
    row.values;
  return {
    name: row.name,
    diameter: insideDiameter!,
    liner: liner!,
    arcExtent: arcExtent!,
    legLength: legLength!,
    insideWidth: insideWidth!,
    skinThickness: skinThickness!,
    arealDensity: arealDensity!,
    centreForward,
    notches: [],
  };
}

/** Why one of the tyres could never stand in this tub; undefined when all can. */
export function tubTooSmall(tub: CaseTub, tyres: readonly CaseTyre[], reserve: number): string | undefined {
  const room = tub.diameter - 2 * tub.liner;
  for (const { name, inputs } of tyres) {
    const needed = 2 * (centralValue(inputs.referenceRadius.law) + reserve);
    if (room <= needed) {
      const bare = `tub ${tub.name} has a diameter of ${inInches(room)} inside its liner`;
      return `${bare}, but tyre ${name} standing still takes ${inInches(needed)} with the reserve; more than that is needed`;
    }
    const section = centralValue(inputs.sectionWidth.law);
    if (tub.insideWidth <= section) {
      return `tub ${tub.name} is ${inInches(tub.insideWidth)} wide inside, but tyre ${name} is ${inInches(section)} wide; more than that is needed`;
    }
  }
  return undefined;
}
