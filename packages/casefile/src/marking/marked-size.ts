import type { Construction } from '@tubgap/core';
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

/** What the size that a tyre's name is says of it; undefined where its name is something else. */
export function markedSize(name: string, construction: Construction): MarkedSize | undefined {
  const read = readTyreMarking(name);
  if (!read.ok || read.value.form === 'rollout') return undefined;
  const { section, tread } = widthsOf(read.value.width, read.value.widthMeans);
  return {
    freeDiameter: diameterPrior(read.value, construction),
    sectionWidth: section,
    treadWidth: tread,
  };
}

/** Where the size of such a tyre comes from. */
export const MARKED_BASIS =
  'prior: the size printed on the tyre; a marking is nominal, tape round the tyre and give its rollout';
