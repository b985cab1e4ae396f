import type { Command } from '@commander-js/extra-typings';
import type { Case } from '@tubgap/casefile';
import { centreOption, settingOption, topHeightOption, wholeNumber } from '@tubgap/casefile/command-line';
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
import { BAD_INPUT, NOT_WITHIN, readCase, stop, TOO_FEW } from '../options.ts';
import { defaultWorkers, openBench } from '../pool.ts';
import { progressBar } from '../progress.ts';
import { openStudyBench } from '../study/bench.ts';
import { performBy } from '../tasks-by-bench.ts';
import { SAY_WHICH, type StandingTub, standingTub } from './standing-tub.ts';

const EXIT_CODES: Readonly<Record<Standing, number>> = {
  within: 0,
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

/** Adds the verb that judges a tub that stands in the car. */
export function addJudgeCommand(program: Command): void {
  program
    .command('judge')
    .description(
      'judge the tub that stands in the car: within what is accepted or not, and what would mend it',
    )
    .argument('<case>', 'case file (YAML)')
    .option('--tub <name>', 'tub that stands in the car; the pick’s when left out')
    .option(
      '--height <length>',
      'inside top of the tub above the track; as set out when left out',
      topHeightOption,
    )
    .option('--centre <length>', 'centre of its arc ahead of the axle', centreOption)
    .option('--measured <folder>', 'folder whose as-built.csv says what is left out')
    .option(
      '--draws <number>',
      'simulated runs, in place of the case’s',
      wholeNumber(1, Number.MAX_SAFE_INTEGER),
    )
    .option('--cars <number>', 'simulated cars, in place of the case’s', wholeNumber(1, 1_000_000))
    .option('--seed <number>', 'seed, in place of the case’s', wholeNumber(0, Number.MAX_SAFE_INTEGER))
    .option('--set <path=value>', 'value in place of the file’s; may be repeated', settingOption)
    .option('--workers <number>', 'worker threads; the answer does not depend on them', wholeNumber(1, 256))
    .option('--json', 'print the verdict as JSON, SI')
    .action(async (file, options) => {
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
      if (time !== undefined) process.stderr.write(`${time}\n`);
      const bar = progressBar();
      try {
        const found = await judgedBy(workers, asked.standing, bar.tell);
        if (found === undefined) {
          bar.stop();
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
        process.exitCode = EXIT_CODES[standing];
      } catch (error) {
        bar.stop();
        if (error instanceof RangeError) stop(`${file}: ${error.message}`, BAD_INPUT);
        stop(`${file}: this program failed (${String(error).slice(0, 300)}). Please report it.`, 1);
      }
    });
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
