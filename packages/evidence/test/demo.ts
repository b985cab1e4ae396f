import { readFileSync } from 'node:fs';
import { type Case, parseCase, type Setting } from '@tubgap/casefile';

const folder = new URL('../../../datasets/demo/', import.meta.url);
const load = (name: string): string => readFileSync(new URL(name, folder), 'utf8');

/** The demo case, with values in place of its own. */
export function demoCase(set: readonly Setting[] = []): Case {
  const read = parseCase({ file: 'case.yaml', text: load('case.yaml'), load, set });
  if (!read.ok) throw new Error(read.issues.map(({ message }) => message).join('\n'));
  return read.value;
}
