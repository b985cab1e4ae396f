import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Case } from '@tubgap/casefile';
import { tyreColumn } from '@tubgap/core';
import {
  BUILT_FILE,
  HAND_TABLES,
  noReadings,
  type Origin,
  type Readings,
  type Rejected,
  readAsBuilt,
  readHandTable,
  readLog,
  removeImplausible,
} from '@tubgap/evidence';
import type { CaseSetup } from '@tubgap/simulation';

/** Everything in a folder of measurements: what could be read, what was left out, and where it all comes from. */
export interface MeasuredFolder {
  readings: Readings;
  rejected: Rejected[];
  origins: Origin[];
  /** Files that are no measurement this program knows. */
  unknown: string[];
}

const LOG_FILE = /^run-log.*\.csv$/i;
/** A grown, loaded tyre rolls on about this much more than its free radius standing: where a log is judged by. */
const ROLLING_SHARE = 1.03;

/** Dates of a file's rows, each once. */
const datesIn = (readings: Readings, file: string): string[] => [
  ...new Set(
    Object.values(readings)
      .flat()
      .flatMap((reading) => (reading.file === file && reading.date !== '' ? [reading.date] : [])),
  ),
];

const kindOf = (file: string): string =>
  file === BUILT_FILE
    ? 'tub as built'
    : LOG_FILE.test(file)
      ? 'run log'
      : file.replace('.csv', '').replace('-', ' ');

/** Rows of a file that are used, the samples of a log among them. */
function usedRows(readings: Readings, file: string): number {
  if (file === BUILT_FILE) return 1;
  const log = readings.logs.find((one) => one.file === file);
  if (log) return log.samples;
  return Object.values(readings)
    .flat()
    .filter((reading) => reading.file === file).length;
}

/**
 * Reads a folder of measurements for a case. Nothing in it stops the reading: what cannot be used is listed.
 * @throws Error when the folder cannot be opened
 */
export function readMeasuredFolder(folder: string, source: Case, setup: CaseSetup): MeasuredFolder {
  const files = readdirSync(folder)
    .filter((file) => file.toLowerCase().endsWith('.csv'))
    .sort();
  const text = (file: string): string => readFileSync(join(folder, file), 'utf8');
  const readings = noReadings();
  const rejected: Rejected[] = [];
  const used: string[] = [];
  let built: ReturnType<typeof readAsBuilt>['built'];
  if (files.includes(BUILT_FILE)) {
    const read = readAsBuilt(
      text(BUILT_FILE),
      source.tubs.map(({ name }) => name),
    );
    built = read.built;
    rejected.push(...read.rejected);
    used.push(BUILT_FILE);
  }
  const tyres = source.tyres.map(({ name }) => name);
  for (const table of HAND_TABLES) {
    if (!files.includes(table.file)) continue;
    rejected.push(...readHandTable(table, text(table.file), { tyres, built }, readings));
    used.push(table.file);
  }
  rejected.push(...removeImplausible(setup, readings));
  for (const file of files.filter((name) => LOG_FILE.test(name))) {
    used.push(file);
    const { runLog } = source;
    if (runLog === undefined) {
      const reason = 'the case has no section runLog; it must give axleRatio and, if need be, the columns';
      rejected.push({ file, line: 0, reason });
      continue;
    }
    // A log whose name holds a tyre's name is of that tyre: run-log-class-radial-2.csv.
    const named = tyres.filter((name) => file.includes(name)).sort((a, b) => b.length - a.length)[0];
    const tyre = setup.tyres.find(({ name }) => name === (named ?? runLog.tyre))!;
    const expected = ROLLING_SHARE * tyre.centralTyre[tyreColumn('referenceRadius')]!;
    rejected.push(...readLog(file, text(file), { ...runLog, tyre: tyre.name }, expected, readings));
  }
  const origins = used.map(
    (file): Origin => ({
      file,
      kind: kindOf(file),
      sha256: createHash('sha256').update(text(file)).digest('hex'),
      rows: usedRows(readings, file),
      leftOut: rejected.filter((row) => row.file === file).length,
      dates: datesIn(readings, file),
    }),
  );
  return { readings, rejected, origins, unknown: files.filter((file) => !used.includes(file)) };
}
