import { dirname, resolve } from 'node:path';
import { codeOf } from '../study/run-study-command.ts';
import type { OnWritten } from '../written.ts';
import { gatherShards, holdSweep, mergedName, writeMerged } from './merge.ts';
import { findShardFolder } from './shard-folder.ts';

/**
 * Makes one sweep's results of its shards.
 * @param places  folders of shards
 * @returns exit code
 * @throws ResultsError
 */
export async function runMerge(
  places: readonly string[],
  options: { results?: string | undefined; name?: string | undefined },
  onWritten: OnWritten,
): Promise<number> {
  const folders = places.map(findShardFolder);
  const points = gatherShards(folders);
  const results = options.results ?? dirname(resolve(places[0]!));
  const hold = holdSweep(results, options.name ?? mergedName(folders[0]!));
  try {
    const found = writeMerged(folders[0]!, points, hold);
    return (await onWritten(hold)) || codeOf(found);
  } finally {
    hold.free();
  }
}
