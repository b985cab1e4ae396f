import { existsSync } from 'node:fs';
import { basename, dirname, join, resolve } from 'node:path';
import { type Lock, lockResults } from './lock.ts';
import { type FolderKind, readMarker } from './marker.ts';
import { isCut, mendResults } from './mending.ts';
import { kindWords, refuseForeign, refuseKind } from './standing.ts';
import { addFiles, type Files, type FolderWords, swapResults } from './swap.ts';

/** What a hold on results is asked for. */
interface HoldWords {
  kind: FolderKind;
  /** The command that makes the same again, as far as it is known before the run; results of another are told to go. */
  asked?: string | undefined;
  /** What is said when a stop by hand ends the process meanwhile. */
  stopped?: (() => string) | undefined;
}

/** The right to write one results folder anew; nobody else writes it meanwhile. */
export interface ResultsHold {
  place: string;
  /** What is to be told before the run: what was mended, what will be replaced. */
  remarks: readonly string[];
  /**
   * Writes the folder whole or not at all, in place of the one that stood there.
   * @returns what is to be told of it: files that were kept, what could not be taken away
   * @throws DiskRefused
   */
  write: (files: Files, asked: string) => string[];
  /** Writes further files into what stands there, each whole or not at all. @returns as `write` @throws DiskRefused */
  add: (files: Files) => string[];
  free: () => void;
}

/**
 * Takes a results folder for writing, before anything is worked out: a place that can hold none is found now.
 * @param parent  folder that holds the results folders
 * @throws ResultsRefused when another run holds it, when something foreign stands there, or when nothing can be written
 */
export function holdResults(parent: string, name: string, { kind, asked, stopped }: HoldWords): ResultsHold {
  const place = join(parent, name);
  const lock = lockResults(parent, name, stopped);
  try {
    const remarks = mendResults(parent, name);
    refuseForeign(place, kind);
    const before = readMarker(place);
    if (before !== undefined && before.asked !== asked) {
      remarks.push(
        `${place}: holds ${kindWords(kind)} from before (${before.asked}), which gives way when this is done. To keep both, give one of them a --name or another folder with --results.`,
      );
    }
    return {
      place,
      remarks,
      write: (files, askedNow) => swapResults(parent, name, { kind, asked: askedNow }, files),
      add: (files) => addFiles(place, files),
      free: lock.free,
    };
  } catch (error) {
    lock.free();
    throw error;
  }
}

/** The right to add to a folder that is there. */
export interface FolderHold {
  /** What is to be told: what was mended. */
  remarks: readonly string[];
  /** Writes further files, each whole or not at all. @returns what is to be told of files that were kept @throws DiskRefused */
  add: (files: Files) => string[];
  free: () => void;
}

/** The folder that holds a results folder, and its name there. */
function parted(place: string): { parent: string; name: string } {
  const whole = ['', '.', '..'].includes(basename(place)) ? resolve(place) : place;
  return { parent: dirname(whole), name: basename(whole) };
}

/**
 * Takes a results folder to add to it, and mends it when a swap was cut. One that is not there is not made.
 * @throws ResultsRefused when another run holds it
 */
export function holdFolder(place: string): FolderHold {
  const { parent, name } = parted(place);
  const isThere = existsSync(place) || isCut(parent, name);
  const lock: Lock = isThere ? lockResults(parent, name) : { free: () => {} };
  try {
    const remarks = isThere ? mendResults(parent, name) : [];
    return { remarks, add: (files) => addFiles(place, files), free: lock.free };
  } catch (error) {
    lock.free();
    throw error;
  }
}

/**
 * Writes files of this program into a folder that belongs to somebody, each whole or not at all, with a list of them.
 * @returns what is to be told of files that were kept
 * @throws ResultsRefused when the folder holds results, DiskRefused
 */
export function writeInto(place: string, words: FolderWords, files: Files): string[] {
  refuseKind(place, words.kind);
  return addFiles(place, files, words);
}

/** Results that lie aside because a swap was cut come back before they are read. @throws ResultsRefused while a run swaps */
export function bringBackCut(place: string): void {
  const { parent, name } = parted(place);
  if (!existsSync(place) && isCut(parent, name)) holdFolder(place).free();
}

/** Whether a folder is known as results of a kind. */
export const holdsResults = (place: string, kind: FolderKind): boolean => readMarker(place)?.kind === kind;
