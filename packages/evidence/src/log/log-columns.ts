import {
  type Cell,
  findUnit,
  LOG_COLUMNS,
  type LogColumn,
  type RunLog,
  readCsv,
  readNumber,
} from '@tubgap/casefile';
import type { Rejected } from '../readings.ts';

/** Samples of one log, SI: s, m/s, m, rad/s of the driveshaft, Pa, m, 0 to 1, and the brake as it stands. */
export type LogSamples = Partial<Record<LogColumn, Float64Array>> & { time: Float64Array };

export interface ReadColumns {
  samples: LogSamples | undefined;
  rejected: Rejected[];
}

const TURN = (2 * Math.PI) / 60;

/** Units of a log's columns that the case's own units do not have. */
const LOG_UNITS: Readonly<Partial<Record<LogColumn, Readonly<Record<string, number>>>>> = {
  time: { s: 1, sec: 1, seconds: 1, ms: 1e-3, min: 60 },
  driveshaft: { rpm: TURN, '1/min': TURN, 'rad/s': 1, Hz: 2 * Math.PI },
  throttle: { '%': 0.01, '': 1 },
};

const KINDS = { speed: 'speed', distance: 'length', pressure: 'pressure', travel: 'length' } as const;

/** Factor from a column's unit to SI; any will do for the brake, of which only on and off are asked. */
function factorOf(column: LogColumn, unit: string): number | undefined {
  if (column === 'brake') return 1;
  const own = LOG_UNITS[column]?.[unit];
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
/** Rows of a log; minutes at a thousand a second. */
const MOST_ROWS = 500_000;

interface Mapped {
  column: LogColumn;
  index: number;
  factor: number;
}

/** Where the heads stand, and which column is which. */
function findHeads(
  rows: readonly Cell[][],
  { columns }: RunLog,
): { at: number; found: Map<LogColumn, number> } | undefined {
  for (let at = 0; at < Math.min(rows.length, MOST_PREAMBLE); at++) {
    const found = new Map<LogColumn, number>();
    for (const column of LOG_COLUMNS) {
      const wanted = columns[column]?.head;
      const index = wanted === undefined ? -1 : rows[at]!.findIndex(({ text }) => text === wanted);
      if (index >= 0) found.set(column, index);
    }
    if (found.has('time') && found.size > 1) return { at, found };
  }
  return undefined;
}

/**
 * A logger's text with commas between its cells: some write semicolons, with commas before decimals, or tabs.
 */
function withCommas(text: string): string {
  const count = (mark: string): number => text.slice(0, 20_000).split(mark).length - 1;
  const [commas, semicolons, tabs] = [count(','), count(';'), count('\t')];
  if (semicolons > 0 && semicolons >= 0.5 * commas) {
    return text.replace(/(\d),(\d)/g, '$1.$2').replaceAll(';', ',');
  }
  return tabs > commas ? text.replaceAll('\t', ',') : text;
}

/** Reads the columns of a logger's CSV that the case names; rows with a cell that is no number are left out. */
export function readLogColumns(file: string, text: string, log: RunLog): ReadColumns {
  const none = (reason: string): ReadColumns => ({
    samples: undefined,
    rejected: [{ file, line: 0, reason }],
  });
  const { rows } = readCsv(withCommas(text));
  if (rows.length > MOST_ROWS) return none(`the log has ${rows.length} lines; at most ${MOST_ROWS} are read`);
  const heads = findHeads(rows, log);
  const named = Object.entries(log.columns).map(([column, { head }]) => `${column}: ${head}`);
  if (heads === undefined) {
    return none(`no line names the columns that the case's runLog.columns has (${named.join('; ')})`);
  }
  const { at, found } = heads;
  if (!found.has('driveshaft')) return none(`there is no column for the driveshaft (${named.join('; ')})`);
  if (!found.has('speed') && !found.has('distance')) {
    return none(`there is no column for the car's speed or distance (${named.join('; ')})`);
  }
  const mapped: Mapped[] = [];
  for (const [column, index] of found) {
    const given = log.columns[column]!;
    const below = rows[at + 1]?.[index]?.text ?? '';
    const unit = given.unit ?? unitInHead(given.head);
    const factor = factorOf(column, unit) ?? factorOf(column, below);
    if (factor === undefined) {
      return none(
        `the unit of "${given.head}" is not known; write it in runLog.columns.${column} as { head: "${given.head}", unit: … }`,
      );
    }
    mapped.push({ column, index, factor });
  }
  const rejected: Rejected[] = [];
  const kept = mapped.map((): number[] => []);
  let last = Number.NEGATIVE_INFINITY;
  const body = rows.slice(at + 1);
  body.forEach((cells, row) => {
    const values = mapped.map(({ index }) => readNumber(cells[index]?.text ?? ''));
    // The line under the heads often holds the units.
    if (row === 0 && values.every((value) => value === undefined)) return;
    const line = cells[0]!.line;
    const bad = values.indexOf(undefined);
    if (bad >= 0) {
      const { column, index } = mapped[bad]!;
      rejected.push({ file, line, reason: `${column}: "${cells[index]?.text ?? ''}" is no number` });
      return;
    }
    const time = values[mapped.findIndex(({ column }) => column === 'time')]!;
    if (time <= last) {
      rejected.push({ file, line, reason: `time: ${time} does not rise` });
      return;
    }
    last = time;
    values.forEach((value, k) => {
      kept[k]!.push(value! * mapped[k]!.factor);
    });
  });
  const samples = Object.fromEntries(
    mapped.map(({ column }, k) => [column, Float64Array.from(kept[k]!)]),
  ) as unknown as LogSamples;
  return { samples, rejected };
}
