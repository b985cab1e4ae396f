import { join } from 'node:path';
import type { Setting } from '@tubgap/casefile';
import { DONE, RESULTS_FOLDER } from '@tubgap/casefile/command-line';
import { type ResultsHold, refuseForeign } from '@tubgap/results';
import { openStudy } from '@tubgap/simulation';
import { MOST_STUDY_DRAWS, tooManyDraws } from '../draw-count.ts';
import { coresText, durationText } from '../duration.ts';
import { type ReadCase, readCase } from '../options.ts';
import { defaultWorkers } from '../pool.ts';
import { progressBar } from '../progress.ts';
import { openStudyBench } from '../study/bench.ts';
import { sampleBase } from '../study/compare-setups.ts';
import { StudyFault } from '../study/fault.ts';
import type { Mode } from '../study/mode.ts';
import { codeOf, failStudy, resultsName, type StudyOptions } from '../study/run-study-command.ts';
import { blocksBeside, blockTimes, studySeconds } from '../study/study-time.ts';
import { MOST_SHARD_POINTS, planSweep } from '../study/sweep.ts';
import { sweepFileText } from '../study/sweep-file.ts';
import type { Vary } from '../study/vary.ts';
import type { OnWritten } from '../written.ts';
import { type Executor, localExecutor } from './executor.ts';
import { SWEEPS } from './kinds.ts';
import { makeOrder } from './make-order.ts';
import { holdSweep, SHARDS_BEHIND, writeMerged } from './merge.ts';
import { pointTotal, type SweepOrder, sampleOf } from './order.ts';
import { runShards } from './run-shards.ts';
import type { ShardChoice } from './shard-choice.ts';
import { clearShardFolder, keepShard, openShardFolder, readableShards } from './shard-folder.ts';
import { openSweep, workShard } from './work-shard.ts';

/** How a sweep is to be run in shards. */
export interface ShardOptions extends StudyOptions {
  shard?: ShardChoice | undefined;
  shards?: number | undefined;
  queue?: true | undefined;
}

interface Asked {
  mode: Mode;
  varies: readonly Vary[];
  set: readonly Setting[];
}

/** Points of a shard when their number is not said: a queue then takes a small part of the time. */
const POINTS_A_SHARD = 8;

export const isInShards = ({ shard, shards, queue }: ShardOptions): boolean =>
  shard !== undefined || shards !== undefined || queue === true;

/**
 * Runs a sweep in shards: one of them, or all by an executor.
 * @returns exit code
 * @throws Stop, ResultsError, ShardsFailed, ShardsStopped, RangeError
 */
export async function sweepInShards(
  file: string,
  options: ShardOptions,
  set: readonly Setting[],
  ask: (read: ReadCase) => Promise<Asked>,
  onWritten: OnWritten,
): Promise<number> {
  const bar = progressBar();
  let hold: ResultsHold | undefined;
  try {
    const { shard, queue, results = RESULTS_FOLDER } = options;
    const workers = options.workers ?? defaultWorkers();
    const read = readCase(file, set);
    const asked = await ask(read);
    const name = resultsName(options, read.source.name, 'sweep');
    const shardsPlace = join(results, `${name}${SHARDS_BEHIND}`);
    const tellDone = (done: number): void => bar.tell('simulating', done);
    if (shard !== undefined) {
      refuseForeign(join(results, name), 'sweep');
      const order = await orderOf(read, options, asked, tellDone);
      const folder = openShardFolder(shardsPlace, order);
      tellWork(order, 1);
      const sound = readableShards(folder).has(shard.shard);
      const bench: Parameters<typeof workShard>[2] = (setups, lowest) =>
        openStudyBench(setups, workers, sampleOf(order), lowest);
      const place = sound
        ? `Shard ${shard.shard} of ${shard.of} is done already.`
        : keepShard(folder, await workShard(openSweep(order), shard.shard, bench, tellDone));
      bar.stop();
      process.stdout.write(`${place}\n`);
      return DONE;
    }
    hold = holdSweep(results, name);
    const order = await orderOf(read, options, asked, tellDone);
    const folder = openShardFolder(shardsPlace, order);
    tellWork(order, queue ? 1 : workers);
    const executor: Executor = queue
      ? await (await import('../queue/queue-executor.ts')).queueExecutor(SWEEPS)
      : localExecutor(Math.min(workers, order.shards));
    const points = await runShards(folder, executor, tellDone);
    bar.stop();
    const found = writeMerged(folder, points, hold);
    clearShardFolder(folder);
    return (await onWritten(hold)) || codeOf(found);
  } catch (error) {
    bar.stop();
    return failStudy(error);
  } finally {
    hold?.free();
  }
}

/** The order that a command line comes to. @throws StudyFault, RangeError */
async function orderOf(
  read: ReadCase,
  options: ShardOptions,
  { mode, varies, set }: Asked,
  tell: (done: number) => void,
): Promise<SweepOrder> {
  const { source, text, named } = read;
  if (options.seed !== undefined) source.simulation.seed = options.seed;
  const workers = options.workers ?? defaultWorkers();
  const tooMany = tooManyDraws(source, options.draws ?? 0, MOST_STUDY_DRAWS, workers);
  if (tooMany !== undefined) throw new StudyFault([tooMany]);
  const effort = {
    draws: options.draws,
    workers,
    seasons: options.seasons === true,
    tell,
    expect: () => {},
  };
  const plan = planSweep({ read, set, varies, mode }, effort, MOST_SHARD_POINTS);
  const points = plan.ats.length + 1;
  const shards = options.shard?.of ?? options.shards ?? Math.ceil(points / POINTS_A_SHARD);
  if (shards > points) {
    throw new StudyFault([
      `${shards} shards for ${points} points, the case as it stands among them; ${points} are the most.`,
    ]);
  }
  const base = await sampleBase(plan.whole, effort);
  return makeOrder(plan, base, plan.whole, shards, text, named, sweepFileText(mode, varies));
}

/** Says how much there is to do, before it is begun. */
function tellWork(order: SweepOrder, workers: number): void {
  const { base } = openSweep(order);
  const points = pointTotal(order);
  const sample = sampleOf(order);
  const times = blockTimes(openStudy([base], order.lowest), sample.centres);
  const beside = blocksBeside(base.source, order.head.cars !== null);
  const each = studySeconds(times, sample, points / order.shards + 1, beside);
  // What every shard stands beside is worked out once by each thread.
  const seconds = (order.shards * each) / workers + studySeconds(times, sample, 1, beside);
  if (seconds < 3) return;
  process.stderr.write(
    `${points} points in ${order.shards} shards, about ${durationText(each)} a shard; all of them about ${durationText(seconds)} on ${coresText(workers)}.\n`,
  );
}
