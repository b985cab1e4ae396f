import { centralValue, type Law, relocateLaw } from '@tubgap/statistics';
import { type InputSpec, lawWords } from '../defaults.ts';
import type { Problem } from '../issue.ts';
import { type ReadLaw, unfit } from '../law.ts';
import { readQuantity } from '../quantity.ts';

/**
 * The same law about another middle (its median): a log-normal law is scaled, so that its share of spread stays; any
 * other is shifted, its ends with it.
 */
const about = (law: Law, middle: number): Law => relocateLaw(law, 1, middle - centralValue(law));

/**
 * A law moved so that its middle is what was written, or why it cannot be.
 * @param middle  as written: '240 mph'
 */
export function movedLaw(read: ReadLaw, spec: InputSpec, middle: string): ReadLaw | Problem {
  const target = readQuantity(middle, spec);
  if (!target.ok) return target.problem;
  if (read.law.kind === 'log-normal' && target.value <= 0) {
    return { code: 'law', reason: `a log-normal law cannot have ${middle} as its middle` };
  }
  const law = about(read.law, target.value);
  const shown =
    law.kind === 'constant'
      ? lawWords({ law: 'constant', value: middle })
      : `${read.shown}, moved to a middle of ${middle}`;
  return unfit(law, spec) ?? { ...read, law, shown };
}
