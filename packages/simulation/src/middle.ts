import type { UncertainInput } from '@tubgap/casefile';
import { centralValue } from '@tubgap/statistics';

/** Middle of an input's law, SI: what one number has to stand for it. */
export const middleValue = (input: UncertainInput): number => centralValue(input.law);
