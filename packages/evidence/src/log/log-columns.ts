import { type Cell, csvRows, LOG_COLUMNS, type LogColumn, type RunLog } from '@tubgap/casefile';
import { findUnit, readNumber } from '@tubgap/units';
import type { Rejected } from '../readings.ts';
import { LARGEST_LOG, leftOut, noNumber, noTable, withCommas } from '../tables/table-text.ts';

/** Samples of one log, SI: s, m/s, m, rad/s of the driveshaft, Pa, m, 0 to 1, and the brake as it stands. */
export type LogSamples = Partial<Record<LogColumn, Float64Array>> & { time: Float64Array };

export interface ReadColumns {
  samples: LogSamples | undefined;
  rejected: Rejected[];
}

const TURN = (2 * Math.PI) / 60;

/** Units of a log's columns that the case's own units do not have. */
const LOG_UNITS: Readonly<Partial<Record<LogColumn, ReadonlyMap<string, number>>>> = {
  time: new Map([
    ['s', 1],
    ['sec', 1],
    ['seconds', 1],
    ['ms', 1e-3],
    ['min', 60],
  ]),
  driveshaft: new Map([
    ['rpm', TURN],
    ['1/min', TURN],
    ['rad/s', 1],
    ['Hz', 2 * Math.PI],
  ]),
  throttle: new Map([
    ['%', 0.01],
    ['', 1],
  ]),
};

const KINDS = { speed: 'speed', distance: 'length', pressure: 'pressure', travel: 'length' } as const;

/** Factor from a column's unit to SI; any will do for the brake, of which only on and off are asked. */
function factorOf(column: LogColumn, unit: string): number | undefined {
  if (column === 'brake') return 1;
  const own = LOG_UNITS[column]?.get(unit);
  if (own !== undefined) return own;
  const kind = KINDS[column as keyof typeof KINDS];
  return kind === undefined ? undefined : findUnit(kind, unit)?.factor;
}

/** The unit in a head: "GPS speed [mph]", "Speed (km/h)", "speed_mph". */
function unitInHead(head: string): string {
  const bracketed = /[[(]([^\])]*)[\])]\s*$/.exec(head);
  if (bracketed) return bracketed[1]!.trim();
  const last = /_([^_\s]+)$/.exec(head);
  return last ? last[1]!.replace('km_h', 'km/h') : '';
}

/** Lines before which the heads must have come: loggers write a page of their own first. */
const MOST_PREAMBLE = 100;
/** Rows of a log, minutes at a thousand a second; and its columns. */
const MOST_ROWS = 200_000;
const MOST_COLUMNS = 2000;

interface Mapped {
  column: LogColumn;
  index: number;
  factor: number;
}

/** Which column is which, when this row names them; the head that it names twice; undefined when it names none. */
function headsIn(
  row: readonly Cell[],
  { columns }: RunLog,
): { found: Map<LogColumn, number>; twice: string | undefined } | undefined {
  const found = new Map<LogColumn, number>();
  let twice: string | undefined;
  for (const column of LOG_COLUMNS) {
    const wanted = columns[column]?.head;
    const index = wanted === undefined ? -1 : row.findIndex(({ text }) => text === wanted);
    if (index < 0) continue;
    found.set(column, index);
    if (row.findLastIndex(({ text }) => text === wanted) !== index) twice ??= wanted;
  }
  return found.has('time') && found.size > 1 ? { found, twice } : undefined;
}

