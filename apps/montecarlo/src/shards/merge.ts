import { basename, resolve } from 'node:path';
import { printRemarks } from '@tubgap/casefile/command-line';
import {
  holdResults,
  ResultsError,
  type ResultsHold,
  STUDY_FILE,
  type StudyOf,
  studyText,
} from '@tubgap/results';
import { caseCopy } from '../case-copy.ts';
import { repeatStudy, studyGuide } from '../study/study-guide.ts';
import { SWEEP_FILE } from '../study/sweep-file.ts';
import type { SweepPoint } from './order.ts';
import { readShardFile, type ShardFolder, shardFiles } from './shard-folder.ts';

/** Files named in one sentence at most. */
const MOST_NAMED = 12;

const listed = (names: readonly string[]): string =>
  names.length <= MOST_NAMED
    ? names.join(', ')
    : `${names.slice(0, MOST_NAMED).join(', ')} and ${names.length - MOST_NAMED} more`;

/** Numbers in order with their runs drawn together: '3, 5-8'. */
export function rangesText(numbers: readonly number[]): string {
  const runs: [number, number][] = [];
  for (const number of numbers) {
    const last = runs.at(-1);
    if (last?.[1] === number - 1) last[1] = number;
    else runs.push([number, number]);
  }
  return listed(runs.map(([from, to]) => (from === to ? String(from) : `${from}-${to}`)));
}

/**
 * Puts the shards of folders together, in the order of the points.
 * @throws ResultsError that names each shard which is missing, doubled, damaged or another sweep's
 */
export function gatherShards(folders: readonly ShardFolder[]): SweepPoint[] {
  const [{ order, key }] = folders as [ShardFolder, ...ShardFolder[]];
  const stranger = folders.find((folder) => folder.key !== key);
  if (stranger !== undefined) {
    throw new ResultsError(
      `${stranger.place}: holds another sweep than ${folders[0]!.place}; merge folders of one sweep.`,
    );
  }
  const files: (string[] | undefined)[] = [];
  const found: (SweepPoint[] | undefined)[] = [];
  const faults: string[] = [];
  for (const folder of folders) {
    for (const file of shardFiles(folder.place)) {
      const read = readShardFile(folder, file);
      if ('wrong' in read) {
        faults.push(
          `${file}: ${read.wrong}. ${read.foreign ? 'Take it out.' : 'Remove it and run its shard again.'}`,
        );
        continue;
      }
      const { shard, points } = read.shard;
      files[shard] = [...(files[shard] ?? []), file];
      found[shard] ??= points;
    }
  }
  files.forEach((names, shard) => {
    if (names !== undefined && names.length > 1) {
      faults.push(`Shard ${shard} is there ${names.length} times: ${listed(names)}. Keep one of them.`);
    }
  });
  const numbers = Array.from({ length: order.shards }, (_, i) => i + 1);
  const missing = numbers.filter((shard) => found[shard] === undefined);
  if (missing.length > 0) {
    faults.push(
      `Missing of ${order.shards} shards: ${rangesText(missing)}. Run the sweep again with --shard ${missing[0]}/${order.shards}${missing.length > 1 ? ' and so on' : ''}.`,
    );
  }
  if (faults.length > 0) throw new ResultsError([...faults, 'Nothing was merged.'].join('\n'));
  return numbers.flatMap((shard) => found[shard]!);
}

/** What stands behind the name of a sweep's results in that of the folder of its shards. */
export const SHARDS_BEHIND = '-shards';

/** Name of the results of shards: that of their folder, where it still has the name that it was given. */
export function mergedName({ place, order }: ShardFolder): string {
  const folder = basename(resolve(place));
  return folder.endsWith(SHARDS_BEHIND)
    ? folder.slice(0, -SHARDS_BEHIND.length)
    : `${order.head.case.name}-sweep`;
}

/**
 * Takes the folder of a sweep's results, and tells what will be replaced there.
 * @throws ResultsRefused
 */
export function holdSweep(results: string, name: string): ResultsHold {
  const hold = holdResults(results, name, { kind: 'sweep' });
  printRemarks(hold.remarks);
  return hold;
}

/** Writes the results of a whole sweep: the same bytes as one run of it gives. */
export function writeMerged(
  { order }: ShardFolder,
  points: readonly SweepPoint[],
  hold: ResultsHold,
): StudyOf<'sweep'> {
  const { head, case: read, sweepFile } = order;
  const found: StudyOf<'sweep'> = { ...head, chosen: points[0]!.chosen, points: [...points] };
  const set = head.settings.flatMap(({ path, value }) => ['--set', `${path}=${value}`]);
  const asked = ['sweep', '--file', SWEEP_FILE, ...set];
  const files = {
    [STUDY_FILE]: studyText(found),
    ...caseCopy(read.text, read.named),
    'READ-ME.txt': studyGuide(found, asked),
    [SWEEP_FILE]: sweepFile,
  };
  printRemarks(hold.write(files, repeatStudy(found, asked)));
  return found;
}
