import { dirname, resolve } from 'node:path';
import type { Command } from '@commander-js/extra-typings';
import { ResultsError, type ResultsHold } from '@tubgap/results';
import { BAD_INPUT, stop, TOO_FEW } from '../options.ts';
import { isTooFew } from '../study/run-study-command.ts';
import { gatherShards, holdSweep, writeMerged } from './merge.ts';
import { findShardFolder } from './shard-folder.ts';

/** Adds the command that makes one sweep's results of its shards. */
export function addShardCommands(program: Command): void {
  program
    .command('merge')
    .description('put the shards of a sweep together, as if it had been run in one')
    .argument('<folders...>', 'folder of shards; several when the machines share no disk')
    .option('--results <folder>', 'folder that holds the results folders; beside the shards when left out')
    .action((places, options) => {
      let hold: ResultsHold | undefined;
      try {
        const folders = places.map(findShardFolder);
        const points = gatherShards(folders);
        const results = options.results ?? dirname(resolve(places[0]!));
        hold = holdSweep(results, folders[0]!.order.head.case.name);
        const found = writeMerged(folders[0]!, points, hold);
        process.stdout.write(`${hold.place}\n`);
        if (isTooFew(found)) process.exitCode = TOO_FEW;
      } catch (error) {
        hold?.free();
        if (error instanceof ResultsError) stop(error.message, BAD_INPUT);
        stop(
          `this program failed (${String(error).slice(0, 300)}). Nothing was merged; please report it.`,
          1,
        );
      }
      hold?.free();
    });
}
