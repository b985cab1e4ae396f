import { createHash } from 'node:crypto';
import {
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmdirSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { deserialize, serialize } from 'node:v8';
import type { Case } from '@tubgap/casefile';
import { ResultsError } from '@tubgap/results';
import type { Task, TaskResult } from '@tubgap/simulation';

/**
 * Finished tasks of a run, kept beside the results until these are written: a run that was cut goes on from here.
 * A part belongs to the case, its numbers and this program's version. Each run has a folder of its own, so that the parts
 * of one that was cut stay while another one runs.
 */
export interface Checkpoint {
  read: (task: Task) => TaskResult | undefined;
  keep: (task: Task, result: TaskResult) => void;
  /** Parts found when the checkpoint was opened and used since. */
  used: () => number;
  /** Places of parts that other runs of the case have left. */
  others: readonly string[];
  clear: () => void;
}

/** Digits of a run's key that name its folder. */
const KEY_DIGITS = 16;

/** Before each part stands its digest. */
const DIGEST_BYTES = 32;
const digestOf = (bytes: Uint8Array): Buffer => createHash('sha256').update(bytes).digest();

/** Everything that a task's result depends on. */
export function runKey(source: Case, madeBy: string): string {
  return createHash('sha256')
    .update(JSON.stringify({ ...source, file: '', warnings: [] }))
    .update(madeBy)
    .digest('hex');
}

/** A task's own name: its kind and numbers, and a digest of what it was given. */
function partName(task: Task): string {
  const digest = createHash('sha256').update(serialize(task)).digest('hex').slice(0, 16);
  return `${task.kind.replaceAll(' ', '-')}-${digest}`;
}

const unkept = (place: string, error: unknown): ResultsError =>
  new ResultsError(
    `${place}: finished parts could not be kept (${(error as Error).message}). No results were changed. ` +
      'Free some space or choose another folder, and run again: it goes on from the parts that are there.',
  );

/** Opens the checkpoint of a run in the folder that holds the results folders. */
export function openCheckpoint(parent: string, name: string, key: string): Checkpoint {
  const all = join(parent, `.${name}.parts`);
  const own = key.slice(0, KEY_DIGITS);
  const place = join(all, own);
  const others = existsSync(all) ? readdirSync(all).filter((folder) => folder !== own) : [];
  try {
    mkdirSync(place, { recursive: true });
  } catch (error) {
    throw unkept(all, error);
  }
  let used = 0;
  return {
    read: (task) => {
      const file = join(place, partName(task));
      if (!existsSync(file)) return undefined;
      try {
        const bytes = readFileSync(file);
        const kept = bytes.subarray(DIGEST_BYTES);
        // A part that a fault of the disk has changed is worked out again.
        if (!digestOf(kept).equals(bytes.subarray(0, DIGEST_BYTES))) return undefined;
        const result = deserialize(kept) as TaskResult;
        if (result.kind !== task.kind) return undefined;
        used++;
        return result;
      } catch {
        return undefined;
      }
    },
    keep: (task, result) => {
      const file = join(place, partName(task));
      const bytes = serialize(result);
      // A part is whole or absent: it gets its name only when it is written.
      try {
        writeFileSync(`${file}.writing`, Buffer.concat([digestOf(bytes), bytes]));
        renameSync(`${file}.writing`, file);
      } catch (error) {
        rmSync(`${file}.writing`, { force: true });
        throw unkept(all, error);
      }
    },
    used: () => used,
    others: others.map((folder) => join(all, folder)),
    clear: () => {
      rmSync(place, { recursive: true, force: true });
      if (readdirSync(all).length === 0) rmdirSync(all);
    },
  };
}
