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
import { DiskRefused } from '@tubgap/results';
import type { Task, TaskResult } from '@tubgap/simulation';

/**
 * Finished tasks of a run, kept beside the results until these are written: a run that was cut goes on from here.
 * A part belongs to the case, its numbers and this build of the program. Each run has a folder of its own, so that the parts
 * of one that was cut stay while another one runs.
 */
export interface Checkpoint {
  /** @param of  tells the tasks of another case from those of the run's own, whose it is left empty */
  read: (task: Task, of?: string) => TaskResult | undefined;
  keep: (task: Task, result: TaskResult, of?: string) => void;
  /** Parts found when the checkpoint was opened and used since. */
  used: () => number;
  /** What other runs of the case have left. */
  others: readonly OtherParts[];
  clear: () => void;
}

/** Finished parts of another run of a case. */
export interface OtherParts {
  place: string;
  count: number;
  /** The build that made them where the run is the same and only that differs; else undefined. */
  otherBuild: string | undefined;
}

/** The key that a folder of parts was begun with. */
const KEY_FILE = 'key';
/** Digits of a run's key that name its folder. */
const KEY_DIGITS = 16;

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

/** What a folder of parts of another run holds. */
function otherParts(place: string, key: RunKey): OtherParts {
  const count = readdirSync(place).filter((name) => name !== KEY_FILE).length;
  try {
    const there = JSON.parse(readFileSync(join(place, KEY_FILE), 'utf8')) as Partial<RunKey>;
    const otherBuild = there.case === key.case ? String(there.madeBy).slice(0, 100) : undefined;
    return { place, count, otherBuild };
  } catch {
    return { place, count, otherBuild: undefined };
  }
}

/** A task's own name: its kind and numbers, and a digest of what it was given. */
function partName(task: Task, of: string): string {
  const digest = createHash('sha256').update(serialize(task)).digest('hex').slice(0, 16);
  return [...(of === '' ? [] : [of]), task.kind.replaceAll(' ', '-'), digest].join('-');
}

const unkept = (place: string, error: unknown): DiskRefused =>
  new DiskRefused(
    `${place}: finished parts could not be kept (${(error as Error).message}). No results were changed. ` +
      'Free some space or choose another folder, and run again: it goes on from the parts that are there.',
  );

/** Opens the checkpoint of a run in the folder that holds the results folders. */
export function openCheckpoint(parent: string, name: string, key: RunKey): Checkpoint {
  const all = join(parent, `.${name}.parts`);
  const text = JSON.stringify(key);
  const own = digestOf(Buffer.from(text)).toString('hex').slice(0, KEY_DIGITS);
  const place = join(all, own);
  const others = existsSync(all) ? readdirSync(all).filter((folder) => folder !== own) : [];
  try {
    mkdirSync(place, { recursive: true });
    writeFileSync(join(place, KEY_FILE), text, { flush: true });
  } catch (error) {
    throw unkept(all, error);
  }
  let used = 0;
  const keptHere = new Set<string>();
  return {
    read: (task, of = '') => {
      const name = partName(task, of);
      const file = join(place, name);
      if (!existsSync(file)) return undefined;
      try {
        const bytes = readFileSync(file);
        const kept = bytes.subarray(DIGEST_BYTES);
        // A part that a fault of the disk has changed is worked out again.
        if (!digestOf(kept).equals(bytes.subarray(0, DIGEST_BYTES))) return undefined;
        const result = deserialize(kept) as TaskResult;
        if (result.kind !== task.kind) return undefined;
        if (!keptHere.has(name)) used++;
        return result;
      } catch {
        return undefined;
      }
    },
    keep: (task, result, of = '') => {
      const name = partName(task, of);
      const file = join(place, name);
      const bytes = serialize(result);
      // A part is whole or absent: it gets its name only when it is written.
      try {
        writeFileSync(`${file}.writing`, Buffer.concat([digestOf(bytes), bytes]));
        renameSync(`${file}.writing`, file);
        keptHere.add(name);
      } catch (error) {
        rmSync(`${file}.writing`, { force: true });
        throw unkept(all, error);
      }
    },
    used: () => used,
    others: others.map((folder) => otherParts(join(all, folder), key)),
    clear: () => {
      rmSync(place, { recursive: true, force: true });
      if (readdirSync(all).length === 0) rmdirSync(all);
    },
  };
}
