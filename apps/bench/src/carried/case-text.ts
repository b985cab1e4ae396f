import { type Case, placeIn, readNumber, type Setting, UNITS, type UncertainInput } from '@tubgap/casefile';
import { scaleLaw } from '@tubgap/uncertainty';
import { type Document, isMap, isScalar, parseDocument, type YAMLMap } from 'yaml';
import { writtenLaw } from './written-law.ts';

type Path = readonly (string | number)[];

const MOVED = /^\s*~\s*(\S.*?)\s*$/s;
/** Fields that say where the middle of a law lies and nothing else. */
const MIDDLES: Readonly<Record<string, string>> = {
  normal: 'mean',
  'log-normal': 'median',
  constant: 'value',
};

const everyInput = (source: Case): UncertainInput[] => [
  ...Object.values(source.car),
  ...source.tyres.flatMap((tyre) => [...Object.values(tyre.inputs), ...Object.values(tyre.car ?? {})]),
];

/** Path as texts write it: 'tyres[0].coldPressure'. */
const pathWords = (path: Path): string =>
  path.map((part, i) => (typeof part === 'number' ? `[${part}]` : i === 0 ? part : `.${part}`)).join('');

const FORCE = 'rearDownforce.force';

/** The input that stands at a path once its law is moved; of a rear downforce, which is kept as an area, as a force. */
function inputAt(source: Case, path: Path, middle: string): UncertainInput | undefined {
  const words = pathWords(path);
  const found = everyInput(source).find((input) => input.path === words);
  if (found !== undefined || !words.endsWith(FORCE)) return found;
  const area = everyInput(source).find((input) => input.path === words.replace(FORCE, 'downforceArea'));
  const parts = /^(\S+)\s*(.*)$/.exec(middle);
  const unit = UNITS.force.find(({ name }) => name === parts?.[2]);
  const force = readNumber(parts?.[1] ?? '');
  if (area?.law.kind !== 'log-normal' && area?.law.kind !== 'normal' && area?.law.kind !== 'constant')
    return undefined;
  if (unit === undefined || force === undefined) return undefined;
  const now =
    area.law.kind === 'log-normal'
      ? area.law.median
      : area.law.kind === 'normal'
        ? area.law.mean
        : area.law.value;
  return { ...area, kind: 'force', law: scaleLaw(area.law, (force * unit.factor) / now, 0) };
}

/** Measured values moved together, so that their mean is the middle of the law. */
function movedValues(values: readonly unknown[], input: UncertainInput): string[] | undefined {
  if (input.law.kind !== 'student-t') return undefined;
  const units = UNITS[input.kind];
  const read = values.map((value) => {
    const parts = /^(.*?)\s*([A-Za-z%/°²0-9]*[A-Za-z%°²][A-Za-z%/°²0-9]*)$/.exec(String(value).trim());
    const unit = units.find(({ name }) => name === parts?.[2]);
    const number = readNumber(parts?.[1] ?? '');
    return unit === undefined || number === undefined ? undefined : number * unit.factor + unit.offset;
  });
  if (!read.every((value) => value !== undefined)) return undefined;
  const shift = input.law.mean - read.reduce((sum, value) => sum + value, 0) / read.length;
  const plain = units.find(({ factor, offset }) => factor === 1 && offset === 0)!.name;
  return read.map((value) => `${value + shift} ${plain}`);
}

/** Writes a law's new middle where only that has to change; whether it could. */
function moveMiddle(document: Document, path: Path, middle: string, input: UncertainInput): boolean {
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
  const values = node.get('values') as YAMLMap | undefined;
  const moved = movedValues((values?.toJSON() as unknown[] | undefined) ?? [], input);
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
    const input = inputAt(source, path, middle);
    if (input === undefined)
      throw new UnwritableError(`${words}: no law that a file could write stands here`);
    if (moveMiddle(document, path, middle, input)) continue;
    const law = writtenLaw(input);
    if (law === undefined) throw new UnwritableError(`${words}: this law cannot be written into a case file`);
    document.setIn(path, document.createNode(law, { flow: true }));
  }
  return document.toString({ lineWidth: 0, flowCollectionPadding: true });
}
