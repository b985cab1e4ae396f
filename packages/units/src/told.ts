import { findUnit, type QuantityKind } from './quantity.ts';
import { parseMeasure } from './read.ts';

/** How lengths, speeds and weights are told. */
export type LengthUnits = 'inch' | 'mm';

const METRIC: Readonly<Partial<Record<QuantityKind, readonly string[]>>> = {
  length: ['mm', 'cm', 'm'],
  mass: ['kg'],
  force: ['N'],
  pressure: ['kPa', 'bar', 'mbar', 'hPa', 'Pa'],
  stiffness: ['N/mm', 'N/m'],
  speed: ['km/h', 'm/s'],
};

/** The kinds of quantity whose unit says how a shop measures. */
const TELLING = Object.keys(METRIC) as readonly QuantityKind[];

/** The units that a quantity is written in; undefined where it has none that says. */
function unitsIn(text: string, kinds: readonly QuantityKind[]): LengthUnits | undefined {
  const unit = parseMeasure(text)?.unit ?? '';
  if (unit === '') return undefined;
  for (const kind of kinds) {
    const found = findUnit(kind, unit)?.name;
    if (found !== undefined) return METRIC[kind]?.includes(found) ? 'mm' : 'inch';
  }
  return undefined;
}

/**
 * The units in which most of some texts are written, inches in doubt. Texts that are no quantity say nothing.
 * @param kinds  of quantity that count; left out: all whose unit says how a shop measures
 */
export function unitsOfMost(texts: readonly string[], kinds = TELLING): LengthUnits {
  const told = texts.flatMap((text) => unitsIn(text, kinds) ?? []);
  return told.filter((units) => units === 'mm').length > told.length / 2 ? 'mm' : 'inch';
}
