import type { CarRow, Each, Group, LawText, Prior } from './row.ts';
import { JUDGEMENT } from './row.ts';

type Bounds = Prior['range'];

/** Mandatory: the shop can weigh or measure it, so nothing is assumed. */
export function given(...range: Bounds): Prior {
  return { range, basis: 'the case must give it' };
}

/** Assumed when the case says nothing. */
export function prior(range: Bounds, law: LawText): Prior {
  return { range, law, basis: JUDGEMENT };
}

/** A row of the car's table; `group` and `each` come as a pair. */
export function row(
  name: CarRow['name'],
  path: string,
  label: string,
  kind: CarRow['kind'],
  [group, each]: readonly [Group, Each],
  its: Prior,
  about?: string,
): CarRow {
  return { name, path, label, kind, group, each, prior: its, ...(about === undefined ? {} : { about }) };
}
