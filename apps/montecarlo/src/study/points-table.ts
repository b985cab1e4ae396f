import { readFileSync } from 'node:fs';
import type { Case } from '@tubgap/casefile';
import { caseSetup, type RowInput, rowInputs } from '@tubgap/simulation';
import { readNumber } from '@tubgap/units';
import { parseString } from 'fast-csv';
import { type InputHead, meaningsOf } from '../rows/points-heads.ts';
import { AS_IN_CASE } from './change.ts';
import { StudyFault } from './fault.ts';
import type { Vary } from './vary.ts';

/** Columns of words: another tyre of the catalogue in an entry, and the tyre that the car is built on. */
const NAMED = /^(tyres\[[^\]]+\]\.tyre|build\.tyre)$/;
/** A column that means a place of a case: where it is none that can be read here, it is a slip and no remark of somebody's. */
const PLACE = /^(car|aero|suspension|build|run|weather|tyres)[.[]/;
/** Faults of rows that are told. */
const MOST_FAULTS = 20;

/** A table of points read. */
export interface PointsTable {
  varies: Vary[];
  /** Columns that mean nothing here. */
  unread: string[];
}

/** Every input of a case by each of its names: of every tyre at once as a table of runs has it, by number and by name. */
function headInputs(source: Case): InputHead[] {
  const all: readonly RowInput[] = rowInputs(caseSetup(source));
  const named = all.filter(({ path }) => path.startsWith('tyres[]'));
  return [
    ...all,
    ...named.flatMap(({ path, label, kind }) =>
      source.tyres.flatMap(({ name }, i) =>
        [`tyres[${i}]`, `tyres[${name}]`].map((entry) => ({
          path: path.replace('tyres[]', entry),
          label: `${label}, ${name}`,
          kind,
        })),
      ),
    ),
  ];
}

async function rowsOf(file: string): Promise<string[][]> {
  let text: string;
  try {
    text = readFileSync(file, 'utf8');
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    throw new StudyFault([`${file}: cannot be read (${code}). Give the path of a table of points (CSV).`]);
  }
  return new Promise((resolve, reject) => {
    const rows: string[][] = [];
    parseString(text.replace(/^\uFEFF/, ''), { headers: false, ignoreEmpty: true, comment: '#' })
      .on('data', (row: string[]) => rows.push(row.map((cell) => cell.trim())))
      .on('error', (error) =>
        reject(new StudyFault([`${file}: cannot be read: ${error.message.slice(0, 200)}.`])),
      )
      .on('end', () => resolve(rows));
  });
}

/**
 * Reads a table whose rows are setups: a column an input by its path with its unit behind it, as a table of runs has it. An
 * empty cell is the case's own value.
 * @throws StudyFault with every row that is wrong; Stop where the first line is
 */
export async function readPointsTable(file: string, source: Case): Promise<PointsTable> {
  const [header, ...rows] = await rowsOf(file);
  if (header === undefined || rows.length === 0) {
    throw new StudyFault([
      `${file}: holds no rows; its first line names the columns, each further one is a setup.`,
    ]);
  }
  const inputs = headInputs(source);
  // Names of tyres are words, and no inputs of a run.
  const words = new Set(header.filter((head) => NAMED.test(head)));
  const meanings = meaningsOf(file, header, inputs, words);
  if (meanings.some(({ is }) => is === 'tyre')) {
    throw new StudyFault([
      `${file}:1: a row is a setup of the whole car, and has no column "tyre"; name a tyre's own inputs, such as tyres[${source.tyres[0]!.name}].coldPressure_psi.`,
    ]);
  }
  const slip = header.find(
    (head, c) => meanings[c]!.is === 'carried' && !words.has(head) && PLACE.test(head),
  );
  if (slip !== undefined) {
    throw new StudyFault([
      `${file}:1: read "${slip}"; no input of a run has this name. Its places and units are the columns of tubgap draws; a field that is none can be varied by --vary.`,
    ]);
  }
  const faults: string[] = [];
  const cellText = (cell: string, column: number, row: number): string => {
    if (cell === '') return AS_IN_CASE;
    const meaning = meanings[column]!;
    if (meaning.is === 'carried') return cell;
    const unit = meaning.is === 'tyre' ? '' : meaning.unit.name;
    if (readNumber(cell) === undefined) {
      faults.push(
        `${file}: row ${row + 1}, ${header[column]}: read "${cell.slice(0, 40)}"; a number is needed, its unit stands in the name of the column.`,
      );
    }
    return `${cell.replace(/^\+/, '')} ${unit}`.trim();
  };
  rows.forEach((cells, row) => {
    if (cells.length !== header.length) {
      faults.push(
        `${file}: row ${row + 1}: it has ${cells.length} cells, the first line names ${header.length} columns.`,
      );
    }
  });
  const varies = header.flatMap((head, column): Vary[] => {
    const meaning = meanings[column]!;
    if (meaning.is === 'carried' && !words.has(head)) return [];
    const path =
      meaning.is === 'input'
        ? inputs[meaning.input]!.path.replace('tyres[]', 'tyres[*]')
        : meaning.is === 'axle'
          ? 'build.axleHeight'
          : head;
    const texts = rows.map((cells, row) => cellText(cells[column] ?? '', column, row));
    return [{ path, texts, place: `${file}, column ${head}:` }];
  });
  if (faults.length > 0) {
    const more = faults.length - MOST_FAULTS;
    throw new StudyFault([...faults.slice(0, MOST_FAULTS), ...(more > 0 ? [`and ${more} more.`] : [])]);
  }
  return {
    varies,
    unread: header.filter((head, c) => meanings[c]!.is === 'carried' && !words.has(head)),
  };
}
