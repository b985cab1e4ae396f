import { isTablePath, tablePath } from './defaults/table-path.ts';
import { DEFAULTS } from './defaults.ts';
import { caseSchema, type WrittenCase } from './schema.ts';
import type { Fault } from './schema-issue.ts';
import type { Path } from './text/node-place.ts';

type Group = Record<string | number, unknown>;

/** The whole number of the table that a fault is about: 'car.mass' for a fault in 'car.mass.sd'. */
function wholeNumber(path: Path): Path {
  const length = path.findIndex((_, index) => isTablePath(path.slice(0, index + 1)));
  return length < 0 ? path : path.slice(0, length + 1);
}

/** What stands in for a mandatory field at fault: the low end of a number's range, in the file's words. */
function placeHolder(path: Path): string | number | undefined {
  const place = tablePath(path);
  if (place === 'name') return 'case';
  const exact = DEFAULTS.exact.find((row) => row.path === place && row.value === undefined && !row.optional);
  const input = DEFAULTS.car.find((row) => row.path === place && row.prior.law === undefined);
  return exact?.range[0] ?? input?.prior.range[0];
}

function groupAt(root: unknown, path: Path): Group | undefined {
  const step = (group: unknown, part: string | number) => (group as Group | null | undefined)?.[part];
  const group = path.reduce(step, root);
  return typeof group === 'object' && group !== null ? (group as Group) : undefined;
}

/**
 * The part of a case that can be judged although other fields are at fault: those are left out, or held by a value
 * from the table where the case cannot do without. It is judged for further faults only; no result comes from it.
 * Undefined when too little is left.
 */
export function readablePart(
  raw: unknown,
  faults: readonly Fault[],
): { raw: unknown; written: WrittenCase } | undefined {
  const copy = structuredClone(raw);
  for (const fault of faults) {
    const path = wholeNumber(fault.path);
    const name = path.findLastIndex((part) => typeof part === 'string');
    const group = groupAt(copy, path.slice(0, name));
    const key = path[name];
    if (group === undefined || key === undefined) continue;
    const value = placeHolder(path.slice(0, name + 1));
    if (value === undefined) delete group[key];
    else group[key] = value;
  }
  const read = caseSchema.safeParse(copy);
  return read.success ? { raw: copy, written: read.data } : undefined;
}

/** Whether a place lies in, or holds, a field that was at fault already. */
export function overlapsFault(path: Path, faults: readonly Fault[]): boolean {
  return faults.some((fault) => {
    const length = Math.min(fault.path.length, path.length);
    return path.slice(0, length).every((part, index) => part === fault.path[index]);
  });
}
