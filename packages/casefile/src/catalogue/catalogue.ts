import { CONSTRUCTIONS, type Construction, freeRadiusFromRollout } from '@tubgap/core';
import { exactField, fieldSpec } from '../defaults/field-spec.ts';
import { anyTyreSpec, DEFAULTS } from '../defaults.ts';
import type { Issue } from '../issue.ts';
import { didYouMean } from '../nearest-name.ts';
import { type Column, type ReadTable, readTable, type TableRow } from './table.ts';

/** One row of a catalogue: its name, its numbers in SI, and its line for the record. */
export interface CatalogueRow {
  name: string;
  line: number;
  values: Readonly<Record<string, number>>;
}

export interface CatalogueTyre extends CatalogueRow {
  construction: Construction;
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
  exact('inside_diameter', 'tubs[].insideDiameter'),
  exact('liner', 'tubs[].liner'),
  exact('arc_extent', 'tubs[].arcExtent'),
  exact('leg_length', 'tubs[].legLength'),
  exact('inside_width', 'tubs[].insideWidth'),
  exact('skin_thickness', 'tubs[].skinThickness'),
  exact('areal_density', 'tubs[].arealDensity'),
];

const TYRE_COLUMNS: readonly Column[] = [
  exact('free_diameter', 'tyres[].freeDiameter'),
  exact('rollout', 'tyres[].rollout', 'free_diameter'),
  exact('reference_pressure', 'tyres[].referencePressure'),
  input('section_width', 'sectionWidth'),
  input('tread_width', 'treadWidth'),
  { ...exact('rim_width', 'tyres[].rim.width'), field: 'rimWidth' },
  input('mass', 'mass'),
  exact('deflection', 'tyres[].deflection'),
  exact('deflection_load', 'tyres[].deflectionLoad'),
];

/** Reads the tubs' catalogue. `file` is what issues call it. */
export function readTubs(file: string, text: string): Catalogue<CatalogueRow> {
  const { rows, issues } = readTable(file, text, ['tub'], TUB_COLUMNS);
  return { file, rows: rows.map(({ name, line, values }) => ({ name, line, values })), issues };
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
    const { name, line, values } = row;
    const construction = constructionOf(row, fault);
    const { treadWidth = 0, sectionWidth = 0, rollout, freeDiameter } = values;
    if (treadWidth > sectionWidth) {
      fault(row, 'tread_width', {
        code: 'contradiction',
        reason: 'the tread cannot be wider than the section',
      });
    }
    if (construction === undefined || treadWidth > sectionWidth) return [];
    const diameter = freeDiameter ?? 2 * freeRadiusFromRollout(rollout!);
    return [{ name, line, construction, values: { ...values, freeDiameter: diameter } }];
  });
  return { file, rows: tyres, issues };
}
