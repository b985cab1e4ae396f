import type { CaseUnits } from '@tubgap/casefile';
import type { DecidedResult } from '@tubgap/results';
import { type Figures, figuresIn, type LengthUnits } from '@tubgap/units';
import { subjectOf, type VerdictSubject } from '@tubgap/wording';

/** What says in which units its papers speak: a result, or a study. */
export interface OfCase {
  case: Readonly<{ units?: LengthUnits | undefined }>;
}

/** What the words of a verdict need of a result. */
export const subjectIn = (result: DecidedResult): VerdictSubject =>
  subjectOf({ ...result, units: result.case.units });

/** The figures of a result's or study's papers. */
export const figuresOf = ({ case: { units } }: OfCase): Figures => figuresIn(units);

/** A result or study told in other units than its case's. */
export function toldIn<Told extends OfCase>(told: Told, units: CaseUnits | undefined): Told {
  if (units === undefined) return told;
  const { units: _, ...rest } = told.case;
  return { ...told, case: { ...rest, ...(units === 'metric' && { units: 'mm' }) } };
}
