import { readFileSync } from 'node:fs';
import { parseString } from 'fast-csv';

/** A row of a written table by its headers. */
export type Row = Record<string, string>;

/** Rows of a CSV text as an independent reader sees them; a ragged row is an error. */
export function tableRows(text: string): Promise<Row[]> {
  return new Promise((resolve, reject) => {
    const rows: Row[] = [];
    parseString(text, { headers: true, strictColumnHandling: true })
      .on('data', (row: Row) => rows.push(row))
      .on('data-invalid', (row) => reject(new Error(`ragged row ${JSON.stringify(row)}`)))
      .on('error', reject)
      .on('end', () => resolve(rows));
  });
}

/** Rows of a CSV file. */
export const readTable = (file: string): Promise<Row[]> => tableRows(readFileSync(file, 'utf8'));
