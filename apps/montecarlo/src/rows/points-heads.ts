import { BAD_INPUT, stop } from '@tubgap/casefile/command-line';
import type { RowInput } from '@tubgap/simulation';
import { UNITS, type Unit } from '@tubgap/units';
import { AXLE_COLUMN, inputColumn } from './columns.ts';

/** An input as the head of a column names it. */
export type InputHead = Pick<RowInput, 'path' | 'label' | 'kind'>;

/** What a column of a table of points means. */
export type Meaning =
  | { is: 'input'; input: number; unit: Unit }
  | { is: 'axle'; unit: Unit }
  | { is: 'tyre' }
  | { is: 'carried' };

const plain = (text: string): string => text.trim().toLowerCase();

/** The unit of a head that names a place of a case: 'car.mass_kg', 'car.mass_lb'; undefined when it names another. */
function unitOf(head: string, path: string, units: readonly Unit[]): Unit | undefined {
  return units.find(({ name }) => {
    const behind = name === '' ? '' : `_${name.replaceAll('/', '_')}`;
    return plain(head) === plain(`${path}${behind}`);
  });
}

function meaningOf(head: string, inputs: readonly InputHead[]): Meaning {
  if (plain(head) === 'tyre') return { is: 'tyre' };
  const axle = unitOf(head, AXLE_COLUMN.name.replace(/_m$/, ''), UNITS.length);
  if (axle !== undefined) return { is: 'axle', unit: axle };
  for (const [k, { path, kind }] of inputs.entries()) {
    const unit = unitOf(head, path, UNITS[kind]);
    if (unit !== undefined) return { is: 'input', input: k, unit };
  }
  return { is: 'carried' };
}

/**
 * What each column means.
 * @param answers  names of columns that stand for themselves
 * @throws Stop when the first line cannot be read
 */
export function meaningsOf(
  file: string,
  header: readonly string[],
  inputs: readonly InputHead[],
  answers: ReadonlySet<string>,
): Meaning[] {
  const meanings = header.map((head) => meaningOf(head, inputs));
  const usual = inputs.slice(0, 2).map((input) => inputColumn(input).name);
  for (const [c, head] of header.entries()) {
    const path = inputs.find((input) => plain(head).startsWith(plain(input.path)));
    if (meanings[c]!.is === 'carried' && path !== undefined && !answers.has(head)) {
      const names = UNITS[path.kind].map(({ name }) =>
        name === '' ? path.path : `${path.path}_${name.replaceAll('/', '_')}`,
      );
      stop(
        `${file}:1: column ${c + 1}: read "${head}"; ${path.label} is written as ${names.join(' or ')}.`,
        BAD_INPUT,
      );
    }
    const key = JSON.stringify({ ...meanings[c], unit: undefined });
    const twice = meanings.findIndex((other) => JSON.stringify({ ...other, unit: undefined }) === key);
    if (meanings[c]!.is !== 'carried' && twice < c) {
      stop(
        `${file}:1: columns ${twice + 1} and ${c + 1} say the same, ${head}; keep one of them.`,
        BAD_INPUT,
      );
    }
  }
  if (!meanings.some(({ is }) => is === 'input')) {
    stop(
      `${file}:1: no column names an input of the case; a column is its path with the unit behind it, such as ${usual.join(' or ')}.`,
      BAD_INPUT,
    );
  }
  return meanings;
}
