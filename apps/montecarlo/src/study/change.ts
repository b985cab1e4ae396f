import type { UncertainInput } from '@tubgap/casefile';
import { middleValue } from '@tubgap/simulation';
import { findUnit, type Measure, parseMeasure, UNITS } from '@tubgap/units';
import { StudyFault } from './fault.ts';
import { fromSi, inUnit, measureText } from './measure.ts';

/** What stands for the case's own value in a list of values. */
export const AS_IN_CASE = '~';

const EITHER_WAY = /^(?:±|\+\/-|\+-)\s*/;
const SIGNED = /^[+\-−]/;

/** A list with '± 1 psi' written out as '-1 psi' and '+1 psi'. */
export const bothWays = (texts: readonly string[]): string[] =>
  texts.flatMap((text) => {
    const size = text.replace(EITHER_WAY, '');
    return size === text ? [text] : [`-${size}`, `+${size}`];
  });

/**
 * Whether values are changes of the case's own: one of them has a + in front. A list of negative values alone is of values,
 * since a place may be negative.
 * @throws StudyFault when values stand among changes
 */
export function areChanges(texts: readonly string[], place: string): boolean {
  if (!texts.some((text) => text.startsWith('+'))) return false;
  const other = texts.find(
    (text) => text !== AS_IN_CASE && !SIGNED.test(text) && parseMeasure(text)?.number !== 0,
  );
  if (other === undefined) return true;
  throw new StudyFault([
    `${place}  "${other}" stands among changes of the case's own value; write + or - in front of each, or no + at all.`,
  ]);
}

/** The case's own value at a place: the input that it is, or what is written there. */
export interface OwnValue {
  path: string;
  input: UncertainInput | undefined;
  written: Measure | undefined;
}

/**
 * The value that a change of the case's own comes to, as a case file writes it: by an amount, or by a share of it (%).
 * @throws StudyFault where the share would be of a share or of a temperature, the unit is another kind's, or no number stands
 */
export function changedText(change: string, { path, input, written }: OwnValue, place: string): string {
  const refuse = (reason: string): never => {
    throw new StudyFault([`${place}  "${change}" of ${path}: ${reason}.`]);
  };
  const measure = parseMeasure(change);
  if (measure === undefined) return refuse('a number and its unit are needed');
  const { number, unit } = measure;
  if (unit === '%') {
    const ofKind = input && UNITS[input.kind];
    const isShare = ofKind?.some(({ name }) => name === '%') ?? written?.unit === '%';
    if (isShare)
      refuse(
        'of a share it is not plain whether this is of its value or points; write the values themselves',
      );
    if (ofKind?.some(({ offset }) => offset !== 0))
      refuse('a temperature has no nought to take a share from; write degrees');
    const own = written?.unit ?? ofKind?.[0]?.name ?? '';
    const middle = input === undefined ? written?.number : fromSi(middleValue(input), input.kind, own);
    return middle === undefined
      ? refuse('no number stands there to change; write the values themselves')
      : measureText(middle * (1 + number / 100), own);
  }
  const middle =
    input === undefined ? written && inUnit(written, unit) : fromSi(middleValue(input), input.kind, unit);
  if (middle !== undefined) return measureText(middle + number, unit);
  return input !== undefined && findUnit(input.kind, unit) === undefined
    ? refuse(
        `${unit === '' ? 'the unit is missing' : `${unit} is no unit of it`}, allowed are ${UNITS[input.kind]
          .map(({ name }) => name)
          .filter(Boolean)
          .join(', ')}`,
      )
    : refuse('no number in that unit stands there to change; write the values themselves');
}
