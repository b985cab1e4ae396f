import { findUnit, parseMeasure, type QuantityKind } from '@tubgap/units';
import { type Answered, answerTo } from './call-answers.ts';
import { putQuestions } from './put-questions.ts';

/** How lengths, speeds and weights are told and answered. */
export type LengthUnits = 'inch' | 'mm';

const METRIC: Readonly<Partial<Record<QuantityKind, readonly string[]>>> = {
  length: ['mm', 'cm', 'm'],
  mass: ['kg'],
  force: ['N'],
  pressure: ['kPa', 'bar', 'mbar', 'hPa', 'Pa'],
  stiffness: ['N/mm', 'N/m'],
  speed: ['km/h', 'm/s'],
};

/** The units that a quantity is told in; undefined where it has none that says. */
function unitsIn(text: string): LengthUnits | undefined {
  const unit = parseMeasure(text)?.unit ?? '';
  for (const [kind, names] of Object.entries(METRIC)) {
    const found = unit === '' ? undefined : findUnit(kind as QuantityKind, unit)?.name;
    if (found !== undefined) return names.includes(found) ? 'mm' : 'inch';
  }
  return undefined;
}

/** The units of a call that chose none: those in which most of it is told, inches in doubt. Sizes as printed say nothing. */
export function toldUnits(answers: Answered): LengthUnits {
  const told = putQuestions(answers).flatMap(({ question, id }) => {
    const text = answerTo(answers, id);
    const units = question.kind === 'quantity' && typeof text === 'string' ? unitsIn(text) : undefined;
    return units ?? [];
  });
  return told.filter((units) => units === 'mm').length > told.length / 2 ? 'mm' : 'inch';
}
