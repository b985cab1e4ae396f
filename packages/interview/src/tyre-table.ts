import { USUAL_TYRES, usualDrop } from '@tubgap/casefile';
import type { Construction } from '@tubgap/core';
import { INCH, POUND, POUND_FORCE, PSI } from '@tubgap/units';

/** A tyre as the catalogue needs it: middle values, SI; laws about them stand in the case. */
export interface CatalogueTyreRow {
  /** Letters, digits, dots, strokes and blanks: nothing that a table would need quotes for. */
  name: string;
  construction: Construction;
  /** Gauge, Pa. */
  pressure: number;
  freeDiameter: number;
  section: number;
  tread: number;
  mass: number;
  rimWidth?: number | undefined;
}

const HEAD =
  'tyre,construction,free_diameter_in,reference_pressure_psi,section_width_in,tread_width_in,rim_width_in,mass_lb,deflection_in,deflection_load_lbf';

function line(tyre: CatalogueTyreRow): string {
  const pressure = tyre.pressure / PSI;
  const { drop, load } = usualDrop(tyre.construction, tyre.pressure);
  const rim = tyre.rimWidth ?? USUAL_TYRES[tyre.construction].rimShare * tyre.section;
  const figures = [
    tyre.freeDiameter / INCH,
    pressure,
    tyre.section / INCH,
    tyre.tread / INCH,
    rim / INCH,
    tyre.mass / POUND,
    drop / INCH,
    load / POUND_FORCE,
  ].map((value) => Number(value.toPrecision(5)));
  return [tyre.name, tyre.construction, ...figures].join(',');
}

/** The tyres' catalogue of a case from a phone call. */
export const tyreTable = (tyres: readonly CatalogueTyreRow[]): string =>
  `# From a phone call: sizes as told, the rest assumed. Nothing here is measured.\n${HEAD}\n${tyres.map(line).join('\n')}\n`;
