import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { deserialize, serialize } from 'node:v8';
import type { Case } from '@tubgap/casefile';
import type { Task, TaskResult } from '@tubgap/simulation';

/**
 * Finished tasks of a run, kept beside the results until these are written: a run that was cut goes on from here.
 * A part belongs to the case, its numbers and this program's version; parts of another run are thrown away.
 */
export interface Checkpoint {
  read: (task: Task) => TaskResult | undefined;
  keep: (task: Task, result: TaskResult) => void;
  /** Parts found when the checkpoint was opened and used since. */
  used: () => number;
  clear: () => void;
}

const KEY_FILE = 'key';

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

/** Opens the checkpoint of a run in the folder that holds the results folders. */
export function openCheckpoint(parent: string, name: string, key: string): Checkpoint {
  const place = join(parent, `.${name}.parts`);
  const keyFile = join(place, KEY_FILE);
  const known = existsSync(keyFile) && readFileSync(keyFile, 'utf8') === key;
  if (!known) {
    rmSync(place, { recursive: true, force: true });
    mkdirSync(place, { recursive: true });
    writeFileSync(keyFile, key, { flush: true });
  }
  let used = 0;
  return {
    read: (task) => {
      const file = join(place, partName(task));
      if (!known || !existsSync(file)) return undefined;
      try {
        const result = deserialize(readFileSync(file)) as TaskResult;
        if (result.kind !== task.kind) return undefined;
        used++;
        return result;
      } catch {
        return undefined;
      }
    },
    keep: (task, result) => {
      const file = join(place, partName(task));
      // A part is whole or absent: it gets its name only when it is written.
      writeFileSync(`${file}.writing`, serialize(result));
      renameSync(`${file}.writing`, file);
    },
    used: () => used,
    clear: () => rmSync(place, { recursive: true, force: true }),
  };
}
