import { tyreNamed } from '@tubgap/casefile';
import type { AsBuilt, Readings } from '../readings.ts';
import type { MeasuredRow, NumberColumn } from './measured-table.ts';
import { quoted } from './table-text.ts';

/** What reading one file needs to know of the others. */
export interface TableContext {
  tyres: readonly { name: string; tyre: string }[];
  tubs: readonly string[];
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

export const tyreUnknown = (name: string, tyres: readonly { name: string }[]): string =>
  `the case runs no tyre ${quoted(name)}; it has ${tyres.map((tyre) => tyre.name).join(', ')}`;

/** Takes in rows that speak of a tyre, once the case is known to run it. */
export const ofTyre =
  (
    take: (
      reading: ReturnType<typeof ofRow> & { tyre: string },
      row: MeasuredRow,
      context: TableContext,
      into: Readings,
    ) => string | undefined,
  ): HandTable['take'] =>
  (row, file, context, into) => {
    const tyre = tyreNamed(context.tyres, row.words.tyre!);
    if (tyre === undefined) return tyreUnknown(row.words.tyre!, context.tyres);
    return take({ ...ofRow(row, file), tyre }, row, context, into);
  };

export const tubUnknown = (tub: string, tubs: readonly string[]): string =>
  `the case has no tub ${quoted(tub)}; it has ${tubs.join(', ')}`;
