import { type LengthUnits, unitsOfMost } from '@tubgap/units';

/** How a case or a command line says in which units papers speak. */
export const CASE_UNITS = ['inch', 'metric'] as const;
export type CaseUnits = (typeof CASE_UNITS)[number];

/** Every text of a case as written, whatever it stands for. */
function textsOf(raw: unknown): string[] {
  if (typeof raw === 'string') return [raw];
  return typeof raw === 'object' && raw !== null ? Object.values(raw).flatMap(textsOf) : [];
}

/**
 * The units that a case names; where it names none those in which most of its lengths are written, its catalogues apart:
 * whoever writes it measures so.
 */
export function caseUnits(raw: unknown, named: CaseUnits | undefined): LengthUnits {
  if (named !== undefined) return named === 'metric' ? 'mm' : 'inch';
  return unitsOfMost(textsOf(raw), ['length']);
}
