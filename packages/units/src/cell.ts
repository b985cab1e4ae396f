import { toDegrees } from './angle.ts';
import { INCH } from './factors.ts';

// Figures as the cells of a table: decimals alone, the unit stands in the column's head.

/** Cells of lengths in a unit, to so many digits behind the point: finer than anything that is measured. */
function lengthCells(name: string, unit: number, digits: number) {
  const fine = 10 ** digits;
  const cell = (metres: number | null | undefined): string =>
    metres === null || metres === undefined ? '' : (metres / unit).toFixed(digits);
  return {
    /** Head of a column. */
    column: (head: string): string => `${head}_${name}`,
    /** Empty where there is none. */
    cell,
    /** What two cells differ by, of what they show, so that a table subtracts. */
    cellDifference: (more: number, less: number): string =>
      (Number(cell(more)) - Number(cell(less))).toFixed(digits),
    /** Never below the length but for its last digits, and never above it. */
    cellUp: (metres: number): string => (Math.ceil((metres / unit) * fine - 1e-6) / fine).toFixed(digits),
    cellDown: (metres: number): string => (Math.floor((metres / unit) * fine + 1e-6) / fine).toFixed(digits),
  };
}

export const INCH_CELLS = lengthCells('in', INCH, 4);
export const MM_CELLS = lengthCells('mm', 1e-3, 2);

/** Inches to four decimals; empty where there is none. */
export const inchCell = INCH_CELLS.cell;

/** Degrees to a tenth. */
export const degreeCell = (radians: number): string => toDegrees(radians).toFixed(1);

/** A chance to six figures; empty where there is none. */
export const chanceCell = (chance: number | undefined): string =>
  chance === undefined ? '' : chance === 0 ? '0' : chance.toPrecision(6);
