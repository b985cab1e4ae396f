import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { beginFolder, DiskRefused, ResultsError, writeFileWhole } from '@tubgap/results';
import { type DrawsPlan, partFile, planText } from './draws-plan.ts';

/** What the folder says of itself and of its columns. */
export const ABOUT_FILE = 'draws.json';
/** Beside every part stands its digest, as `sha256sum -c` reads it. */
const DIGEST = '.sha256';

const reasonOf = (error: unknown): string => (error as Error).message;
const digestOf = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');

/**
 * Opens the folder of a plan's draws, or begins it. Any number of processes may do so at once.
 * @param copy  files of the case
 * @throws ResultsError when it holds something else, or the place can hold none
 */
export function openDrawsFolder(
  place: string,
  plan: DrawsPlan,
  copy: Readonly<Record<string, string>>,
): void {
  const about = planText(plan);
  try {
    const isEmpty = existsSync(place) && readdirSync(place).length === 0;
    if (!existsSync(place) || isEmpty) beginFolder(place, { ...copy, [ABOUT_FILE]: about });
  } catch (error) {
    throw new ResultsError(
      `${place}: cannot be written to (${reasonOf(error)}). Free some space or name another folder with --to, and run again.`,
    );
  }
  const there = existsSync(join(place, ABOUT_FILE))
    ? readFileSync(join(place, ABOUT_FILE), 'utf8')
    : undefined;
  if (there === about) return;
  throw new ResultsError(
    there === undefined
      ? `${place}: holds something else than draws. Name another folder with --to; nothing was written.`
      : `${place}: holds the draws of another case, seed, number, build or choice of columns. Remove it or name another folder with --to; nothing was written.`,
  );
}

/** Whether a part is there as it was written. */
export function hasPart(place: string, plan: DrawsPlan, part: number): boolean {
  const file = join(place, partFile(plan, part));
  try {
    return readFileSync(file + DIGEST, 'utf8').startsWith(digestOf(readFileSync(file)));
  } catch {
    return false;
  }
}

/** Keeps a part, whole or not at all. @returns its bytes @throws DiskRefused */
export function keepPart(place: string, plan: DrawsPlan, part: number, bytes: Uint8Array): void {
  const name = partFile(plan, part);
  try {
    writeFileWhole(join(place, name), bytes);
    writeFileWhole(join(place, name + DIGEST), `${digestOf(bytes)}  ${name}\n`);
  } catch (error) {
    throw new DiskRefused(
      `${join(place, name)}: could not be written (${reasonOf(error)}). Finished files are kept. Free some space, and run the same command again: it goes on from there.`,
    );
  }
}
