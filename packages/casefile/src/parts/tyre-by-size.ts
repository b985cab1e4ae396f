import type { Construction } from '@tubgap/core';
import type { CatalogueTyre } from '../catalogue/catalogue.ts';
import type { Problem } from '../issue.ts';
import { markedSize, printedSize } from '../marking/marked-size.ts';
import { markingProblem } from '../marking/marking-fault.ts';
import { readTyreMarking } from '../marking/tyre-marking.ts';

/**
 * A tyre that no row of the catalogue names as the case does, by the size that is printed on it: the row of the same size
 * in another spelling, else a row of blanks, or why there is none. Undefined for a name that is no printed size.
 * @param construction  as the case gives it
 */
export function tyreBySize(
  name: string,
  construction: Construction | undefined,
  rows: readonly CatalogueTyre[],
): CatalogueTyre | Problem | undefined {
  const read = readTyreMarking(name);
  if (!read.ok) return read.fault.code === 'not-a-size' ? undefined : markingProblem(read.fault);
  const size = printedSize(name);
  if (size === undefined) return undefined;
  const [row, another] = rows.filter((candidate) => printedSize(candidate.name) === size);
  if (row && another === undefined) return { ...row, name };
  if (construction === undefined) {
    const noRow = rows.length === 0 ? '' : 'the catalogue has no row of this size, and ';
    const reason = `${noRow}a size does not tell how the tyre is built`;
    return { code: 'missing', reason, hint: 'Write construction: bias, or construction: radial, beside it' };
  }
  const marked = markedSize(name, construction)!;
  return { name, line: 0, construction, values: {}, listed: {}, marked };
}
