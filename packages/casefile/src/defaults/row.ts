import type { CarInput, Construction, TyreInput } from '@tubgap/core';
import type { QuantityKind } from '@tubgap/units';

export type Each = 'car' | 'run';
export type Group = 'tyre' | 'car' | 'builder' | 'day';

/** A law as a case file writes it; the table of defaults speaks the file's own language. */
export type LawText = { law: string; each: Each } & Readonly<Record<string, string | number>>;

/** What an input may be, and what it is taken to be when the case says nothing. */
export interface Prior {
  /** Allowed range of the middle of the law, as the file would write it. */
  range: readonly [string | number, string | number];
  /** Law when the case says nothing; without one, and with no middle value from elsewhere, the case must give it. */
  law?: LawText;
  /**
   * For an input with a middle value from elsewhere (a catalogue, the build pressure): standard deviation about it.
   * With neither law nor spread such a value is taken as exact.
   */
  spread?: string;
  /** Where law or spread come from. */
  basis: string;
}

interface Row {
  /** Place in the file; `tyres[].` opens the fields of a tyre. */
  path: string;
  label: string;
  kind: QuantityKind;
  /** Whether a value without a law holds for this car or is new every run. */
  each: Each;
  group: Group;
  /** A word more for the reader of the schema. */
  about?: string;
}

export interface CarRow extends Row {
  name: CarInput;
  prior: Prior;
}

export interface TyreRow extends Row {
  name: TyreInput;
  prior: Readonly<Record<Construction, Prior>>;
}

/** A number that is taken as exact. */
export interface FieldRow {
  path: string;
  label: string;
  kind: QuantityKind;
  range: readonly [string | number, string | number];
  /** Value when the case says nothing; without one the field must be given, or its group left out as a whole. */
  value?: string | number;
  /** Where that value comes from; a setting of the simulation needs no reason. */
  basis?: string;
  /** May be left out although it has no value of its own. */
  optional?: true;
  whole?: true;
  /** Why the range ends where it does, when that is not plain. */
  why?: string;
  about?: string;
}

export const JUDGEMENT = 'prior: engineering judgement';
export const COMMON = 'prior: common practice, no source';
