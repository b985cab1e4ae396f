import { CONSTRUCTIONS, type Construction, freeRadiusFromRollout } from '@tubgap/core';
import { exactField, fieldSpec } from '../defaults/field-spec.ts';
import { anyTyreSpec, DEFAULTS } from '../defaults.ts';
import type { Issue } from '../issue.ts';
import { type MarkedSize, markedSize, printedSize } from '../marking/marked-size.ts';
import { didYouMean } from '../nearest-name.ts';
import type { Column } from './header.ts';
import { type ReadTable, readTable, type TableRow } from './table.ts';

/** One row of a catalogue: its name, its numbers in SI, and its line for the record. */
export interface CatalogueRow {
  name: string;
  line: number;
  /** Without those whose cells are blank. */
  values: Readonly<Record<string, number>>;
  /** What the shop has in columns of its own, by their heads, in their order. */
  listed: Readonly<Record<string, string>>;
}

export interface CatalogueTyre extends CatalogueRow {
  construction: Construction;
  /** By the size that its name is; left out where it is none. */
  marked?: MarkedSize;
}

export interface Catalogue<Row extends CatalogueRow> {
  /** As issues name it. */
  file: string;
  rows: Row[];
  issues: Issue[];
}

const exact = (head: string, path: string, instead?: string): Column => ({
  head,
  field: path.slice(path.lastIndexOf('.') + 1),
  spec: fieldSpec(exactField(path)),
  ...(instead === undefined ? {} : { instead }),
});

const input = (head: string, name: string): Column => {
  const row = DEFAULTS.tyre.find((candidate) => candidate.name === name)!;
  return { head, field: name, spec: anyTyreSpec(row) };
};

const TUB_COLUMNS: readonly Column[] = [
  { ...exact('inside_diameter', 'tubs[].insideDiameter'), needed: true },
  exact('liner', 'tubs[].liner'),
  exact('arc_extent', 'tubs[].arcExtent'),
  exact('leg_length', 'tubs[].legLength'),
  { ...exact('inside_width', 'tubs[].insideWidth'), needed: true },
  exact('skin_thickness', 'tubs[].skinThickness'),
  exact('areal_density', 'tubs[].arealDensity'),
];

const isPrintedSize = (name: string): boolean => printedSize(name) !== undefined;

const TYRE_COLUMNS: readonly Column[] = [
  { ...exact('free_diameter', 'tyres[].freeDiameter'), needed: true, byName: isPrintedSize },
  { ...exact('rollout', 'tyres[].rollout', 'free_diameter'), byName: isPrintedSize },
  exact('reference_pressure', 'tyres[].referencePressure'),
  input('section_width', 'sectionWidth'),
  input('tread_width', 'treadWidth'),
  { ...exact('rim_width', 'tyres[].rim.width'), field: 'rimWidth' },
  input('mass', 'mass'),
  exact('deflection', 'tyres[].deflection'),
  exact('deflection_load', 'tyres[].deflectionLoad'),
];

export interface CatalogueTub extends CatalogueRow {
  /** False where the stock list says so; undefined where it says nothing. */
  inStock?: boolean;
}

/** Head of the shop's own column that says whether a tub is there. */
const STOCK = 'stock';
const IN_STOCK = /^(?:y|yes|in stock|[1-9]\d*)$/i;
const OUT_OF_STOCK = /^(?:n|no|none|out|out of stock|sold out|order|0+)$/i;

/** Whether a cell of the column `stock` says that the shop has none. */
export const saysOutOfStock = (cell: string): boolean => OUT_OF_STOCK.test(cell.trim());

/** Reads the tubs' catalogue. `file` is what issues call it. */
export function readTubs(file: string, text: string): Catalogue<CatalogueTub> {
  const { rows, issues, fault } = readTable(file, text, ['tub'], TUB_COLUMNS);
  const tubs = rows.map((row): CatalogueTub => {
    const { name, line, values, listed } = row;
    const stock = listed[STOCK];
    const known = stock === undefined || IN_STOCK.test(stock) || OUT_OF_STOCK.test(stock);
    if (!known) {
      const reason = 'stock is yes, no or a number of pieces; this counts as not said';
      fault(row, STOCK, { code: 'unknown-name', reason, allowed: 'yes, no or a number' }, 'warning');
    }
    const said = stock !== undefined && known ? { inStock: IN_STOCK.test(stock) } : {};
    return { name, line, values, listed, ...said };
  });
  return { file, rows: tubs, issues };
}

/** Construction of a tyre, or undefined after a report. */
function constructionOf(row: TableRow, fault: ReadTable['fault']): Construction | undefined {
  const { construction } = row.words;
  const known = CONSTRUCTIONS.find((name) => name === construction);
  if (known !== undefined) return known;
  const allowed = CONSTRUCTIONS.join(' or ');
  const hint = didYouMean(construction ?? '', CONSTRUCTIONS);
  const problem = { code: 'unknown-name', reason: `allowed are ${allowed}`, allowed } as const;
  if (construction !== undefined) fault(row, 'construction', { ...problem, ...(hint ? { hint } : {}) });
  return undefined;
}

/** Reads the tyres' catalogue. A rollout is turned into the free diameter. */
export function readTyres(file: string, text: string): Catalogue<CatalogueTyre> {
  const { rows, issues, fault } = readTable(file, text, ['tyre', 'construction'], TYRE_COLUMNS);
  const tyres = rows.flatMap((row): CatalogueTyre[] => {
    const { name, line, values, listed } = row;
    const construction = constructionOf(row, fault);
    const { treadWidth = 0, sectionWidth = Number.POSITIVE_INFINITY, rollout, freeDiameter } = values;
    if (treadWidth > sectionWidth) {
      fault(row, 'tread_width', {
        code: 'contradiction',
        reason: 'the tread cannot be wider than the section',
      });
    }
    if (construction === undefined || treadWidth > sectionWidth) return [];
    const marked = markedSize(name, construction);
    const tyre = { name, line, construction, listed, ...(marked && { marked }) };
    const diameter = freeDiameter ?? (rollout === undefined ? undefined : 2 * freeRadiusFromRollout(rollout));
    return [{ ...tyre, values: diameter === undefined ? values : { ...values, freeDiameter: diameter } }];
  });
  return { file, rows: tyres, issues };
}
