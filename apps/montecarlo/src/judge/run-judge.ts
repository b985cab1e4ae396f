import type { Case, Setting } from '@tubgap/casefile';
import { BAD_INPUT, DONE, NOT_WITHIN, printRemarks, stop, TOO_FEW } from '@tubgap/casefile/command-line';
import {
  findMove,
  type JudgedTub,
  judgeTub,
  type Move,
  type Progress,
  type Standing,
  TAIL_BLOCKS,
} from '@tubgap/simulation';
import { row, verdictLines, wrapped } from '@tubgap/wording';
import { MOST_DRAWS, pickTime, tooManyDraws } from '../draw-count.ts';
import { readCase } from '../options.ts';
import { defaultWorkers, openBench } from '../pool.ts';
import { progressBar } from '../progress.ts';
import { openStudyBench } from '../study/bench.ts';
import { performBy } from '../tasks-by-bench.ts';
import { SAY_WHICH, type StandingTub, standingTub, type TubWords } from './standing-tub.ts';

const EXIT_CODES: Readonly<Record<Standing, number>> = {
  within: DONE,
  'not within': NOT_WITHIN,
  'not known': TOO_FEW,
};

const CAUTION =
  'Tyre contact at speed can kill. These figures come from a model with assumed inputs. The sanctioning body’s rules, the ' +
  'tyre maker’s limits and a qualified chassis builder come first. Check the gaps on the car, look for marks after the ' +
  'first runs, and stop when you find one.';

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
  const found = await findMove(
    source,
    tub,
    verdict,
    { draws, weightedBlocks: TAIL_BLOCKS, centres },
    (placed) =>
      openStudyBench([{ label: source.name, source: placed }], workers, {
        draws,
        weightedBlocks: TAIL_BLOCKS,
      }),
    async (moved) => (await judgedBy(workers, { source: moved, tub, topHeight }, tell))!.verdict,
  );
  return found ?? null;
}

/** What the verb may be given. */
interface JudgeOptions extends TubWords {
  draws?: number | undefined;
  cars?: number | undefined;
  seed?: number | undefined;
  set?: Setting[] | undefined;
  workers?: number | undefined;
  json?: true | undefined;
}

/** Judges the tub that stands in the car and prints the verdict. @returns exit code @throws Stop, RangeError */
export async function runJudge(file: string, options: JudgeOptions): Promise<number> {
  const { source } = readCase(file, options.set ?? []);
  const { simulation } = source;
  if (options.draws !== undefined) simulation.draws = options.draws;
  if (options.cars !== undefined) simulation.cars = options.cars;
  if (options.seed !== undefined) simulation.seed = options.seed;
  const asked = standingTub(source, options);
  if (!asked.ok) stop([...asked.lines, 'Nothing was run.'].join('\n'), BAD_INPUT);
  const workers = options.workers ?? defaultWorkers();
  const tooMany = tooManyDraws(source, simulation.draws, MOST_DRAWS, workers);
  if (tooMany !== undefined) stop(`${tooMany}\nNothing was run.`, BAD_INPUT);
  const time = pickTime(source, workers);
  if (time !== undefined) printRemarks([time]);
  const bar = progressBar();
  try {
    const found = await judgedBy(workers, asked.standing, bar.tell);
    if (found === undefined) {
      stop(
        `${file}: no tub was named, or no height, and the accepted risks leave none to set out. ${SAY_WHICH}`,
        BAD_INPUT,
      );
    }
    const { centres: _, draws: __, ...judged } = found;
    const { standing } = judged.verdict;
    const move =
      standing === 'within' ? undefined : await moveFor(workers, asked.standing.source, found, bar.tell);
    bar.stop();
    process.stdout.write(
      options.json
        ? `${JSON.stringify({ ...judged, ...(move === undefined ? {} : { move }) }, undefined, 2)}\n`
        : textOf(source, { ...judged, move }),
    );
    return EXIT_CODES[standing];
  } finally {
    bar.stop();
  }
}

/** The verdict as it is printed. */
function textOf(
  source: Case,
  judged: Omit<JudgedTub, 'centres' | 'draws'> & { move: Move | null | undefined },
): string {
  const runsPerSeason = source.tyres.reduce((sum, tyre) => sum + tyre.runsPerSeason, 0);
  const lines = verdictLines(judged, { reserve: source.build.reserve, runsPerSeason });
  return [
    '',
    `${source.title}${source.invented ? '  [an invented car]' : ''}`,
    '',
    ...lines.map(({ label, text }) => row(label, text)),
    '',
    `  ${wrapped(CAUTION, '  ')}`,
    '',
    '',
  ].join('\n');
}
