import { INCH } from '@tubgap/units';
import type { AsBuilt, Readings, Rejected } from '../readings.ts';
import { CHECK_TABLES } from './check-tables.ts';
import {
  CENTRE_FORWARD,
  LENGTH_SD,
  LOAD,
  LOADED_RADIUS,
  MASS,
  MASS_SD,
  PRESSURE,
  ROLLOUT,
  RUNS,
  TOP_HEIGHT,
  TRAVEL,
} from './columns.ts';
import { type HandTable, ofTyre, type TableContext, tubUnknown } from './hand-table.ts';
import { MARK_TABLES } from './mark-tables.ts';
import { readMeasuredTable } from './measured-table.ts';
import { leftOut } from './table-text.ts';

/** Reading errors where the table gives none, one standard deviation. Priors: engineering judgement. */
const USUAL_SD = {
  rollout: 0.1 * INCH,
  mass: 0.14,
  loaded: 0.06 * INCH,
  travel: 0.1 * INCH,
};

/** The tables that a shop fills by hand, one kind a file. */
export const HAND_TABLES: readonly HandTable[] = [
  {
    file: 'rollout.csv',
    words: ['tyre'],
    optionalWords: ['date'],
    columns: [PRESSURE, ROLLOUT, LENGTH_SD],
    take: ofTyre((reading, { numbers }, _, into) => {
      into.rollouts.push({
        ...reading,
        pressure: numbers.pressure!,
        rollout: numbers.rollout!,
        sd: numbers.sd ?? USUAL_SD.rollout,
      });
      return undefined;
    }),
  },
  {
    file: 'tyre-mass.csv',
    words: ['tyre'],
    optionalWords: ['date'],
    columns: [MASS, MASS_SD],
    take: ofTyre((reading, { numbers }, _, into) => {
      into.masses.push({
        ...reading,
        mass: numbers.mass!,
        sd: numbers.sd ?? USUAL_SD.mass,
      });
      return undefined;
    }),
  },
  {
    file: 'loaded-radius.csv',
    words: ['tyre'],
    optionalWords: ['date'],
    columns: [PRESSURE, LOAD, LOADED_RADIUS, LENGTH_SD],
    take: ofTyre((reading, { numbers }, _, into) => {
      into.loaded.push({
        ...reading,
        pressure: numbers.pressure!,
        load: numbers.load!,
        radius: numbers.loaded_radius!,
        sd: numbers.sd ?? USUAL_SD.loaded,
      });
      return undefined;
    }),
  },
  {
    file: 'travel.csv',
    words: ['tyre'],
    optionalWords: ['date'],
    columns: [TRAVEL, RUNS, LENGTH_SD],
    take: ofTyre((reading, { numbers }, _, into) => {
      into.tellTales.push({
        ...reading,
        travel: numbers.travel!,
        runs: numbers.runs!,
        sd: numbers.sd ?? USUAL_SD.travel,
      });
      return undefined;
    }),
  },
  ...MARK_TABLES,
  ...CHECK_TABLES,
];

export const BUILT_FILE = 'as-built.csv';

/** The tub that is in the car: the last row of its table counts. */
export function readAsBuilt(
  text: string,
  tubs: readonly string[],
): { built: AsBuilt | undefined; rejected: Rejected[] } {
  const table = readMeasuredTable(BUILT_FILE, text, ['tub'], ['date'], [TOP_HEIGHT, CENTRE_FORWARD]);
  const left = leftOut(BUILT_FILE);
  let built: AsBuilt | undefined;
  for (const { line, words, numbers } of table.rows) {
    if (tubs.includes(words.tub!)) {
      built = {
        tub: words.tub!,
        topHeight: numbers.top_height!,
        centreForward: numbers.centre_forward,
      };
    } else {
      left.add(line, tubUnknown(words.tub!, tubs));
    }
  }
  return { built, rejected: [...table.rejected, ...left.all()] };
}

/** Takes the rows of one table in; those left out come back with line and reason. */
export function readHandTable(
  table: HandTable,
  text: string,
  context: TableContext,
  into: Readings,
): Rejected[] {
  const { file, words, optionalWords, columns } = table;
  const read = readMeasuredTable(file, text, words, optionalWords, columns);
  const left = leftOut(file);
  for (const row of read.rows) {
    const reason = table.take(row, file, context, into);
    if (reason !== undefined) left.add(row.line, reason);
  }
  return [...read.rejected, ...left.all()].sort((a, b) => a.line - b.line);
}
