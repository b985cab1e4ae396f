import { existsSync, lstatSync, readdirSync, renameSync, rmdirSync, rmSync, unlinkSync } from 'node:fs';
import { join, posix } from 'node:path';
import { asideName, copyWhole, fileDigest } from './keeping.ts';
import { MARKER_FILE, markerText, readMarker } from './marker.ts';
import { reasonOf } from './results-error.ts';
import { standingIn } from './standing.ts';
import { writeFileWhole } from './whole-file.ts';

/** Where new results are written before they are swapped in. */
export const freshPlace = (parent: string, name: string): string => join(parent, `.${name}.writing`);

/** Folders that were moved aside for new results, the latest last. */
export function formerPlaces(parent: string, name: string): string[] {
  if (!existsSync(parent)) return [];
  const number = (folder: string): number => Number(folder.slice(`.${name}.before-`.length)) || 1;
  return readdirSync(parent)
    .filter((folder) => folder === `.${name}.before` || folder.startsWith(`.${name}.before-`))
    .sort((a, b) => number(a) - number(b))
    .map((folder) => join(parent, folder));
}

/** A free name for the folder that is moved aside. */
export function formerPlace(parent: string, name: string): string {
  for (let i = 1; ; i++) {
    const place = join(parent, `.${name}.before${i === 1 ? '' : `-${i}`}`);
    if (!existsSync(place)) return place;
  }
}

/** A folder with its list is whole: the list goes first when a folder is cleared. */
const isWhole = (former: string): boolean => readMarker(former) !== undefined;

/** Brings back results that were moved aside while their successor did not arrive. */
function bringBack(parent: string, name: string): void {
  const place = join(parent, name);
  if (existsSync(place)) return;
  const whole = formerPlaces(parent, name).findLast(isWhole);
  if (whole !== undefined) renameSync(whole, place);
}

/** Whether results lie aside that ought to be in their place. */
export const isCut = (parent: string, name: string): boolean =>
  !existsSync(join(parent, name)) && formerPlaces(parent, name).some(isWhole);

/** Moves what somebody else has in a former folder into the results, where it is not there already. */
function rescue(former: string, name: string, place: string): void {
  const from = join(former, name);
  const marker = readMarker(place);
  const { dir, name: stem, ext } = posix.parse(name);
  const beside = existsSync(join(place, dir))
    ? readdirSync(join(place, dir)).filter((one) => one.startsWith(stem) && one.endsWith(ext))
    : [];
  const digest = fileDigest(from);
  const isThere = beside.some((one) => {
    const file = join(place, dir, one);
    return lstatSync(file).isFile() && fileDigest(file) === digest;
  });
  if (!isThere) {
    const free = !existsSync(join(place, name));
    const to = free ? name : asideName(name, (one) => existsSync(join(place, one)));
    copyWhole(from, join(place, to));
    if (marker !== undefined) {
      const text = markerText({ ...marker, kept: [...marker.kept, to] });
      writeFileWhole(join(place, MARKER_FILE), text);
    }
  }
  unlinkSync(from);
}

/**
 * Clears a folder whose successor is in its place: what this program wrote there goes, what somebody else has there moves
 * on into the results.
 * @returns what could not be taken away, in words
 */
export function clearFormer(former: string, place: string): string[] {
  const failed: string[] = [];
  const trying = (name: string, act: () => void): void => {
    try {
      act();
    } catch (error) {
      failed.push(`${name} (${reasonOf(error)})`);
    }
  };
  if (lstatSync(former).isDirectory()) {
    const { marker, own, changed, kept, foreign, litter } = standingIn(former);
    // Nothing is whole any more once the list is gone, so it goes first.
    if (marker !== undefined) trying(MARKER_FILE, () => unlinkSync(join(former, MARKER_FILE)));
    if (failed.length === 0) {
      for (const name of [...own, ...litter]) trying(name, () => unlinkSync(join(former, name)));
      for (const name of [...changed, ...kept, ...foreign]) {
        if (name.endsWith('/')) continue;
        trying(name, () => rescue(former, name, place));
      }
      removeEmptyFolders(former);
    }
  }
  return existsSync(former)
    ? [
        `${former}: the results from before could not be taken away${failed.length === 0 ? '' : `: ${failed.slice(0, 3).join(', ')}`}. The new ones in ${place} are whole. Remove that folder by hand.`,
      ]
    : [];
}

/** Removes a folder as far as it and those below hold nothing. */
function removeEmptyFolders(place: string): void {
  for (const entry of readdirSync(place, { withFileTypes: true })) {
    if (entry.isDirectory()) removeEmptyFolders(join(place, entry.name));
  }
  try {
    rmdirSync(place);
  } catch {
    // It holds something still, which its owner is told.
  }
}

/**
 * Mends what a swap that was cut has left: a folder that was moved aside comes back when its successor did not arrive, and
 * half-written ones go. Only for whoever holds the folder.
 * @returns what could not be taken away, in words
 */
export function mendResults(parent: string, name: string): string[] {
  const place = join(parent, name);
  bringBack(parent, name);
  const remarks = existsSync(place)
    ? formerPlaces(parent, name).flatMap((former) => clearFormer(former, place))
    : [];
  rmSync(freshPlace(parent, name), { recursive: true, force: true });
  return remarks;
}
