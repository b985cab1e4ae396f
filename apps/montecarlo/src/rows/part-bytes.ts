import { caseSetup, type DrawnRows, visitRows } from '@tubgap/simulation';
import { parquetWriteBuffer } from 'hyparquet-writer';
import { answerCells, type Cells, csvHead, csvLines } from './cells.ts';
import type { RowColumn } from './columns.ts';
import { drawnInputs } from './columns.ts';
import { type DrawsPlan, partBlocks, planColumns } from './draws-plan.ts';

/** Cells of every column of a block, a row a run and tyre, the tyres of a run one after another. */
function blockCells(
  { source, sample, drawnBy }: DrawsPlan,
  drawn: readonly number[],
  { block, count, weights, tyres }: DrawnRows,
): Cells[] {
  const perTyre = tyres.map(({ inputs, axleHeights, answers }, i): Cells[] => [
    new Array<string>(count).fill(drawnBy),
    new Float64Array(count).fill(sample.seed),
    new Float64Array(count).fill(block),
    Float64Array.from({ length: count }, (_, run) => run),
    new Array<string>(count).fill(source.tyres[i]!.name),
    weights,
    ...drawn.map((k) => inputs[k]!),
    axleHeights,
    ...answerCells(answers),
  ]);
  const rows = count * tyres.length;
  return perTyre[0]!.map((first, c): Cells => {
    const cell = (row: number) => perTyre[row % tyres.length]![c]![Math.floor(row / tyres.length)]!;
    return typeof first[0] === 'string'
      ? Array.from({ length: rows }, (_, row) => cell(row) as string)
      : Float64Array.from({ length: rows }, (_, row) => cell(row) as number);
  });
}

/** Blocks of a part, each with its cells. */
function visitCells(plan: DrawsPlan, part: number, take: (cells: Cells[], rows: number) => void): void {
  const setup = caseSetup(plan.source);
  const { drawn } = drawnInputs(setup);
  const range = { drawnBy: plan.drawnBy, ...partBlocks(plan, part) };
  visitRows(setup, plan.sample, range, plan.asked, (rows) => {
    take(blockCells(plan, drawn, rows), rows.count * rows.tyres.length);
  });
}

/** A part as CSV with its own head. */
function partCsv(plan: DrawsPlan, columns: readonly RowColumn[], part: number): Uint8Array {
  const texts = [csvHead(columns.map(({ name }) => name))];
  visitCells(plan, part, (cells, rows) => texts.push(csvLines(cells, rows).join('')));
  return Buffer.from(texts.join(''));
}

const joined = (pieces: readonly Cells[]): Float64Array => {
  const all = new Float64Array(pieces.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const piece of pieces) {
    all.set(piece as ArrayLike<number>, at);
    at += piece.length;
  }
  return all;
};

/** A part as Parquet, one row group. */
function partParquet(plan: DrawsPlan, columns: readonly RowColumn[], part: number): Uint8Array {
  const pieces: Cells[][] = columns.map(() => []);
  let total = 0;
  visitCells(plan, part, (cells, rows) => {
    total += rows;
    cells.forEach((cell, c) => {
      pieces[c]!.push(cell);
    });
  });
  const columnData = columns.map(({ name, kind }, c) => {
    if (kind === 'word') {
      return {
        name,
        data: pieces[c]!.flatMap((piece) => piece as string[]),
        type: 'STRING' as const,
        nullable: false,
      };
    }
    const numbers = joined(pieces[c]!);
    if (kind === 'count') {
      return { name, data: BigInt64Array.from(numbers, BigInt), type: 'INT64' as const, nullable: false };
    }
    // What is not told has no number.
    const data = numbers.some(Number.isNaN)
      ? Array.from(numbers, (value) => (Number.isNaN(value) ? null : value))
      : numbers;
    return { name, data, type: 'DOUBLE' as const };
  });
  return new Uint8Array(parquetWriteBuffer({ columnData, rowGroupSize: total, createdBy: plan.madeBy }));
}

/** A part of a plan's draws as the bytes of its file: the same wherever it is made. @throws ModelRangeError */
export const partBytes = (plan: DrawsPlan, part: number): Uint8Array =>
  (plan.format === 'csv' ? partCsv : partParquet)(plan, planColumns(plan), part);
