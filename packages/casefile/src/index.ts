export type { AssumedValue, Case, CaseTub, CaseTyre, Envelope, HardPoint, UncertainInput } from './case.ts';
export type { Each, Group } from './defaults/row.ts';
export { type Issue, type IssueCode, issueText, type Read } from './issue.ts';
export { caseJsonSchema } from './json-schema.ts';
export { type CaseSource, parseCase } from './parse-case.ts';
export type { Setting } from './text/setting.ts';
export { findUnit, formatQuantity, type QuantityKind, UNITS, type Unit } from './units.ts';
