import { formatQuantity, type QuantityKind } from '@tubgap/units';
import type { UncertainInput } from '../case.ts';
import { exactField } from '../defaults/field-spec.ts';
import type { LawText } from '../defaults/row.ts';
import { type InputSpec, lawWords } from '../defaults.ts';
import { type ReadLaw, uncertain } from '../law.ts';
import { readMeasure } from '../quantity.ts';

export type Words = Pick<UncertainInput, 'label' | 'group' | 'kind'>;
type Origin = Pick<UncertainInput, 'path' | 'source' | 'basis'>;

/** An input from its law and its origin. */
export function inputOf(row: Words, spec: InputSpec, read: ReadLaw, origin: Origin): UncertainInput {
  const { label, group } = row;
  const { law, each, shown } = read;
  const floor = spec.min >= 0 ? { floor: 0 } : {};
  return { ...origin, label, group, kind: spec.kind, law, each, shown, ...floor };
}

/** What was given at a path such as 'suspension.antiRollBar'; undefined when nothing was. */
export function given(from: unknown, path: string): unknown {
  const step = (group: unknown, part: string) => (group as Record<string, unknown> | undefined)?.[part];
  return path.split('.').reduce(step, from);
}

/** The uncertain number that was given at a path such as 'run.bump'; undefined when none was. */
export function givenLaw(from: unknown, path: string): ReadLaw | undefined {
  return given(from, path) as ReadLaw | undefined;
}

/** The table does not change while the program runs, and a law in it belongs to one input only. */
const priorsRead = new WeakMap<LawText, ReadLaw>();

/** A law of the table; one that cannot be read is a fault of the table, and throws. */
export function readPrior(law: LawText, spec: InputSpec): ReadLaw {
  const known = priorsRead.get(law) ?? uncertain(spec).parse(law);
  priorsRead.set(law, known);
  return known;
}

function spreadOf(spread: string, value: number, kind: QuantityKind): number {
  const share = readMeasure(spread, 'ratio');
  if (share.ok && spread.endsWith('%')) return share.value.number * share.value.unit.factor * value;
  const own = readMeasure(spread, kind);
  if (!own.ok) throw new RangeError(`spread ${spread}: ${own.problem.reason}`);
  return own.value.number * own.value.unit.factor;
}

/**
 * A normal law about a value from elsewhere, with a spread of the table: in the value's unit, or a share of it in %.
 * Without a spread the value is exact.
 */
export function lawAbout(value: number, spec: InputSpec, spread: string | undefined): ReadLaw {
  const { kind, unit, each } = spec;
  const middle = formatQuantity(value, kind, unit);
  if (spread === undefined) {
    return { law: { kind: 'constant', value }, each, shown: lawWords({ law: 'constant', value: middle }) };
  }
  const shown = lawWords({ law: 'normal', mean: middle, sd: spread, each });
  return { law: { kind: 'normal', mean: value, sd: spreadOf(spread, value, kind) }, each, shown };
}

/** A uniform law over a range, SI. */
export function lawWithin({ low, high }: { low: number; high: number }, spec: InputSpec): ReadLaw {
  const { kind, unit, each } = spec;
  const text = (value: number) => formatQuantity(value, kind, unit);
  const shown = lawWords({ law: 'uniform', low: text(low), high: text(high), each });
  return { law: { kind: 'uniform', low, high }, each, shown };
}

/** Default of an exact number, SI. RangeError when the table has none. */
export function exactDefault(path: string): number {
  const row = exactField(path);
  const read = readMeasure(row.value, row.kind);
  if (!read.ok) throw new RangeError(`${path} has no default`);
  return read.value.number * read.value.unit.factor + read.value.unit.offset;
}
