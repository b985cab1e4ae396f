import { CONSTRUCTIONS, type Construction } from '@tubgap/core';
import { BUILD_INPUTS, CHASSIS_INPUTS } from './defaults/chassis-inputs.ts';
import { EXACT_FIELDS } from './defaults/exact-fields.ts';
import { exactField, fieldSpec, rangeOf } from './defaults/field-spec.ts';
import type { CarRow, Each, FieldRow, Prior, TyreRow } from './defaults/row.ts';
import { RUN_INPUTS } from './defaults/run-inputs.ts';
import { TYRE_INPUT_ROWS } from './defaults/tyre-inputs.ts';
import { type QuantitySpec, rangeText } from './quantity.ts';

/**
 * The one table of what a case may say: place, words, kind, range and default of every number. The schema, its
 * descriptions, the ranges in messages and the priors all come from here. `gripLostToss` alone of the core's inputs is
 * not in it: it is a throw of a die, and no case can give it.
 */
export const DEFAULTS = {
  car: [...CHASSIS_INPUTS, ...BUILD_INPUTS, ...RUN_INPUTS],
  tyre: TYRE_INPUT_ROWS,
  exact: EXACT_FIELDS,
} as const;

/** What an uncertain number must be, and how long one value of it holds when no law is given. */
export interface InputSpec extends QuantitySpec {
  each: Each;
}

/** What a car's input must be. */
export function carSpec(row: CarRow): InputSpec {
  return { label: row.label, kind: row.kind, each: row.each, ...rangeOf(row.prior.range, row.kind) };
}

/** What a tyre's input must be when its construction is known. */
export function tyreSpec(row: TyreRow, construction: Construction): InputSpec {
  return {
    label: row.label,
    kind: row.kind,
    each: row.each,
    ...rangeOf(row.prior[construction].range, row.kind),
  };
}

/** What a tyre's input must be as long as its construction is not known: the widest of all. */
export function anyTyreSpec(row: TyreRow): InputSpec {
  const specs = CONSTRUCTIONS.map((construction) => tyreSpec(row, construction));
  const first = specs[0]!;
  if (specs.every(({ min, max }) => min === first.min && max === first.max)) return first;
  return {
    ...first,
    min: Math.min(...specs.map(({ min }) => min)),
    max: Math.max(...specs.map(({ max }) => max)),
    allowed: specs.map((spec, i) => `${rangeText(spec)} (${CONSTRUCTIONS[i]})`).join(' or '),
  };
}

/** What a number of the table of exact ones must be where a law is welcome too. */
export function exactOrLawSpec(path: string): InputSpec {
  return { ...fieldSpec(exactField(path)), each: 'car' };
}

const EACH_WORDS: Readonly<Record<Each, string>> = { car: 'one value per car', run: 'new every run' };

/** A law in words, in the units it was written in: "normal, mean 190 lbf/in, sd 15 lbf/in, one value per car". */
export function lawWords(text: Readonly<Record<string, unknown>>): string {
  if (text.law === 'constant') return `${text.value}, taken as exact`;
  const fields = Object.entries(text).filter(([key]) => key !== 'law' && key !== 'each');
  const words = fields.map(([key, value]) => `${key} ${Array.isArray(value) ? value.join(', ') : value}`);
  return [text.law, ...words, EACH_WORDS[text.each as Each]].join(', ');
}

function priorWords(prior: Prior): string {
  if (prior.law) return `Default: ${lawWords(prior.law)} (${prior.basis})`;
  return prior.spread ? `Default: about its source with sd ${prior.spread} (${prior.basis})` : '';
}

const sentences = (parts: readonly (string | undefined)[]) =>
  `${parts.filter((part) => part !== undefined && part !== '').join('. ')}.`;

const capital = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);

/** What the schema says about a car's input. */
export function describeCarInput(row: CarRow): string {
  return sentences([`${capital(row.label)}, ${rangeText(carSpec(row))}`, row.about, priorWords(row.prior)]);
}

const describeChange = ({ label, path }: CarRow | FieldRow, spec: QuantitySpec): string =>
  sentences([`${capital(label)}, ${rangeText(spec)}, in this class`, `Left out: as ${path} of the case`]);

/** What the schema says about a car's input where the class of a tyre may change it. */
export const describeClassInput = (row: CarRow): string => describeChange(row, carSpec(row));

/** What the schema says about an exact number where the class of a tyre may change it. */
export const describeClassField = (row: FieldRow): string => describeChange(row, fieldSpec(row));

/** What the schema says about a tyre's input. */
export function describeTyreInput(row: TyreRow): string {
  const words = (prior: Prior) =>
    priorWords(prior) || `Default: as its source has it, taken as exact (${prior.basis})`;
  const alike = new Set(Object.values(row.prior)).size === 1;
  const priors = CONSTRUCTIONS.map((name) => `${alike ? '' : `${capital(name)}: `}${words(row.prior[name])}`);
  return sentences([`${capital(row.label)}, ${rangeText(anyTyreSpec(row))}`, row.about, ...new Set(priors)]);
}

/** What the schema says about an exact number. */
export function describeField(row: FieldRow): string {
  const basis = row.basis === undefined ? '' : ` (${row.basis})`;
  const value = row.value === undefined ? undefined : `Default: ${row.value}${basis}`;
  const why = row.why && capital(row.why);
  return sentences([`${capital(row.label)}, ${rangeText(fieldSpec(row))}`, why, row.about, value]);
}

/**
 * Range that a case may give a number, SI, both ends included: of the middle of its law where it has one.
 * @param path  its row in the table: 'run.trapSpeed', 'tyres[].coldPressure'
 * @param construction  of the tyre, for a number of its own
 * @throws RangeError when the table has none of that path
 */
export function allowedRange(path: string, construction: Construction): { min: number; max: number } {
  const car = DEFAULTS.car.find((row) => row.path === path);
  if (car !== undefined) return carSpec(car);
  const tyre = DEFAULTS.tyre.find((row) => row.path === path);
  return tyre === undefined ? fieldSpec(exactField(path)) : tyreSpec(tyre, construction);
}
