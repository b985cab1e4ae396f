import { existsSync, readdirSync, readFileSync, rmdirSync, rmSync } from 'node:fs';
import { basename, join } from 'node:path';
import {
  beginFolder,
  DiskRefused,
  openSealed,
  ResultsError,
  sealedText,
  writeFileWhole,
} from '@tubgap/results';
import { checkOrder, orderDifference, orderKey, type SweepOrder } from './order.ts';
import { foreignTo, readShard, type Shard } from './shard.ts';

/** The sweep that the shards of a folder belong to. */
const MANIFEST = 'manifest.json';
const SHARD_FILE = /^shard-.*\.json$/;
/** What this program writes there, half-written files among it. */
const OWN_FILE = /^(manifest\.json|\.?shard-.*\.json(\..*\.writing)?)$/;

/** A folder that holds a sweep's order and its finished shards. */
export interface ShardFolder {
  place: string;
  order: SweepOrder;
  key: string;
}

/** Name of a shard's file: 'shard-0003-of-0010.json'. */
export const shardName = (shard: number, of: number): string =>
  `shard-${String(shard).padStart(4, '0')}-of-${String(of).padStart(4, '0')}.json`;

const reasonOf = (error: unknown): string => (error as Error).message;

/** The order in a manifest's text; undefined when it is not as it was written. */
function unsealed(text: string): SweepOrder | undefined {
  try {
    const opened = openSealed(text);
    return 'fault' in opened ? undefined : checkOrder(opened.value);
  } catch {
    return undefined;
  }
}

function readManifest(place: string): SweepOrder {
  const file = join(place, MANIFEST);
  let text: string;
  try {
    text = readFileSync(file, 'utf8');
  } catch (error) {
    throw new ResultsError(
      `${file}: cannot be read (${reasonOf(error)}). Name a folder that tubgap sweep --shard has written.`,
    );
  }
  const order = unsealed(text);
  if (order !== undefined) return order;
  throw new ResultsError(
    `${file}: was cut off, changed, or written by another version of this program. Remove the folder and run its shards again.`,
  );
}

/**
 * Opens the folder of a sweep's shards, or begins it. Any number of processes may do so at once.
 * @throws ResultsError when it holds shards of another sweep, or the place can hold none
 */
export function openShardFolder(place: string, order: SweepOrder): ShardFolder {
  try {
    if (!existsSync(join(place, MANIFEST))) beginFolder(place, { [MANIFEST]: sealedText(order) });
  } catch (error) {
    throw new ResultsError(
      `${place}: cannot be written to (${reasonOf(error)}). Free some space or name another folder with --results, and run again.`,
    );
  }
  const there = readManifest(place);
  const differs = orderDifference(order, there);
  if (differs.length === 0) return { place, order: there, key: orderKey(there) };
  throw new ResultsError(
    `${place}: holds shards of another sweep: ${differs.join(', ')} ${differs.length === 1 ? 'is' : 'are'} not the same. ` +
      'Merge or remove that folder, or name another one with --results.',
  );
}

/** Opens a folder of shards that is there. @throws ResultsError */
export function findShardFolder(place: string): ShardFolder {
  const order = readManifest(place);
  return { place, order, key: orderKey(order) };
}

/** Keeps a finished shard, whole or not at all. @throws DiskRefused */
export function keepShard({ place }: ShardFolder, shard: Shard): string {
  const file = join(place, shardName(shard.shard, shard.of));
  try {
    writeFileWhole(file, `${JSON.stringify(shard)}\n`);
  } catch (error) {
    throw new DiskRefused(
      `${file}: could not be written (${reasonOf(error)}). Finished shards are kept. Free some space, and run the same command again: it goes on from there.`,
    );
  }
  return file;
}

/** A file of a folder that claims to be a shard, with the shard or what is wrong. */
export type ShardFile = { file: string } & ({ shard: Shard } | { wrong: string; foreign: boolean });

/** Reads one file of a folder as a shard of its sweep. */
export function readShardFile({ order, key }: ShardFolder, file: string): ShardFile {
  let text: string;
  try {
    text = readFileSync(file, 'utf8');
  } catch (error) {
    return { file, wrong: `cannot be read (${(error as NodeJS.ErrnoException).code})`, foreign: false };
  }
  const read = readShard(text);
  if ('wrong' in read) return { file, wrong: read.wrong, foreign: false };
  const foreign = foreignTo(order, key, read.shard);
  return foreign === undefined ? { file, shard: read.shard } : { file, wrong: foreign, foreign: true };
}

/** Names of all that claim to be shards in a folder, in order. */
export const shardFiles = (place: string): string[] =>
  readdirSync(place)
    .filter((name) => SHARD_FILE.test(name))
    .toSorted()
    .map((name) => join(place, name));

/** Numbers of the shards that a folder holds sound, each under its own name. */
export function readableShards(folder: ShardFolder): Set<number> {
  const sound = new Set<number>();
  for (const file of shardFiles(folder.place)) {
    const read = readShardFile(folder, file);
    if ('shard' in read && basename(file) === shardName(read.shard.shard, read.shard.of)) {
      sound.add(read.shard.shard);
    }
  }
  return sound;
}

/** Takes away a folder whose shards have become results; what somebody else has laid there stays with it. */
export function clearShardFolder({ place }: ShardFolder): void {
  const own = readdirSync(place).filter((name) => OWN_FILE.test(name));
  for (const name of own) rmSync(join(place, name), { force: true });
  if (readdirSync(place).length === 0) rmdirSync(place);
}
