import { dirname, resolve } from 'node:path';
import type { Command } from '@commander-js/extra-typings';
import { ResultsError } from '@tubgap/results';
import { type Lock, lockResults } from '../lock.ts';
import { BAD_INPUT, stop, TOO_FEW } from '../options.ts';
import { isTooFew } from '../study/run-study-command.ts';
import { gatherShards, writeMerged } from './merge.ts';
import { findShardFolder } from './shard-folder.ts';

/** Adds the command that makes one sweep's results of its shards. */
export function addShardCommands(program: Command): void {
  program
    .command('merge')
    .description('put the shards of a sweep together, as if it had been run in one')
    .argument('<folders...>', 'folder of shards; several when the machines share no disk')
    .option('--results <folder>', 'folder that holds the results folders; beside the shards when left out')
    .action((places, options) => {
      let lock: Lock | undefined;
      try {
        const folders = places.map(findShardFolder);
        const points = gatherShards(folders);
        const results = options.results ?? dirname(resolve(places[0]!));
        lock = lockResults(results, `${folders[0]!.order.head.case.name}-sweep`);
        const { place, found } = writeMerged(folders[0]!, points, results);
        process.stdout.write(`${place}\n`);
        if (isTooFew(found)) process.exitCode = TOO_FEW;
      } catch (error) {
        lock?.free();
        if (error instanceof ResultsError) stop(error.message, BAD_INPUT);
        stop(
          `this program failed (${String(error).slice(0, 300)}). Nothing was merged; please report it.`,
          1,
        );
      }
      lock?.free();
    });
}
