import type { Case } from '@tubgap/casefile';
import type { CaseSetup } from '@tubgap/simulation';
import { removeImplausible } from '../plausible.ts';
import type { AsBuilt, Readings, Rejected } from '../readings.ts';
import { BUILT_FILE, HAND_TABLES, readAsBuilt, readHandTable } from './hand-tables.ts';

/**
 * Takes in the readings of every table that a shop fills by hand; those left out come back with place and reason.
 * @param textOf  a table's text by its file name; undefined when there is none
 */
export function readHandTables(
  textOf: (file: string) => string | undefined,
  source: Case,
  setup: CaseSetup,
  into: Readings,
): Rejected[] {
  const rejected: Rejected[] = [];
  const tubs = source.tubs.map(({ name }) => name);
  let built: AsBuilt | undefined;
  const builtText = textOf(BUILT_FILE);
  if (builtText !== undefined) {
    const read = readAsBuilt(builtText, tubs);
    built = read.built;
    rejected.push(...read.rejected);
  }
  const context = { tyres: source.tyres, tubs, built };
  for (const table of HAND_TABLES) {
    const text = textOf(table.file);
    if (text !== undefined) rejected.push(...readHandTable(table, text, context, into));
  }
  return [...rejected, ...removeImplausible(setup, into)];
}
