import { INCH } from '@tubgap/units';
import type { AsBuilt, Readings, Rejected } from '../readings.ts';
import { CHECK_TABLES } from './check-tables.ts';
import {
  ANGLE,
  CENTRE_FORWARD,
  LENGTH_SD,
  LOAD,
  LOADED_RADIUS,
  MASS,
  MASS_SD,
  PRESSURE,
  ROLLOUT,
  RUNS,
  THICKNESS,
  TOP_HEIGHT,
  TRAVEL,
} from './columns.ts';
import { BUILT_MISSING, type HandTable, ofRow, type TableContext } from './hand-table.ts';
import { type MeasuredRow, readMeasuredTable } from './measured-table.ts';
import { leftOut, quoted } from './table-text.ts';

/** Reading errors where the table gives none, one standard deviation. Priors: engineering judgement. */
const USUAL_SD = {
  rollout: 0.1 * INCH,
  mass: 0.14,
  loaded: 0.06 * INCH,
  travel: 0.1 * INCH,
};

const tyreProblem = (name: string, { tyres }: TableContext): string | undefined =>
  tyres.includes(name) ? undefined : `the case runs no tyre ${quoted(name)}; it has ${tyres.join(', ')}`;

/** Takes in rows that speak of a tyre, once the case is known to run it. */
const ofTyre =
  (
    take: (
      reading: ReturnType<typeof ofRow> & { tyre: string },
      row: MeasuredRow,
      context: TableContext,
      into: Readings,
    ) => string | undefined,
  ): HandTable['take'] =>
  (row, file, context, into) => {
    const tyre = row.words.tyre!;
    return tyreProblem(tyre, context) ?? take({ ...ofRow(row, file), tyre }, row, context, into);
  };

const TOUCHED: ReadonlyMap<string, boolean> = new Map([
  ['touched', true],
  ['rub', true],
  ['rubbed', true],
  ['marked', true],
  ['yes', true],
  ['not touched', false],
  ['untouched', false],
  ['clean', false],
  ['no touch', false],
  ['no', false],
]);

/** Whether something was stuck on the place that would show a touch; nobody who writes nothing says so. */
const WITNESS: ReadonlyMap<string, boolean> = new Map([
  ['', false],
  ['no', false],
  ['none', false],
  ['yes', true],
  ['chalk', true],
  ['tape', true],
  ['clay', true],
  ['paint', true],
  ['grease', true],
]);

/** Bare skin may be touched and show nothing, so that no mark on it says nothing. */
const NO_WITNESS =
  'no mark says nothing where nothing was stuck that would show one; where chalk, tape or clay was on that place, write yes under witness';

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
  {
    file: 'marks.csv',
    words: ['tyre', 'mark'],
    optionalWords: ['date', 'witness'],
    columns: [ANGLE, RUNS, THICKNESS],
    take: ofTyre((reading, { words, numbers }, { built }, into) => {
      const touched = TOUCHED.get(words.mark!.toLowerCase());
      if (touched === undefined)
        return `mark ${quoted(words.mark!)} is not known; write touched or not touched`;
      const witness = WITNESS.get((words.witness ?? '').toLowerCase());
      if (witness === undefined) {
        return `witness ${quoted(words.witness!)} is not known; write yes (or chalk, tape, clay, paint) or no`;
      }
      if (!touched && !witness) return NO_WITNESS;
      if (built === undefined) return BUILT_MISSING;
      into.marks.push({
        ...reading,
        angle: numbers.angle!,
        touched,
        thickness: numbers.thickness ?? 0,
        runs: numbers.runs!,
        built,
      });
      return undefined;
    }),
  },
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
      left.add(line, `the case has no tub ${quoted(words.tub!)}; it has ${tubs.join(', ')}`);
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
