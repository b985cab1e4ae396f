#!/usr/bin/env node
import { Command } from '@commander-js/extra-typings';
import { settingOption, wholeNumber } from '@tubgap/casefile/command-line';
import { outliveOutput } from '@tubgap/casefile/output';
import {
  holdResults,
  RESULT_FILE,
  ResultsError,
  type ResultsHold,
  ResultsRefused,
  resultText,
  SAMPLE_FILE,
  sampleText,
} from '@tubgap/results';
import { assessCase, caseSetup, type Perform } from '@tubgap/simulation';
import { caseCopy, repeatCommand } from './case-copy.ts';
import { openCheckpoint, runKey } from './checkpoint.ts';
import { MOST_DRAWS, pickTime, tooManyDraws } from './draw-count.ts';
import { folderGuide } from './folder-guide.ts';
import { addJudgeCommand } from './judge/command.ts';
import { BAD_INPUT, MADE_BY, readCase, stop, TOO_FEW, tell } from './options.ts';
import { defaultWorkers, openBench } from './pool.ts';
import { progressBar } from './progress.ts';
import { addQueueCommands } from './queue/commands.ts';
import { resultOf } from './result.ts';
import { addShardCommands } from './shards/merge-command.ts';
import { addStudyCommands } from './study/commands.ts';

outliveOutput();

const program = new Command()
  .exitOverride((error) => process.exit(error.exitCode === 0 ? 0 : BAD_INPUT))
  .name('tubgap-montecarlo')
  .description('Simulates cases and writes results folders.');

program
  .command('pick', { isDefault: true })
  .description('simulate the runs and seasons of a case and write its results folder')
  .argument('<case>', 'case file (YAML)')
  .option('--results <folder>', 'folder that holds the results folders', 'results')
  .option(
    '--draws <number>',
    'simulated runs, in place of the case’s',
    wholeNumber(1, Number.MAX_SAFE_INTEGER),
  )
  .option(
    '--cars <number>',
    'simulated cars for the season risk, in place of the case’s',
    wholeNumber(1, 1_000_000),
  )
  .option(
    '--seed <number>',
    'seed of the random numbers, in place of the case’s',
    wholeNumber(0, Number.MAX_SAFE_INTEGER),
  )
  .option(
    '--set <path=value>',
    'value in place of the file’s, such as "run.trapSpeed=~230 mph" (~ keeps the law and moves its middle); may be repeated',
    settingOption,
  )
  .option('--workers <number>', 'worker threads; the answer does not depend on them', wholeNumber(1, 256))
  .action(async (file, options) => {
    const { source, text, named } = readCase(file, options.set ?? []);
    const { simulation } = source;
    if (options.draws !== undefined) simulation.draws = options.draws;
    if (options.cars !== undefined) simulation.cars = options.cars;
    if (options.seed !== undefined) simulation.seed = options.seed;
    const workers = options.workers ?? defaultWorkers();
    const tooMany = tooManyDraws(source, simulation.draws, MOST_DRAWS, workers);
    if (tooMany !== undefined) stop(`${tooMany}\nNothing was run.`, BAD_INPUT);
    const time = pickTime(source, workers);
    if (time !== undefined) process.stderr.write(`${time}\n`);
    const bar = progressBar();
    let hold: ResultsHold | undefined;
    try {
      const asked = repeatCommand(options);
      hold = holdResults(options.results, source.name, {
        kind: 'pick',
        asked,
        stopped: 'Stopped: finished parts are kept. The same command goes on from there.',
      });
      tell(hold.remarks);
      const checkpoint = openCheckpoint(options.results, source.name, runKey(source, MADE_BY));
      for (const { place, count, otherBuild } of checkpoint.others) {
        if (otherBuild !== undefined && count > 0) {
          tell([
            `${count} finished parts of a run that was cut are of another build (${otherBuild}; this is ${MADE_BY}) and are not taken: everything is worked out anew.`,
          ]);
        }
        tell([
          `Finished parts of another run of this case stay for it; remove them when it is not to go on: ${place}`,
        ]);
      }
      const bench = openBench(source, workers);
      const perform: Perform = async (tasks, done) => {
        let finished = 0;
        return Promise.all(
          tasks.map(async (task) => {
            const kept = checkpoint.read(task);
            const result = kept ?? (await bench.work(task));
            if (kept === undefined) checkpoint.keep(task, result);
            finished++;
            done(finished / tasks.length);
            return result;
          }),
        );
      };
      const found = await assessCase(source, perform, bar.tell);
      await bench.close();
      bar.stop();
      if (checkpoint.used() > 0) {
        process.stderr.write(`Went on from ${checkpoint.used()} finished parts of a run that was cut.\n`);
      }
      const result = resultOf(source, options.set ?? [], caseSetup(source), found, MADE_BY);
      const files = {
        [RESULT_FILE]: resultText(result),
        [SAMPLE_FILE]: sampleText({ madeBy: MADE_BY, seed: result.seed, ...found.sample }),
        ...caseCopy(text, named),
        'READ-ME.txt': folderGuide(result, asked),
      };
      tell(hold.write(files, asked));
      checkpoint.clear();
      process.stdout.write(`${hold.place}\n`);
      if (result.picks.some((pick) => pick.verdict === 'not known')) process.exitCode = TOO_FEW;
    } catch (error) {
      bar.stop();
      if (error instanceof ResultsError) stop(error.message, error instanceof ResultsRefused ? BAD_INPUT : 1);
      if (error instanceof RangeError) stop(`${file}: ${error.message}`, BAD_INPUT);
      stop(
        `${file}: this program failed (${String(error).slice(0, 300)}). No results were changed; please report it.`,
        1,
      );
    } finally {
      hold?.free();
    }
  });

addJudgeCommand(program);
addStudyCommands(program);
addShardCommands(program);
addQueueCommands(program);

await program.parseAsync();
