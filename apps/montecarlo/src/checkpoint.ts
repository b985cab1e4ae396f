import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { deserialize, serialize } from 'node:v8';
import type { Case } from '@tubgap/casefile';
import { ResultsError } from '@tubgap/results';
import type { Task, TaskResult } from '@tubgap/simulation';

/**
 * Finished tasks of a run, kept beside the results until these are written: a run that was cut goes on from here.
 * A part belongs to the case, its numbers and this build of the program; parts of another run are thrown away.
 */
export interface Checkpoint {
  read: (task: Task) => TaskResult | undefined;
  keep: (task: Task, result: TaskResult) => void;
  /** Parts found when the checkpoint was opened and used since. */
  used: () => number;
  /** Parts that another build has left and that were thrown away: how many, and what made them. */
  foreign: { parts: number; madeBy: string } | undefined;
  clear: () => void;
}

const KEY_FILE = 'key';

/** Before each part stands its digest. */
const DIGEST_BYTES = 32;
const digestOf = (bytes: Uint8Array): Buffer => createHash('sha256').update(bytes).digest();

/** Everything that a task's result depends on: digest of the case, and what works it out. */
export interface RunKey {
  case: string;
  madeBy: string;
}

export const runKey = (source: Case, madeBy: string): RunKey => ({
  case: digestOf(Buffer.from(JSON.stringify({ ...source, file: '', warnings: [] }))).toString('hex'),
  madeBy,
});

/** The key that a folder of parts was begun with; undefined when it has none that can be read. */
function keyIn(keyFile: string): RunKey | undefined {
  try {
    return { ...JSON.parse(readFileSync(keyFile, 'utf8')) };
  } catch {
    return undefined;
  }
}

/** What another build has left in a folder of parts. */
function foreignIn(place: string, there: RunKey | undefined, key: RunKey): Checkpoint['foreign'] {
  if (there === undefined || there.madeBy === key.madeBy) return undefined;
  const parts = readdirSync(place).length - 1;
  return parts > 0 ? { parts, madeBy: String(there.madeBy).slice(0, 100) } : undefined;
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
export function openCheckpoint(parent: string, name: string, key: RunKey): Checkpoint {
  const place = join(parent, `.${name}.parts`);
  const keyFile = join(place, KEY_FILE);
  const there = keyIn(keyFile);
  const known = there?.case === key.case && there.madeBy === key.madeBy;
  const foreign = foreignIn(place, there, key);
  if (!known) {
    try {
      rmSync(place, { recursive: true, force: true });
      mkdirSync(place, { recursive: true });
      writeFileSync(keyFile, JSON.stringify(key), { flush: true });
    } catch (error) {
      throw unkept(place, error);
    }
  }
  let used = 0;
  return {
    read: (task) => {
      const file = join(place, partName(task));
      if (!known || !existsSync(file)) return undefined;
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
        throw unkept(place, error);
      }
    },
    used: () => used,
    foreign,
    clear: () => rmSync(place, { recursive: true, force: true }),
  };
}
