import { existsSync, mkdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { hostname } from 'node:os';
import { join } from 'node:path';
import { makeFolder, removeEmpty } from './make-folder.ts';
import { ResultsHeld, ResultsRefused, reasonOf } from './results-error.ts';
import { onStop, stopCode } from './stop-signals.ts';

/** Says that a results folder is being written by this process alone. */
export interface Lock {
  free: () => void;
}

interface Holder {
  pid: number;
  host: string;
  /** When the process began, in the kernel's own count: a number that is used again does not pass for it. */
  began: string;
}

/** When a process of this machine began, as its kernel counts; empty where that cannot be told. */
function beganOf(pid: number): string {
  try {
    const text = readFileSync(`/proc/${pid}/stat`, 'utf8');
    // The name in brackets may hold blanks; the start is the twentieth field behind it.
    return text.slice(text.lastIndexOf(')') + 2).split(' ')[19] ?? '';
  } catch {
    return '';
  }
}

function isAlive({ pid, host, began }: Holder): boolean {
  // Of another machine's processes nothing is known: its lock holds.
  if (host !== hostname()) return true;
  try {
    process.kill(pid, 0);
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'EPERM';
  }
  return began === '' || beganOf(pid) === began;
}

function holderOf(text: string): Holder | undefined {
  try {
    const { pid, host, began } = JSON.parse(text) as Partial<Holder>;
    return typeof pid === 'number' && typeof host === 'string' && typeof began === 'string'
      ? { pid, host, began }
      : undefined;
  } catch {
    return undefined;
  }
}

/** The file in a lock's folder that tells its holder. */
const HOLDER = 'holder';

/** How often a hold that others keep taking is tried for. */
const MOST_TRIES = 20;

const anyName = (): string => `${process.pid}-${Math.random().toString(36).slice(2)}`;

/**
 * Takes the right to write a results folder. What a killed process has left of its own is taken over.
 * A lock is a folder that is renamed to its name: it appears whole, with its holder in it, or not at all, and not over
 * another that holds something. That asks for no links, which a FAT stick and some network shares do not know.
 * @param parent  folder that holds the results folders; made when it is not there, and taken away again when nothing came
 * @param stopped  what is said when a stop by hand ends the process meanwhile
 * @throws ResultsRefused when another run holds it, or the place can hold none
 */
export function lockResults(parent: string, name: string, stopped = () => 'Stopped.'): Lock {
  const place = join(parent, `.${name}.lock`);
  const own = `${place}.${anyName()}`;
  const text = JSON.stringify({ pid: process.pid, host: hostname(), began: beganOf(process.pid), own });
  let made: string[] = [];
  try {
    made = makeFolder(parent);
    mkdirSync(own);
    writeFileSync(join(own, HOLDER), text, { flush: true });
  } catch (error) {
    rmSync(own, { recursive: true, force: true });
    removeEmpty(made);
    throw new ResultsRefused(
      `${parent}: cannot be written to (${reasonOf(error)}). Free some space or choose another folder, and run again. Nothing was run.`,
    );
  }
  try {
    for (let tries = 0; tries < MOST_TRIES; tries++) {
      if (isTaken(own, place)) {
        const there = readIf(place);
        const holder = there === undefined ? undefined : holderOf(there);
        if (holder !== undefined && isAlive(holder)) {
          throw new ResultsHeld(
            `${join(parent, name)}: another run is writing it (process ${holder.pid} on ${holder.host}). ` +
              `Wait for it, or choose another folder with --results. If that run is gone for good, remove ${place}.`,
          );
        }
        if (there !== undefined) takeAway(place, there);
        continue;
      }
      // A stop by hand ends the process in the way that gives the hold back.
      const release = onStop((signal) => {
        process.stderr.write(`${stopped()}\n`);
        process.exit(stopCode(signal));
      });
      const free = (): void => {
        release();
        process.off('exit', free);
        if (readIf(place) === text) takeAway(place, text);
        removeEmpty(made);
      };
      process.once('exit', free);
      return { free };
    }
    throw new ResultsRefused(
      `${join(parent, name)}: cannot be taken for writing. Run again; if nothing else is writing there, remove ${place}.`,
    );
  } finally {
    rmSync(own, { recursive: true, force: true });
  }
}

/** Tries to take a lock. @returns whether another one has it @throws ResultsRefused when it can be had by nobody */
function isTaken(own: string, place: string): boolean {
  try {
    renameSync(own, place);
    return false;
  } catch (error) {
    // What a system calls it differs; what counts is whether something stands there.
    const { code } = error as NodeJS.ErrnoException;
    if (existsSync(place) || code === 'ENOTEMPTY' || code === 'EEXIST') return true;
    throw new ResultsRefused(`${place}: cannot be made (${reasonOf(error)}). Choose another folder.`);
  }
}

function readIf(place: string): string | undefined {
  try {
    return readFileSync(join(place, HOLDER), 'utf8');
  } catch {
    return undefined;
  }
}

/** Takes a lock away, a dead holder's or one's own; one that was taken over meanwhile is put back. */
function takeAway(place: string, text: string): void {
  const aside = `${place}.${anyName()}-aside`;
  try {
    renameSync(place, aside);
    if (readIf(aside) !== text) renameSync(aside, place);
  } catch {
    // Another run was faster; the next try sees what it has left.
  }
  rmSync(aside, { recursive: true, force: true });
}
