import { type Cell, readCsv } from './csv.ts';
import type { Construction } from './defaults/row.ts';
import { DEFAULTS, exactField, fieldSpec, tyreSpec } from './defaults.ts';
import { type Issue, issueAt, type Problem } from './issue.ts';
import { didYouMean, nameList } from './nearest-name.ts';
import { type QuantitySpec, readQuantity } from './quantity.ts';
import { UNITS } from './units.ts';

/** Letters; several thousand rows. */
export const LARGEST_TABLE = 1_000_000;

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
  /** Whether rows are missing because something was wrong with them. */
  faulty: boolean;
  issues: Issue[];
}

interface Column {
  /** Head of the column without its unit. */
  head: string;
  field: string;
  spec: QuantitySpec;
  /** One of the columns of a group is enough. */
  instead?: string;
}

const exact = (head: string, path: string, instead?: string): Column => ({
  head,
  field: path.slice(path.lastIndexOf('.') + 1),
  spec: fieldSpec(exactField(path)),
  ...(instead === undefined ? {} : { instead }),
});

const input = (head: string, name: string): Column => {
  const row = DEFAULTS.tyre.find((candidate) => candidate.name === name)!;
  return { head, field: name, spec: tyreSpec(row, 'bias') };
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
  exact('free_diameter', 'tyres[].freeDiameter', 'rollout'),
  exact('rollout', 'tyres[].rollout', 'free_diameter'),
  exact('reference_pressure', 'tyres[].referencePressure'),
  input('section_width', 'sectionWidth'),
  input('tread_width', 'treadWidth'),
  exact('rim_width', 'tyres[].rim.width'),
  input('mass', 'mass'),
  exact('deflection', 'tyres[].deflection'),
  exact('deflection_load', 'tyres[].deflectionLoad'),
];

const headOf = (column: Column, unit: string) => `${column.head}_${unit.toLowerCase().replaceAll('/', '_')}`;

/** The heads that a column may have, its usual one first: `liner_in`, `liner_mm` … */
const headsOf = (column: Column) => UNITS[column.spec.kind].map((unit) => headOf(column, unit.name));

interface Heading {
  column: Column | undefined;
  unit: string;
}

type Fault = (cell: Cell | undefined, path: string, problem: Problem) => void;

function readHeader(
  header: readonly Cell[],
  words: readonly string[],
  columns: readonly Column[],
  fault: Fault,
): Heading[] {
  const known = [...words, ...columns.flatMap(headsOf)];
  const seen = new Set<string>();
  const headings = header.map((cell): Heading => {
    const column = columns.find((candidate) => headsOf(candidate).includes(cell.text));
    const unit =
      column && UNITS[column.spec.kind].find((candidate) => headOf(column, candidate.name) === cell.text);
    if (!column && !words.includes(cell.text)) {
      const hint = didYouMean(cell.text, known);
      const allowed = nameList([...words, ...columns.map((candidate) => headsOf(candidate)[0]!)]);
      const reason = `there is no column of this name${hint === undefined ? `; known are ${allowed}` : ''}`;
      fault(cell, cell.text, {
        code: 'unknown-key',
        reason,
        allowed,
        ...(hint === undefined ? {} : { hint }),
      });
    }
    const field = column?.field ?? cell.text;
    if (seen.has(field))
      fault(cell, cell.text, { code: 'duplicate-name', reason: 'this column is there twice' });
    seen.add(field);
    return { column, unit: unit?.name ?? '' };
  });
  for (const word of words) {
    if (!seen.has(word)) fault(header[0], word, { code: 'missing', reason: 'this column is missing' });
  }
  for (const column of columns) {
    const other = columns.find((candidate) => candidate.head === column.instead);
    if (seen.has(column.field) || (other && seen.has(other.field))) continue;
    if (other && columns.indexOf(other) < columns.indexOf(column)) continue;
    const allowed = nameList([...headsOf(column), ...(other ? [headsOf(other)[0]!] : [])]);
    fault(header[0], headsOf(column)[0]!, {
      code: 'missing',
      reason: `this column is missing; allowed are ${allowed}`,
      allowed,
    });
  }
  return headings;
}

/**
 * Reads a table with one thing a row. `words` are its columns of text, the first of them the name; every other
 * column has its unit in its head.
 */
