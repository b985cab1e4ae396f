import { type Case, everyInput, placeIn, type Setting, type UncertainInput } from '@tubgap/casefile';
import { findUnit, parseMeasure, type QuantityKind, UNITS } from '@tubgap/units';
import { type Document, isMap, isScalar, isSeq, parseDocument } from 'yaml';
import { writtenLaw } from './written-law.ts';

type Path = readonly (string | number)[];

const MOVED = /^\s*~\s*(\S.*?)\s*$/s;
/** Fields that say where the middle of a law lies and nothing else. */
const MIDDLES: Readonly<Record<string, string>> = {
  normal: 'mean',
  'log-normal': 'median',
  constant: 'value',
};

/** Path as texts write it: 'tyres[0].coldPressure'. */
const pathWords = (path: Path): string =>
  path.map((part, i) => (typeof part === 'number' ? `[${part}]` : i === 0 ? part : `.${part}`)).join('');

const inputAt = (source: Case, path: Path): UncertainInput | undefined =>
  everyInput(source).find((input) => input.path === pathWords(path));

/** A number with its unit, SI, and the unit's kind; undefined when it is none. */
function quantity(text: unknown): { value: number; kind: QuantityKind } | undefined {
  const measure = parseMeasure(String(text));
  if (measure === undefined || measure.unit === '') return undefined;
  for (const kind of Object.keys(UNITS) as QuantityKind[]) {
    const unit = findUnit(kind, measure.unit);
    if (unit !== undefined) return { value: measure.number * unit.factor + unit.offset, kind };
  }
  return undefined;
}

/** Measured values moved together, so that their mean is the new middle. */
function movedValues(values: unknown, middle: string): string[] | undefined {
  const target = quantity(middle);
  const read = Array.isArray(values) ? values.map(quantity) : [];
  if (target === undefined || read.length === 0) return undefined;
  if (!read.every((one) => one?.kind === target.kind)) return undefined;
  const shift = target.value - read.reduce((sum, one) => sum + one!.value, 0) / read.length;
  const plain = UNITS[target.kind].find(({ factor, offset }) => factor === 1 && offset === 0)!.name;
  return read.map((one) => `${one!.value + shift} ${plain}`);
}

/** Writes a law's new middle where only that has to change; whether it could. */
function moveMiddle(document: Document, path: Path, middle: string): boolean {
  const node = document.getIn(path, true);
  if (isScalar(node)) {
    node.value = middle;
    return true;
  }
  if (!isMap(node)) return false;
  const field = MIDDLES[String(node.get('law'))];
  if (field !== undefined) {
    node.set(field, middle);
    return true;
  }
  const values = node.get('values');
  const moved = isSeq(values) ? movedValues(values.toJSON(), middle) : undefined;
  if (moved === undefined) return false;
  node.set('values', document.createNode(moved, { flow: true }));
  return true;
}

/** What could not be written into a case file. */
export class UnwritableError extends Error {}

/**
 * A case file's text with settings in their places, comments and all else left as they stand: who reads it gets the
 * numbers that the file with the settings gives.
 * @param source  the case as read with these settings
 * @throws UnwritableError for a law that no file can say
 */
export function textWith(text: string, source: Case, settings: readonly Setting[]): string {
  const document = parseDocument(text, { uniqueKeys: false, version: '1.2' });
  for (const { path: words, value } of settings) {
    const path = placeIn(document.toJS({ maxAliasCount: 50 }), words);
    if ('reason' in path) throw new UnwritableError(`${words}: ${path.reason}`);
    const middle = MOVED.exec(value)?.[1];
    if (middle === undefined) {
      const given = parseDocument(value, { version: '1.2' });
      document.setIn(path, given.contents);
      continue;
    }
    if (moveMiddle(document, path, middle)) continue;
    const input = inputAt(source, path);
    const law = input && writtenLaw(input);
    if (law === undefined) throw new UnwritableError(`${words}: this law cannot be written into a case file`);
    document.setIn(path, document.createNode(law, { flow: true }));
  }
  return document.toString({ lineWidth: 0, flowCollectionPadding: true });
}
