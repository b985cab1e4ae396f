import { type LengthUnits, unitsOfMost } from '@tubgap/units';

/** Every text of a case as written, whatever it stands for. */
function textsOf(raw: unknown): string[] {
  if (typeof raw === 'string') return [raw];
  return typeof raw === 'object' && raw !== null ? Object.values(raw).flatMap(textsOf) : [];
}

/** The units in which most lengths of a case are written, its catalogues apart: whoever writes it measures so. */
export const caseUnits = (raw: unknown): LengthUnits => unitsOfMost(textsOf(raw), ['length']);
