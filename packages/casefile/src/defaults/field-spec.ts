import type { QuantityKind } from '@tubgap/units';
import { type QuantitySpec, readMeasure } from '../quantity.ts';
import { EXACT_FIELDS } from './exact-fields.ts';
import type { FieldRow, Prior } from './row.ts';

type Range = Prior['range'];

/** A written range in SI, and the unit that it is written in. */
export function rangeOf(range: Range, kind: QuantityKind): { min: number; max: number; unit: string } {
  const bounds = range.map((bound) => {
    const read = readMeasure(bound, kind);
    if (!read.ok) throw new RangeError(`range ${range.join(' to ')}: ${read.problem.reason}`);
    return {
      value: read.value.number * read.value.unit.factor + read.value.unit.offset,
      unit: read.value.unit.name,
    };
  });
  const [low, high] = bounds as [(typeof bounds)[0], (typeof bounds)[0]];
  return { min: low.value, max: high.value, unit: high.unit };
}

/** What an exact number must be. */
export function fieldSpec(row: FieldRow): QuantitySpec {
  const why = row.why === undefined ? {} : { why: row.why };
  return { label: row.label, kind: row.kind, ...rangeOf(row.range, row.kind), ...why };
}

/** The row of an exact number; RangeError when the table has none of that path. */
export function exactField(path: string): FieldRow {
  const row = EXACT_FIELDS.find((candidate) => candidate.path === path);
  if (row === undefined) throw new RangeError(`the table of defaults has no field ${path}`);
  return row;
}
