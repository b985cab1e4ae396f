import { createHash } from 'node:crypto';
import { readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { type Case, tyreNamed } from '@tubgap/casefile';
import { textOf } from '@tubgap/casefile/node';
import { tyreColumn } from '@tubgap/core';
import {
  type AsBuilt,
  BUILT_FILE,
  countLeftOut,
  LARGEST_LOG,
  LARGEST_TABLE,
  noReadings,
  type Origin,
  type Readings,
  type Rejected,
  readAsBuilt,
  readHandTables,
  readLog,
  rowsOf,
} from '@tubgap/evidence';
import type { CaseSetup } from '@tubgap/simulation';

/** Everything in a folder of measurements: what could be read, what was left out, and where it all comes from. */
export interface MeasuredFolder {
  /** As it was named. */
  folder: string;
  readings: Readings;
  /** The tub in the car; undefined where no table says so, or one does so doubtfully. */
  built: AsBuilt | undefined;
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
  return rowsOf(readings, file);
}

/** The tub in the car. A row that cannot be used may be the one that counts, the last: then nothing is said of it. */
function builtTub(
  openedText: (file: string) => string | undefined,
  source: Case,
  rejected: readonly Rejected[],
): AsBuilt | undefined {
  const text = rejected.some(({ file }) => file === BUILT_FILE) ? undefined : openedText(BUILT_FILE);
  if (text === undefined) return undefined;
  const tubs = source.tubs.map(({ name }) => name);
  return readAsBuilt(text, tubs).built;
}

/** Bytes that a letter takes at most: a file beyond that is not even opened. */
const BYTES_A_LETTER = 4;

/** A file's text and digest, or why it has none. */
function opened(place: string, letters: number): { text: string; sha256: string } | { wrong: string } {
  try {
    const { size } = statSync(place);
    if (!statSync(place).isFile()) return { wrong: 'it is no file' };
    if (size > BYTES_A_LETTER * letters) {
      return {
        wrong: `the file has ${size} bytes; at most ${letters} letters are read. Cut out what is not needed`,
      };
    }
    const bytes = readFileSync(place);
    return { text: textOf(bytes), sha256: createHash('sha256').update(bytes).digest('hex') };
  } catch (error) {
    return {
      wrong: `it cannot be read (${(error as NodeJS.ErrnoException).code ?? (error as Error).message})`,
    };
  }
}

/** What a car has of which nothing was measured. */
export const noMeasuredFolder = (folder: string): MeasuredFolder => ({
  folder,
  readings: noReadings(),
  built: undefined,
  rejected: [],
  origins: [],
  unknown: [],
});

/**
 * Reads a folder of measurements for a case. Nothing in it stops the reading: what cannot be used is listed.
 * @throws Error when the folder cannot be opened
 */
export function readMeasuredFolder(folder: string, source: Case, setup: CaseSetup): MeasuredFolder {
  const files = readdirSync(folder)
    .filter((file) => file.toLowerCase().endsWith('.csv'))
    .sort();
  const readings = noReadings();
  const rejected: Rejected[] = [];
  const used = new Map<string, string>();
  /** Text of a file that is used from here on; undefined when it cannot be, which is then listed. */
  const take = (file: string, letters: number): string | undefined => {
    const read = opened(join(folder, file), letters);
    if ('wrong' in read) {
      rejected.push({ file, line: 0, reason: read.wrong });
      return undefined;
    }
    used.set(file, read.sha256);
    return read.text;
  };
  const openedText = (file: string): string | undefined =>
    files.includes(file) ? take(file, LARGEST_TABLE) : undefined;
  rejected.push(...readHandTables(openedText, source, setup, readings));
  const built = builtTub(openedText, source, rejected);
  const tyres = source.tyres.flatMap(({ name, tyre }) => [name, tyre]);
  for (const file of files.filter((name) => LOG_FILE.test(name))) {
    const text = take(file, LARGEST_LOG);
    if (text === undefined) continue;
    const { runLog } = source;
    if (runLog === undefined) {
      const reason = 'the case has no section runLog; it must give axleRatio and, if need be, the columns';
      rejected.push({ file, line: 0, reason });
      continue;
    }
    // A log whose name holds a tyre's name is of that tyre: run-log-class-radial-2.csv.
    const named = tyres.filter((name) => file.includes(name)).sort((a, b) => b.length - a.length)[0];
    const tyre = setup.tyres.find(({ name }) => name === tyreNamed(source.tyres, named ?? runLog.tyre))!;
    const expected = ROLLING_SHARE * tyre.centralTyre[tyreColumn('referenceRadius')]!;
    rejected.push(...readLog(file, text, { ...runLog, tyre: tyre.name }, expected, readings));
  }
  const origins = [...used].map(
    ([file, sha256]): Origin => ({
      file,
      kind: kindOf(file),
      sha256,
      rows: usedRows(readings, file),
      leftOut: countLeftOut(rejected.filter((row) => row.file === file)),
      dates: datesIn(readings, file),
    }),
  );
  const known = new Set([...used.keys(), ...rejected.map(({ file }) => file)]);
  return { folder, readings, built, rejected, origins, unknown: files.filter((file) => !known.has(file)) };
}
