import { cumulative, type Law } from '@tubgap/statistics';
import { formatQuantity, percentText } from '@tubgap/units';
import type { ReadLaw } from '../law.ts';
import type { WrittenCase } from '../schema.ts';
import type { Path } from '../text/node-place.ts';
import { type Contradiction, contradiction } from './contradiction.ts';

const middleOf = (values: readonly number[]): number => {
  const sorted = [...values].sort((a, b) => a - b);
  const half = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[half]! : 0.5 * (sorted[half - 1]! + sorted[half]!);
};

/** 1/Φ⁻¹(¾): the median of the distances from the median, times this, is the sd of a normal sample. */
const NORMAL_MAD = 1.482602218505602;
/**
 * Robust standard deviations from the median past which a value stands apart. Source: B. Iglewicz and D. Hoaglin (1993),
 * How to Detect and Handle Outliers, a modified z-score above 3.5 (from memory). In sound normal lists some value does so too:
 * in one in five of five values, in one in eight of twelve (numpy 2.4), which is why it is told and nothing is done.
 */
const APART = 3.5;

/**
 * Which of measured values stand apart from the rest by median and median absolute deviation, which a few strays do not
 * move. None where half of the values are the same, for then there is no such deviation.
 * @returns their indices
 */
export function valuesApart(values: readonly number[]): number[] {
  const middle = middleOf(values);
  const spread = NORMAL_MAD * middleOf(values.map((value) => Math.abs(value - middle)));
  if (spread === 0) return [];
  return values.flatMap((value, i) => (Math.abs(value - middle) > APART * spread ? [i] : []));
}

/**
 * Times the share that lies past the outermost of n values, by rank 1 in n + 1 whatever the law, past which a law reaches
 * far beyond what was measured. Of sound normal lists 1 in 1,400 of twelve values does by chance, 1 in 20 of a hundred
 * (40,000 lists each, numpy 2.4).
 */
const FAR = 3;

/** What a law puts beyond its values, on the side where that is more. */
function reach(law: Law, values: readonly number[]): { share: number; end: number; side: string } {
  const [least, largest] = [Math.min(...values), Math.max(...values)];
  const [below, above] = [cumulative(law, least), 1 - cumulative(law, largest)];
  return above >= below
    ? { share: above, end: largest, side: 'above the largest' }
    : { share: below, end: least, side: 'below the least' };
}

function faultOf(path: Path, { law, measured }: ReadLaw): Contradiction[] {
  if (measured === undefined) return [];
  const { values, kind, unit } = measured;
  const text = (value: number) => formatQuantity(value, kind, unit);
  const apart = valuesApart(values).map((i) => text(values[i]!));
  const { share, end, side } = reach(law, values);
  const isFar = law.kind === 'student-t' && share > FAR / (values.length + 1);
  if (apart.length === 0 && !isFar) return [];
  const words = [
    ...(apart.length > 0
      ? [`${apart.join(', ')} ${apart.length === 1 ? 'stands' : 'stand'} apart from the other values`]
      : []),
    ...(isFar
      ? [
          `the law puts ${percentText(share)} of the draws ${side} of the ${values.length} values, ${text(end)}, where 1 in ${values.length + 1} is to be expected`,
        ]
      : []),
  ];
  const hint =
    'All values were kept. Take out what was another kind of run, as one that was shut off, or write law: empirical, ' +
    'which follows the values themselves';
  return [{ ...contradiction(path, words.join('; '), hint, 'measured-apart'), severity: 'warning' }];
}

const isRead = (part: object): part is ReadLaw => 'law' in part && 'shown' in part;

/** A warning wherever the values of a measured law stand apart, or its law reaches far beyond them. */
export function measuredFaults(written: WrittenCase): Contradiction[] {
  const look = (part: unknown, path: Path): Contradiction[] => {
    if (typeof part !== 'object' || part === null) return [];
    if (isRead(part)) return faultOf(path, part);
    const fields = Array.isArray(part) ? [...part.entries()] : Object.entries(part);
    return fields.flatMap(([field, value]) => look(value, [...path, field]));
  };
  const { learned: _, ...own } = written;
  return look(own, []);
}
