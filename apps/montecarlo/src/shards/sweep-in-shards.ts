import { join } from 'node:path';
import { InvalidArgumentError } from '@commander-js/extra-typings';
import type { Setting } from '@tubgap/casefile';
import { type ResultsHold, refuseForeign } from '@tubgap/results';
import { openStudy } from '@tubgap/simulation';
import { MOST_STUDY_DRAWS, tooManyDraws } from '../draw-count.ts';
import { coresText, durationText } from '../duration.ts';
import { type ReadCase, readCase, stop, TOO_FEW } from '../options.ts';
import { defaultWorkers } from '../pool.ts';
import { progressBar } from '../progress.ts';
import { openStudyBench } from '../study/bench.ts';
import { sampleBase } from '../study/compare-setups.ts';
import { StudyFault } from '../study/fault.ts';
import { isTooFew, type StudyOptions, stopStudy } from '../study/run-study-command.ts';
import { blockTimes, studySeconds } from '../study/study-time.ts';
import { MOST_SHARD_POINTS, planSweep } from '../study/sweep.ts';
import { type Mode, sweepFileText } from '../study/sweep-file.ts';
import type { Vary } from '../study/vary.ts';
import { type Executor, localExecutor } from './executor.ts';
import { makeOrder } from './make-order.ts';
import { holdSweep, writeMerged } from './merge.ts';
import { MOST_SHARDS, pointTotal, type SweepOrder, sampleOf } from './order.ts';
import { runShards, ShardsFailed, ShardsStopped } from './run-shards.ts';
import { clearShardFolder, keepShard, openShardFolder, soundShards } from './shard-folder.ts';
import { openSweep, workShard } from './work-shard.ts';

/** One of the shards of a sweep. */
export interface ShardChoice {
  shard: number;
  of: number;
}

/** How a sweep is to be run in shards. */
interface ShardOptions extends StudyOptions {
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

/** Reads '3/10'. */
export function shardOption(words: string): ShardChoice {
  const [, i, n] = /^(\d{1,5})\/(\d{1,5})$/.exec(words.trim()) ?? [];
  const [shard, of] = [Number(i), Number(n)];
  if (shard >= 1 && shard <= of && of <= MOST_SHARDS) return { shard, of };
  throw new InvalidArgumentError(
    `read "${words}"; the number of the shard and of all shards are needed, from 1/10 to 10/10 for ten (at most ${MOST_SHARDS}).`,
  );
}

/** Runs a sweep in shards: one of them, or all by an executor. */
export async function sweepInShards(file: string, options: ShardOptions, ask: () => Asked): Promise<void> {
  const bar = progressBar();
  let hold: ResultsHold | undefined;
  try {
    const { shard, queue } = options;
    const workers = options.workers ?? defaultWorkers();
    const asked = ask();
    const read = readCase(file, asked.set);
    const { name } = read.source;
    const shardsPlace = join(options.results, `${name}-sweep-shards`);
    const tell = (done: number): void => bar.tell('simulating', done);
    if (shard !== undefined) {
      refuseForeign(join(options.results, `${name}-sweep`), 'sweep');
      const order = await orderOf(read, options, asked, tell);
      const folder = openShardFolder(shardsPlace, order);
      tellWork(order, 1);
      const sound = soundShards(folder).has(shard.shard);
      const bench: Parameters<typeof workShard>[2] = (setups, lowest) =>
        openStudyBench(setups, workers, sampleOf(order), lowest);
      const place = sound
        ? `Shard ${shard.shard} of ${shard.of} is done already.`
        : keepShard(folder, await workShard(openSweep(order), shard.shard, bench, tell));
      bar.stop();
      process.stdout.write(`${place}\n`);
      return;
    }
    hold = holdSweep(options.results, name);
    const order = await orderOf(read, options, asked, tell);
    const folder = openShardFolder(shardsPlace, order);
    tellWork(order, queue ? 1 : workers);
    const executor: Executor = queue
      ? await (await import('../queue/queue-executor.ts')).queueExecutor()
      : localExecutor(Math.min(workers, order.shards));
    const points = await runShards(folder, executor, tell);
    bar.stop();
    const found = writeMerged(folder, points, hold);
    clearShardFolder(folder);
    process.stdout.write(`${hold.place}\n`);
    if (isTooFew(found)) process.exitCode = TOO_FEW;
  } catch (error) {
    bar.stop();
    hold?.free();
    if (error instanceof ShardsStopped) stop(error.message, error.code);
    if (error instanceof ShardsFailed)
      stop(error.message, error.failures.every(({ input }) => input) ? 2 : 1);
    stopStudy(file, error);
  }
  hold?.free();
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
  const base = await sampleBase(source, effort);
  return makeOrder(plan, base, source, shards, text, named, sweepFileText(mode, varies));
}

/** Says how much there is to do, before it is begun. */
function tellWork(order: SweepOrder, workers: number): void {
  const { base } = openSweep(order);
  const points = pointTotal(order);
  const sample = sampleOf(order);
  const times = blockTimes(openStudy([base], order.lowest), sample.centres);
  const each = studySeconds(times, sample, points / order.shards + 1);
  // What every shard stands beside is worked out once by each thread.
  const seconds = (order.shards * each) / workers + studySeconds(times, sample, 1);
  if (seconds < 3) return;
  process.stderr.write(
    `${points} points in ${order.shards} shards, about ${durationText(each)} a shard; all of them about ${durationText(seconds)} on ${coresText(workers)}.\n`,
  );
}
