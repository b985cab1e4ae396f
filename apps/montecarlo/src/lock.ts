import { existsSync, linkSync, mkdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { hostname } from 'node:os';
import { join } from 'node:path';
import { ResultsError } from '@tubgap/results';
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

/**
 * Takes the right to write a results folder. What a killed process has left of its own is taken over.
 * @param parent  folder that holds the results folders
 * @param stopped  said when a stop by hand ends the process meanwhile
 * @throws ResultsError when another run holds it, or the disk refuses
 */
export function lockResults(parent: string, name: string, stopped = 'Stopped.'): Lock {
  const file = join(parent, `.${name}.lock`);
  const own = `${file}.${process.pid}-${Math.random().toString(36).slice(2)}`;
  const text = JSON.stringify({ pid: process.pid, host: hostname(), began: beganOf(process.pid) });
  try {
    mkdirSync(parent, { recursive: true });
    writeFileSync(own, text, { flush: true });
  } catch (error) {
    if (existsSync(own)) rmSync(own);
    throw new ResultsError(
      `${parent}: cannot be written to (${(error as Error).message}). Free some space or choose another folder, and run again.`,
    );
  }
  try {
    for (let tries = 0; tries < 20; tries++) {
      try {
        // A link appears whole, with its holder in it, or not at all.
        linkSync(own, file);
        // A stop by hand ends the process in the way that gives the hold back.
        const release = onStop((signal) => {
          process.stderr.write(`${stopped}\n`);
          process.exit(stopCode(signal));
        });
        const free = (): void => {
          release();
          freeIfOwn(file, text);
        };
        process.once('exit', free);
        return { free };
      } catch (error) {
        if ((error as NodeJS.ErrnoException).code !== 'EEXIST') throw error;
      }
      const there = readIf(file);
      const holder = there === undefined ? undefined : holderOf(there);
      if (holder !== undefined && isAlive(holder)) {
        throw new ResultsError(
          `${join(parent, name)}: another run is writing it (process ${holder.pid} on ${holder.host}). ` +
            `Wait for it, or choose another folder with --results. If that run is gone for good, remove ${file}.`,
        );
      }
      if (there !== undefined) takeAway(file, there);
    }
    throw new ResultsError(`${join(parent, name)}: other runs keep taking it. Run again.`);
  } finally {
    rmSync(own, { force: true });
  }
}

function readIf(file: string): string | undefined {
  try {
    return readFileSync(file, 'utf8');
  } catch {
    return undefined;
  }
}

/** Takes a dead holder's lock away; one that was taken over meanwhile is put back. */
function takeAway(file: string, stale: string): void {
  const aside = `${file}.${process.pid}-aside`;
  try {
    renameSync(file, aside);
    if (readIf(aside) !== stale) linkSync(aside, file);
  } catch {
    // Another run was faster; the next try sees what it has left.
  }
  rmSync(aside, { force: true });
}

function freeIfOwn(file: string, text: string): void {
  if (readIf(file) === text) rmSync(file, { force: true });
}
