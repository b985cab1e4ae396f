import { toDegrees } from './angle.ts';
import { INCH } from './factors.ts';

// Figures as the cells of a table: decimals alone, the unit stands in the column's head.

/** Inches to four decimals; empty where there is none. */
export const inchCell = (metres: number | null | undefined): string =>
  metres === null || metres === undefined ? '' : (metres / INCH).toFixed(4);

/** The same, never below the length but for its last digits. */
export const inchCellUp = (metres: number): string =>
  (Math.ceil((metres / INCH) * 1e4 - 1e-6) / 1e4).toFixed(4);

/** The same, never above it. */
export const inchCellDown = (metres: number): string =>
  (Math.floor((metres / INCH) * 1e4 + 1e-6) / 1e4).toFixed(4);

/** Degrees to a tenth. */
export const degreeCell = (radians: number): string => toDegrees(radians).toFixed(1);

/** A chance to six figures; empty where there is none. */
export const chanceCell = (chance: number | undefined): string =>
  chance === undefined ? '' : chance === 0 ? '0' : chance.toPrecision(6);
