import { join } from 'node:path';
import type { Case, Setting } from '@tubgap/casefile';
import { BAD_INPUT, DONE, printRemarks, RESULTS_FOLDER, stop } from '@tubgap/casefile/command-line';
import { onStop, stopCode } from '@tubgap/results';
import { NO_CENTRES, performHere, pickSample, type Sample } from '@tubgap/simulation';
import { wholeText } from '@tubgap/units';
import { COLUMNS_FILE, columnsText } from '@tubgap/wording';
import { Piscina } from 'piscina';
import { caseCopy } from '../case-copy.ts';
import { MOST_DRAWS, tooManyDraws } from '../draw-count.ts';
import { MADE_BY, readCase } from '../options.ts';
import { defaultWorkers } from '../pool.ts';
import { progressBar } from '../progress.ts';
import { DRAWS, keyOf } from '../shards/kinds.ts';
import { workThrough } from '../shards/run-shards.ts';
import type { ShardChoice } from '../shards/shard-choice.ts';
import { failStudy } from '../study/run-study-command.ts';
import { askedGaps, type GapOptions } from './asked-gaps.ts';
import { ABOUT_FILE, hasPart, keepPart, openDrawsFolder } from './draws-folder.ts';
import { bytesOf, type DrawsPart, drawsOrder } from './draws-order.ts';
import { type DrawsPlan, type Format, partFile, partTotal, planColumns } from './draws-plan.ts';

/** What the verb may be given. */
export interface DrawsOptions extends GapOptions {
  to?: string | undefined;
  draws?: number | undefined;
  seed?: number | undefined;
  set?: Setting[] | undefined;
  weighted?: true | undefined;
  format?: Format | undefined;
  shard?: ShardChoice | undefined;
  queue?: true | undefined;
  workers?: number | undefined;
}

/** The sample that is written: plain as the case has it, or weighted about the centres of its pick. */
async function sampleFor(source: Case, isWeighted: boolean): Promise<Sample> {
  const { draws, seed } = source.simulation;
  if (!isWeighted) return { seed, draws, centres: NO_CENTRES };
  // The centres do not depend on how many draws are asked for.
  const few = { ...source, simulation: { ...source.simulation, draws: 1024 } };
  const { centres } = await pickSample(few, performHere(few), true);
  return { seed, draws, centres };
}

/** Parts of a machine's share: every one, or those of its shard. */
function ownParts(plan: DrawsPlan, shard: ShardChoice | undefined): number[] {
  const all = Array.from({ length: partTotal(plan) }, (_, i) => i + 1);
  return shard === undefined ? all : all.filter((part) => (part - 1) % shard.of === shard.shard - 1);
}

/** Makes parts in threads of this machine, each kept by the thread that made it. */
async function makeHere(
  place: string,
  plan: DrawsPlan,
  open: readonly number[],
  workers: number,
  tell: (done: number) => void,
): Promise<void> {
  const threads = Math.min(workers, Math.max(1, open.length));
  const pool = new Piscina({
    filename: new URL('./draws-worker.js', import.meta.url).href,
    minThreads: threads,
    maxThreads: threads,
    workerData: { plan, place },
  });
  const release = onStop((signal) => {
    printRemarks([`Stopped: finished files are kept in ${place}. The same command goes on from there.`]);
    process.exit(stopCode(signal));
  });
  try {
    let done = 0;
    await Promise.all(
      open.map(async (part) => {
        await pool.run(part);
        tell(++done / open.length);
      }),
    );
  } finally {
    release();
    await pool.destroy();
  }
}

/**
 * Writes the draws of a case with what the model says of each, a row a run and tyre, into a folder of files.
 * @returns exit code
 * @throws Stop, ResultsError, DiskRefused, RangeError, ShardsFailed, ShardsStopped
 */
export async function runDraws(file: string, options: DrawsOptions): Promise<number> {
  const { source, text, named } = readCase(file, options.set ?? []);
  const { simulation } = source;
  if (options.draws !== undefined) simulation.draws = options.draws;
  if (options.seed !== undefined) simulation.seed = options.seed;
  const workers = options.workers ?? defaultWorkers();
  const tooMany = tooManyDraws(source, simulation.draws, MOST_DRAWS, workers);
  if (tooMany !== undefined) stop(`${tooMany}\nNothing was run.`, BAD_INPUT);
  const plan: DrawsPlan = {
    source,
    sample: await sampleFor(source, options.weighted === true),
    drawnBy: options.weighted ? 'weighted' : 'plain',
    asked: askedGaps(source, options),
    format: options.format ?? 'csv',
    madeBy: MADE_BY,
  };
  const place = options.to ?? join(RESULTS_FOLDER, `${source.name}-draws`);
  const described = { [`draws-*.${plan.format}`]: planColumns(plan) };
  openDrawsFolder(place, plan, {
    ...caseCopy(text, named),
    [COLUMNS_FILE]: await columnsText(described),
  });
  const parts = ownParts(plan, options.shard);
  const open = parts.filter((part) => !hasPart(place, plan, part));
  if (open.length < parts.length) {
    printRemarks([`${parts.length - open.length} of ${parts.length} files are there already and are kept.`]);
  }
  const bar = progressBar();
  const tell = (done: number): void => bar.tell('simulating', done);
  try {
    if (options.queue) {
      const order = drawsOrder(plan, partTotal(plan), { text, named, set: options.set ?? [] });
      const executor = await (await import('../queue/queue-executor.ts')).queueExecutor(DRAWS);
      const keep = (part: DrawsPart): void => keepPart(place, plan, part.shard, bytesOf(part));
      const nameOf = (part: number): string => partFile(plan, part);
      await workThrough(executor, { order, key: keyOf(order), wanted: open, keep, nameOf }, tell);
    } else await makeHere(place, plan, open, workers, tell);
  } catch (error) {
    bar.stop();
    return failStudy(error);
  } finally {
    bar.stop();
  }
  const rows = wholeText(simulation.draws * source.tyres.length);
  process.stdout.write(
    `${parts.length} of ${partTotal(plan)} files, ${rows} rows in all of ${planColumns(plan).length} columns: ${place}\n` +
      `${ABOUT_FILE} there says what each column means, and what stands at one value.\n`,
  );
  return DONE;
}