function readTable(file: string, text: string, words: readonly string[], columns: readonly Column[]) {
  const issues: Issue[] = [];
  const fault: Fault = (cell, path, problem) => {
    const { line = 1, column = 1 } = cell ?? {};
    const read = cell?.text ? { read: cell.text.slice(0, 60) } : {};
    issues.push(issueAt({ file, line, column, path, ...(problem.code === 'missing' ? {} : read) }, problem));
  };
  if (text.length > LARGEST_TABLE) {
    const reason = `a catalogue may have ${LARGEST_TABLE} letters at most, this one has ${text.length}`;
    fault(undefined, '', { code: 'file', reason });
    return { rows: [], issues };
  }
  const table = readCsv(text);
  for (const { line, column, problem } of table.faults)
    issues.push(issueAt({ file, line, column, path: '' }, problem));
  const [header, ...body] = table.rows;
  if (header === undefined) {
    fault(undefined, '', {
      code: 'file',
      reason: 'this catalogue is empty',
      hint: `Its first line names the columns: ${words.join(',')},${columns.map((column) => headsOf(column)[0]).join(',')}`,
    });
    return { rows: [], issues };
  }
  const headings = readHeader(header, words, columns, fault);
  const lines = new Map<string, number>();
  const rows = body.flatMap((cells) => {
    if (cells.length !== header.length) {
      const reason = `this line has ${cells.length} cells, the first line names ${header.length} columns`;
      issues.push(issueAt({ file, line: cells[0]!.line, column: 1, path: '' }, { code: 'syntax', reason }));
      return [];
    }
    const before = issues.length;
    const values: Record<string, number> = {};
    const texts: Record<string, string> = {};
    cells.forEach((cell, index) => {
      const { column, unit } = headings[index]!;
      const path = header[index]!.text;
      if (cell.text === '') return fault(cell, path, { code: 'missing', reason: 'nothing is written here' });
      if (column === undefined) {
        texts[path] = cell.text;
        return;
      }
      const read = readQuantity(`${cell.text} ${unit}`, column.spec);
      if (read.ok) values[column.field] = read.value;
      else fault(cell, path, read.problem);
    });
    const name = texts[words[0]!];
    const first = name === undefined ? undefined : lines.get(name);
    const nameCell = cells[header.findIndex((cell) => cell.text === words[0])];
    if (first !== undefined) {
      fault(nameCell, words[0]!, {
        code: 'duplicate-name',
        reason: `this name is already taken on line ${first}`,
      });
    } else if (name !== undefined) lines.set(name, cells[0]!.line);
    const place = (path: string) =>
      cells[
        header.findIndex(
          (_, index) => headings[index]?.column?.field === path || header[index]?.text === path,
        )
      ];
    return issues.length === before ? [{ name: name ?? '', line: cells[0]!.line, values, texts, place }] : [];
  });
  return { rows, issues, fault };
}

/** Tubs by name. `file` is what issues call it. */
export function readTubs(file: string, text: string): Catalogue<CatalogueRow> {
  const { rows, issues } = readTable(file, text, ['tub'], TUB_COLUMNS);
  return {
    file,
    rows: rows.map(({ name, line, values }) => ({ name, line, values })),
    faulty: issues.length > 0,
    issues,
  };
}

/** Tyres by name. A rollout is turned into the free diameter. */
export function readTyres(file: string, text: string): Catalogue<CatalogueTyre> {
  const { rows, issues, fault } = readTable(file, text, ['tyre', 'construction'], TYRE_COLUMNS);
  const tyres = rows.flatMap(({ name, line, values, texts, place }): CatalogueTyre[] => {
    const construction = texts.construction;
    if (construction !== 'bias' && construction !== 'radial') {
      const hint = didYouMean(construction ?? '', ['bias', 'radial']);
      const reason = 'allowed are bias or radial';
      fault?.(place('construction'), 'construction', {
        code: 'unknown-name',
        reason,
        allowed: 'bias or radial',
        ...(hint === undefined ? {} : { hint }),
      });
      return [];
    }
    if (values.treadWidth! > values.sectionWidth!) {
      const reason = 'the tread cannot be wider than the section';
      fault?.(place('treadWidth'), 'tread_width', { code: 'contradiction', reason });
      return [];
    }
    const freeDiameter = values.freeDiameter ?? values.rollout! / Math.PI;
    return [{ name, line, construction, values: { ...values, freeDiameter } }];
  });
  return { file, rows: tyres, faulty: issues.length > 0, issues };
}
