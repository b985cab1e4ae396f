import { figuresIn, type LengthUnits } from '@tubgap/units';
import { BOOK_COLUMNS } from './book.ts';
import { LEARNED_COLUMNS } from './learned.ts';
import { PICK_COLUMNS } from './pick.ts';
import { STUDY_COLUMNS } from './study.ts';

/** A column of a table that is written, as its dictionary tells it. */
export interface Column {
  /** With its unit behind it, where it has one of several. */
  name: string;
  /** Unit, or what a cell may be; empty for words. */
  unit: string;
  about: string;
}

/**
 * Every name that a column may have, whatever the table: one name for each figure, and one meaning for each name. By it
 * stand the unit, or the measure whose unit goes by the case, and what it means.
 */
const DICTIONARY = { ...PICK_COLUMNS, ...STUDY_COLUMNS, ...LEARNED_COLUMNS, ...BOOK_COLUMNS };

export type ColumnName = keyof typeof DICTIONARY;

/** A column whose name is made up where it stands, in the units of a case. @param unit  as in the dictionary */
export function madeColumn(units: LengthUnits, name: string, unit: string, about: string): Column {
  const { column, speedColumn, distanceColumn } = figuresIn(units);
  const isMetric = units === 'mm';
  if (unit === 'length') return { name: column(name), unit: isMetric ? 'mm' : 'in', about };
  if (unit === 'speed') return { name: speedColumn(name), unit: isMetric ? 'km/h' : 'mph', about };
  if (unit === 'distance') return { name: distanceColumn(name), unit: isMetric ? 'm' : 'ft', about };
  return { name, unit, about };
}

/** Columns of a table by their names in the dictionary, in the units of a case; made-up ones stand as they are. */
export const columnsOf = (units: LengthUnits, ...names: readonly (ColumnName | Column)[]): Column[] =>
  names.map((one) => {
    if (typeof one !== 'string') return one;
    const [unit, about] = DICTIONARY[one];
    return madeColumn(units, one, unit, about);
  });
