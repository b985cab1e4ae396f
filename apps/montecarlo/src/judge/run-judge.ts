import type { Case } from '@tubgap/casefile';
import { BAD_INPUT, stop } from '@tubgap/casefile/command-line';
import {
  findMove,
  type JudgedTub,
  judgeTub,
  type Move,
  type Progress,
  performTubs,
  weightedBlocks,
} from '@tubgap/simulation';
import { subjectOf, verdictBlocks } from '@tubgap/wording';
import { openBench } from '../pool.ts';
import { progressBar } from '../progress.ts';
import { performBy } from '../tasks-by-bench.ts';
import { EXIT_CODES, openStanding, type StandingOptions } from './asked-case.ts';
import { printedVerdict } from './printed.ts';
import { SAY_WHICH, type StandingTub } from './standing-tub.ts';

/** Judges a tub of a case by worker threads. */
async function judgedBy(
  workers: number,
  { source, tub, topHeight }: StandingTub,
  tell: Progress,
): Promise<JudgedTub | undefined> {
  const bench = openBench(source, workers);
  try {
    return await judgeTub(source, { tub, topHeight }, performBy(bench), tell);
  } finally {
    await bench.close();
  }
}

/** The move that would bring a tub within what is accepted, or null. */
async function moveFor(
  workers: number,
  source: Case,
  { tub, verdict, draws, centres }: JudgedTub,
  tell: Progress,
): Promise<Move | null> {
  const { topHeight } = verdict;
  const bench = openBench(source, workers);
  try {
    const found = await findMove(
      source,
      tub,
      verdict,
      { draws, weightedBlocks: weightedBlocks(source), centres },
      performTubs(performBy(bench)),
      async (moved) => (await judgedBy(workers, { source: moved, tub, topHeight }, tell))!.verdict,
    );
    return found ?? null;
  } finally {
    await bench.close();
  }
}

/** Judges the tub that stands in the car and prints the verdict. @returns exit code @throws Stop, RangeError */
export async function runJudge(file: string, options: StandingOptions): Promise<number> {
  const { standing: asked, workers } = openStanding(file, options);
  const bar = progressBar();
  try {
    const found = await judgedBy(workers, asked, bar.tell);
    if (found === undefined) {
      stop(
        `${file}: no tub was named, or no height, and the accepted risks leave none to set out. ${SAY_WHICH}`,
        BAD_INPUT,
      );
    }
    const { centres: _, draws: __, stands: ___, ...judged } = found;
    const { standing } = judged.verdict;
    const move = standing === 'within' ? undefined : await moveFor(workers, asked.source, found, bar.tell);
    bar.stop();
    const { source } = asked;
    process.stdout.write(
      options.json
        ? `${JSON.stringify({ ...judged, ...(move === undefined ? {} : { move }) }, undefined, 2)}\n`
        : printedVerdict(source, verdictBlocks({ ...judged, move }, subjectOf(source))),
    );
    return EXIT_CODES[standing];
  } finally {
    bar.stop();
  }
}
