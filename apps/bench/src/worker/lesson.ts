import type { Case } from '@tubgap/casefile';
import {
  BUILT_FILE,
  countLeftOut,
  noReadings,
  type Origin,
  type Readings,
  type Rejected,
  readHandTables,
  rowsOf,
} from '@tubgap/evidence';
import type { CaseSetup } from '@tubgap/simulation';

/** What to learn from: the case as it was measured, nothing learned in it, and tables that were typed in. */
export interface Lesson {
  source: Case;
  /** Texts by file name. */
  tables: Readonly<Record<string, string>>;
}

/** Readings of the typed tables, what was left out, and where they come from. */
export function readLesson(
  { source, tables }: Lesson,
  setup: CaseSetup,
): { readings: Readings; rejected: Rejected[]; origins: Origin[] } {
  const readings = noReadings();
  const rejected = readHandTables((file) => tables[file], source, setup, readings);
  const origins = Object.keys(tables).map(
    (file): Origin => ({
      file,
      kind: 'typed in at the car',
      sha256: 'typed in',
      rows: file === BUILT_FILE ? 1 : rowsOf(readings, file),
      leftOut: countLeftOut(rejected.filter((row) => row.file === file)),
      dates: [],
    }),
  );
  return { readings, rejected, origins };
}
