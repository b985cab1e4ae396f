import { InvalidArgumentError } from '@commander-js/extra-typings';
import { UNITS, wholeText } from '@tubgap/units';
import { exactField, fieldSpec } from '../defaults/field-spec.ts';
import type { FieldRow } from '../defaults/row.ts';
import { nameList } from '../nearest-name.ts';
import { CASE_UNITS, type CaseUnits } from '../parts/case-units.ts';
import { readQuantity } from '../quantity.ts';
import type { Setting } from '../text/setting.ts';

const WHOLE = /^(?:\d+|\d{1,3}(?:,\d{3})+)$/;

/** Reads a whole number of a command line, thousands parted by commas or not; anything else is refused with the range. */
export const wholeNumber =
  (least: number, most: number) =>
  (text: string): number => {
    const value = WHOLE.test(text.trim()) ? Number(text.trim().replaceAll(',', '')) : Number.NaN;
    if (!Number.isInteger(value) || value < least || value > most) {
      const range = `${wholeText(least)} to ${wholeText(most)}`;
      throw new InvalidArgumentError(`read "${text}"; a whole number from ${range} is needed.`);
    }
    return value;
  };

/**
 * Reader of an option that is a quantity, SI, in the range of a field. As in a case file a number needs its unit: 980 could
 * be millimetres as well as inches.
 */
function quantityOption(field: FieldRow, example: string): (text: string) => number {
  const spec = fieldSpec(field);
  return (text) => {
    const read = readQuantity(text, spec);
    if (read.ok) return read.value;
    const { code, reason, hint } = read.problem;
    const number = text.trim();
    const fitting = UNITS[spec.kind]
      .map(({ name }) => `${number} ${name}`)
      .filter((written) => readQuantity(written, spec).ok);
    const bare = code === 'missing-unit' && fitting.length > 0;
    const why = bare ? `name the unit: ${nameList(fitting)}` : `${reason}; write it as "${example}"`;
    throw new InvalidArgumentError(`read "${text}"; ${why}.${bare || hint === undefined ? '' : ` ${hint}`}`);
  };
}

/** Reads a tub's top height above the track, m: any unit of length, in the range of a case's heights. */
export const topHeightOption = quantityOption(exactField('heights[]'), '39 1/4 in');

/** Reads how far a tub's centre lies ahead of the axle, m, in the range of a case's tubs. */
export const centreOption = quantityOption(exactField('tubs[].centreForward'), '1/4 in');

/** What is read at the car, in the ranges of its tables. */
const seen = (label: string, kind: FieldRow['kind'], low: string, high: string): FieldRow => ({
  path: label,
  label,
  kind,
  range: [low, high],
});

/** Reads a speed at the finish, m/s. */
export const trapSpeedOption = quantityOption(
  seen('speed at the finish', 'speed', '20 mph', '345 mph'),
  '224 mph',
);

/** Reads a gap from tyre to tub, m. */
export const gapOption = quantityOption(seen('gap', 'length', '0 in', '20 in'), '6 1/8 in');

/** Reads a hub angle from straight up, forward positive, rad. */
export const hubAngleOption = quantityOption(seen('hub angle', 'angle', '-120 deg', '120 deg'), '30 deg');

/** Reads the name of a results folder: what every system takes as the name of one. */
export function folderName(text: string): string {
  if (/^[A-Za-z0-9](?:[\w.-]{0,78}[\w-])?$/.test(text)) return text;
  throw new InvalidArgumentError(
    `read "${text}"; a name of letters, digits, -, _ and . is needed, 80 at most, that begins with a letter or a digit.`,
  );
}

/** Reads one `path=value` of a command line; undefined when it has no sign of equality. */
function readSetting(words: string): Setting | undefined {
  const at = words.indexOf('=');
  if (at <= 0) return undefined;
  return { path: words.slice(0, at).trim(), value: words.slice(at + 1).trim() };
}

/** Collects `--set path=value`, as often as it is given. */
export function settingOption(words: string, before: Setting[] = []): Setting[] {
  const setting = readSetting(words);
  if (setting === undefined) {
    throw new InvalidArgumentError(
      `read "${words}"; path=value is needed, such as "run.trapSpeed=~230 mph".`,
    );
  }
  return [...before, setting];
}

/** Reads in which units everything is told. @throws InvalidArgumentError */
export function unitsOption(words: string): CaseUnits {
  const found = CASE_UNITS.find((name) => name === words.trim());
  if (found === undefined) throw new InvalidArgumentError(`read "${words}"; inch or metric is needed.`);
  return found;
}

/** The units of a command line as a value in place of the case's own. */
export const unitsSetting = (units: CaseUnits | undefined): Setting[] =>
  units === undefined ? [] : [{ path: 'units', value: units }];

/** Options with the units among the values that they put in place of the case's own. */
export function withUnits<Options extends { set?: Setting[] | undefined; units?: CaseUnits | undefined }>({
  units,
  ...options
}: Options): Omit<Options, 'units'> {
  return units === undefined
    ? options
    : { ...options, set: [...(options.set ?? []), ...unitsSetting(units)] };
}

/** Collects an option's words, as often as it is given. */
export const repeated = (words: string, before: string[] = []): string[] => [...before, words];
