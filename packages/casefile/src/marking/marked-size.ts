import type { Construction } from '@tubgap/core';
import { formatQuantity } from '@tubgap/units';
import { exactField, fieldSpec } from '../defaults/field-spec.ts';
import type { Problem } from '../issue.ts';
import { rangeText } from '../quantity.ts';
import { diameterPrior, type LengthRange, widthsOf } from './marking-size.ts';
import { readTyreMarking } from './tyre-marking.ts';

/** What the size that is printed on a tyre leaves open of it, m. */
export interface MarkedSize {
  freeDiameter: LengthRange;
  sectionWidth: LengthRange;
  treadWidth: LengthRange;
}

/** The printed size that a tyre's name is, in one spelling; undefined where its name is something else, a rollout too. */
export function printedSize(name: string): string | undefined {
  const read = readTyreMarking(name);
  return read.ok && read.value.form !== 'rollout' ? read.value.understood : undefined;
}

/** The size of a tyre whose name is the one that is printed on it, or why it is none that a case takes. */
export function markedSize(name: string, construction: Construction): MarkedSize | Problem | undefined {
  const read = readTyreMarking(name);
  if (!read.ok || read.value.form === 'rollout') return undefined;
  const freeDiameter = diameterPrior(read.value, construction);
  const spec = fieldSpec(exactField('tyres[].freeDiameter'));
  if (freeDiameter.nominal < spec.min || freeDiameter.nominal > spec.max) {
    const stands = formatQuantity(freeDiameter.nominal, 'length', 'in');
    const allowed = rangeText(spec);
    return { code: 'out-of-range', reason: `such a tyre stands ${stands}; allowed are ${allowed}`, allowed };
  }
  const { section, tread } = widthsOf(read.value.width, read.value.widthMeans);
  return { freeDiameter, sectionWidth: section, treadWidth: tread };
}

/** Where the size of such a tyre comes from. */
export const MARKED_BASIS =
  'prior: the size printed on the tyre; a marking is nominal, tape round the tyre and give its rollout';
