import { existsSync, mkdirSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';

/** Names of the files in a results folder. */
export const RESULT_FILE = 'result.json';
/** The case as it was read, in a folder of its own with the files that it names. */
export const CASE_FOLDER = 'case';
export const CASE_FILE = `${CASE_FOLDER}/case.yaml`;

/** Something is wrong with a results folder; the message says what, where and what to do. */
export class ResultsError extends Error {}

const fresh = (name: string): string => `.${name}.writing`;
const former = (name: string): string => `.${name}.before`;

/**
 * Mends what a swap that was cut has left: a folder that was moved aside comes back when its successor did not
 * arrive, and half-written ones go.
 * @param parent  folder that holds the results folders
 * @param name  of the results folder
 */
export function mendResults(parent: string, name: string): void {
  const place = join(parent, name);
  const before = join(parent, former(name));
  if (existsSync(before)) {
    if (existsSync(place)) rmSync(before, { recursive: true, force: true });
    else renameSync(before, place);
  }
  rmSync(join(parent, fresh(name)), { recursive: true, force: true });
}

/**
 * Writes a results folder whole or not at all: beside the old one first, then swapped in. A finished result is there
 * at every instant, as itself or under the name from which `mendResults` brings it back.
 * @param files  name → text, all of the folder's files; a name may lead into a folder below
 * @throws ResultsError when the disk refuses
 */
export function writeResults(parent: string, name: string, files: Readonly<Record<string, string>>): string {
  const place = join(parent, name);
  const writing = join(parent, fresh(name));
  try {
    mkdirSync(parent, { recursive: true });
    mendResults(parent, name);
    mkdirSync(writing);
    for (const [file, text] of Object.entries(files)) {
      mkdirSync(dirname(join(writing, file)), { recursive: true });
      writeFileSync(join(writing, file), text, { flush: true });
    }
    if (existsSync(place)) renameSync(place, join(parent, former(name)));
    renameSync(writing, place);
    rmSync(join(parent, former(name)), { recursive: true, force: true });
  } catch (error) {
    rmSync(writing, { recursive: true, force: true });
    throw new ResultsError(
      `${place}: the results could not be written (${(error as Error).message}). ` +
        'The results that were there before are untouched. Free some space or choose another folder, and run again.',
    );
  }
  return place;
}

/** Writes further files into a results folder, each one whole or not at all. */
export function addToResults(place: string, files: Readonly<Record<string, string | Uint8Array>>): void {
  for (const [file, text] of Object.entries(files)) {
    const target = join(place, file);
    try {
      writeFileSync(`${target}.writing`, text, { flush: true });
      renameSync(`${target}.writing`, target);
    } catch (error) {
      rmSync(`${target}.writing`, { force: true });
      throw new ResultsError(
        `${target}: could not be written (${(error as Error).message}). Free some space or choose another folder, and run again.`,
      );
    }
  }
}
