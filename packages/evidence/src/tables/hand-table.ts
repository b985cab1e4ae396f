import type { AsBuilt, Readings } from '../readings.ts';
import type { MeasuredRow, NumberColumn } from './measured-table.ts';

/** What reading one file needs to know of the others. */
export interface TableContext {
  tyres: readonly string[];
  built: AsBuilt | undefined;
}

/** A table that a shop fills by hand. */
export interface HandTable {
  file: string;
  words: readonly string[];
  optionalWords: readonly string[];
  columns: readonly NumberColumn[];
  /** Takes a row in, or says why not. */
  take: (row: MeasuredRow, file: string, context: TableContext, into: Readings) => string | undefined;
}

/** What every reading keeps of its row. */
export const ofRow = ({ line, words }: MeasuredRow, file: string) => ({ file, line, date: words.date ?? '' });

export const BUILT_MISSING =
  'as-built.csv is missing: it must say which tub is in the car and how high (tub, top_height_in)';