/** Columns with their units, or why they cannot be read. `below` is the line under the heads, which may hold units. */
function mapColumns(
  found: ReadonlyMap<LogColumn, number>,
  below: readonly Cell[],
  { columns }: RunLog,
): Mapped[] | string {
  const named = Object.entries(columns).map(([column, { head }]) => `${column}: ${head}`);
  if (!found.has('driveshaft')) return `there is no column for the driveshaft (${named.join('; ')})`;
  if (!found.has('speed') && !found.has('distance')) {
    return `there is no column for the car's speed or distance (${named.join('; ')})`;
  }
  const mapped: Mapped[] = [];
  for (const [column, index] of found) {
    const given = columns[column]!;
    const unit = given.unit ?? unitInHead(given.head);
    const factor = factorOf(column, unit) ?? factorOf(column, below[index]?.text ?? '');
    if (factor === undefined) {
      return `the unit of "${given.head}" is not known; write it in runLog.columns.${column} as { head: "${given.head}", unit: … }`;
    }
    mapped.push({ column, index, factor });
  }
  return mapped;
}

/** Reads the columns of a logger's CSV that the case names; rows with a cell that is no number are left out. */
export function readLogColumns(file: string, text: string, log: RunLog): ReadColumns {
  const none = (reason: string): ReadColumns => ({
    samples: undefined,
    rejected: [{ file, line: 0, reason }],
  });
  const unread = noTable(text, LARGEST_LOG);
  if (unread !== undefined) return none(unread);
  const left = leftOut(file);
  let before = 0;
  let found: Map<LogColumn, number> | undefined;
  let mapped: Mapped[] | undefined;
  let kept: number[][] = [];
  let rows = 0;
  let last = Number.NEGATIVE_INFINITY;
  for (const cells of csvRows(withCommas(text, text.slice(0, 20_000)), left.fault)) {
    if (cells.length > MOST_COLUMNS) {
      return none(
        `line ${cells[0]!.line} has ${cells.length} columns; at most ${MOST_COLUMNS} are read. Export the named ones only`,
      );
    }
    if (found === undefined) {
      if (++before > MOST_PREAMBLE) break;
      const heads = headsIn(cells, log);
      if (heads?.twice !== undefined) {
        return none(
          `line ${cells[0]!.line} names "${heads.twice}" twice; rename or leave out one of the two`,
        );
      }
      found = heads?.found;
      continue;
    }
    if (mapped === undefined) {
      const columns = mapColumns(found, cells, log);
      if (typeof columns === 'string') return none(columns);
      mapped = columns;
      kept = mapped.map(() => []);
      // The line under the heads often holds the units.
      if (mapped.every(({ index }) => readNumber(cells[index]?.text ?? '') === undefined)) continue;
    }
    if (++rows > MOST_ROWS) {
      return none(
        `the log has more than ${MOST_ROWS} lines of samples; cut it down to the run, or to fewer a second`,
      );
    }
    const values = mapped.map(({ index, factor }) => {
      const value = readNumber(cells[index]?.text ?? '');
      // What its unit makes too large for a number is none.
      return value !== undefined && Number.isFinite(value * factor) ? value : undefined;
    });
    const { line } = cells[0]!;
    const bad = values.indexOf(undefined);
    if (bad >= 0) {
      const { column, index } = mapped[bad]!;
      left.add(line, noNumber(column, cells[index]?.text ?? ''), cells[index]?.column);
      continue;
    }
    const time = values[mapped.findIndex(({ column }) => column === 'time')]!;
    if (time <= last) {
      left.add(line, `time: ${time} does not rise; the line before has ${last}`);
      continue;
    }
    last = time;
    for (let k = 0; k < mapped.length; k++) kept[k]!.push(values[k]! * mapped[k]!.factor);
  }
  if (found === undefined) {
    const named = Object.entries(log.columns).map(([column, { head }]) => `${column}: ${head}`);
    return none(`no line names the columns that the case's runLog.columns has (${named.join('; ')})`);
  }
  if (mapped === undefined) return none('the log ends under its heads; it has no line of samples');
  const columns = mapped.map(({ column }, k) => ({ column, values: Float64Array.from(kept[k]!) }));
  const samples: LogSamples = { time: columns.find(({ column }) => column === 'time')!.values };
  for (const { column, values } of columns) samples[column] = values;
  return { samples, rejected: left.all() };
}
