import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect } from 'vitest';
import { type Row, tableRows } from '../written-table.ts';

/** The dictionary of a folder's tables; that of a shop's year may lie among other things and has a name of its own. */
const DICTIONARY = /(^|-)columns\.csv$/;
const heads = async (file: string): Promise<string[]> => {
  const [line] = readFileSync(file, 'utf8').split('\n');
  return Object.keys((await tableRows(`${line}\n${line}\n`))[0]!);
};
const asPattern = (name: string): RegExp =>
  new RegExp(`^${name.replaceAll('.', '\\.').replaceAll('*', '[^/]*')}$`);

/**
 * Holds every table that was written below a folder against the dictionary beside it: each column described, in its place,
 * with words of its own, and nothing described that is not there.
 * @returns tables that were held
 */
export async function holdDescribed(place: string): Promise<number> {
  const entries = readdirSync(place, { withFileTypes: true });
  const names = entries.filter((entry) => entry.isFile()).map(({ name }) => name);
  const dictionary = names.find((name) => DICTIONARY.test(name));
  let held = 0;
  if (dictionary !== undefined) {
    const rows: Row[] = await tableRows(readFileSync(join(place, dictionary), 'utf8'));
    for (const { file, column, about } of rows) {
      expect([place, file, column, (about ?? '').length > 2]).toEqual([place, file, column, true]);
    }
    const of = new Map<string, string[]>();
    for (const { file, column } of rows) of.set(file!, [...(of.get(file!) ?? []), column!]);
    const tables = names.filter((name) => name.endsWith('.csv') && !name.includes('.changed.'));
    for (const name of tables) {
      const described = [...of].find(([file]) => asPattern(file).test(name))?.[1];
      expect([join(place, name), await heads(join(place, name))]).toEqual([join(place, name), described]);
      held++;
    }
    for (const file of of.keys()) {
      expect([place, file, names.some((name) => asPattern(file).test(name))]).toEqual([place, file, true]);
    }
  } else if (names.includes('written.json')) {
    expect([place, names.filter((name) => name.endsWith('.csv'))]).toEqual([place, []]);
  }
  for (const entry of entries) if (entry.isDirectory()) held += await holdDescribed(join(place, entry.name));
  return held;
}
