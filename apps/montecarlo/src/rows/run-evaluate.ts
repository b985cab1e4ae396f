import { once } from 'node:events';
import { createWriteStream, renameSync, rmSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import type { Setting } from '@tubgap/casefile';
import { BAD_INPUT, DONE, printRemarks } from '@tubgap/casefile/command-line';
import { DiskRefused } from '@tubgap/results';
import { caseSetup, openGiven, rowInputs } from '@tubgap/simulation';
import { wholeText } from '@tubgap/units';
import { readCase } from '../options.ts';
import { askedGaps, type GapOptions } from './asked-gaps.ts';
import { answerCells, type Cells, csvHead, csvLines } from './cells.ts';
import { AXLE_COLUMN, answerColumns, POINT_COLUMN } from './columns.ts';
import { type PointFault, readPoints } from './points-file.ts';

/** What the verb may be given. */
export interface EvaluateOptions extends GapOptions {
  points: string;
  to?: string | undefined;
  set?: Setting[] | undefined;
}

/** Faults that are told one by one. */
const MOST_TOLD = 20;

/** Where the answer goes: standard output, or a file that gets its name when it is whole. */
function openAnswer(to: string | undefined) {
  if (to === undefined) {
    return {
      write: async (text: string) => {
        if (!process.stdout.write(text)) await once(process.stdout, 'drain');
      },
      end: async () => {},
      drop: () => {},
    };
  }
  const writing = join(dirname(to), `.${basename(to)}.${process.pid}.writing`);
  const stream = createWriteStream(writing);
  const failed = new Promise<never>((_, reject) => {
    stream.on('error', (error) =>
      reject(new DiskRefused(`${to}: could not be written (${error.message}). Nothing of it is there.`)),
    );
  });
  failed.catch(() => undefined);
  return {
    write: async (text: string) => {
      if (!stream.write(text)) await Promise.race([once(stream, 'drain'), failed]);
    },
    end: async () => {
      await Promise.race([new Promise<void>((resolve) => stream.end(resolve)), failed]);
      renameSync(writing, to);
    },
    drop: () => rmSync(writing, { force: true }),
  };
}

/** A fault as it is told. */
const faultText = (file: string, { row, column, reason }: PointFault): string =>
  `${file}: row ${row}${column === '' ? '' : `, ${column}`}: ${reason}.`;

/**
 * Evaluates given points: a row of inputs is a run, and gets what the model says of it. Rows with a fault are named and left
 * out.
 * @returns exit code
 * @throws Stop, DiskRefused
 */
export async function runEvaluate(file: string, options: EvaluateOptions): Promise<number> {
  const { source } = readCase(file, options.set ?? []);
  const setup = caseSetup(source);
  const inputs = rowInputs(setup);
  const asked = askedGaps(source, options);
  const columns = answerColumns(source, asked);
  const own = [POINT_COLUMN.name, 'tyre', AXLE_COLUMN.name, ...columns.map(({ name }) => name)];
  const evaluate = openGiven(setup, inputs, asked);
  const answer = openAnswer(options.to);
  const faults: PointFault[] = [];
  let left = 0;
  let told = 0;
  const leave = (fault: PointFault): void => {
    left++;
    if (faults.length < MOST_TOLD) faults.push(fault);
  };
  let head = '';
  try {
    const blocks = readPoints(options.points, source, inputs, new Set(own), ({ carried }) => {
      head = csvHead([POINT_COLUMN.name, ...carried, ...own.slice(1)]);
    });
    for await (const { runs, rows, faults: found } of blocks) {
      for (const fault of found) leave(fault);
      if (head !== '') await answer.write(head);
      head = '';
      const lines: string[] = new Array(runs.length).fill('');
      for (const { places, axleHeights, answers, unknown } of evaluate(runs)) {
        const cells: Cells[] = [axleHeights, ...answerCells(answers)];
        const texts = csvLines(
          [
            places.map((place) => String(rows[place]!.row)),
            ...(rows[0]?.carried ?? []).map((_, c) => places.map((place) => rows[place]!.carried[c]!)),
            places.map((place) => source.tyres[runs[place]!.tyre]!.name),
            ...cells,
          ],
          places.length,
        );
        const isUnknown = new Set(unknown.map(({ place }) => place));
        places.forEach((place, n) => {
          if (!isUnknown.has(place)) lines[place] = texts[n]!;
        });
        for (const { place, why } of unknown) leave({ row: rows[place]!.row, column: '', reason: why });
      }
      told += lines.filter((line) => line !== '').length;
      await answer.write(lines.join(''));
    }
    await answer.end();
  } catch (error) {
    answer.drop();
    throw error;
  }
  printRemarks(faults.map((fault) => faultText(options.points, fault)));
  if (left > faults.length) printRemarks([`and ${wholeText(left - faults.length)} more rows.`]);
  if (left > 0) printRemarks([`${wholeText(left)} of ${wholeText(left + told)} rows were left out.`]);
  return told > 0 ? DONE : BAD_INPUT;
}
