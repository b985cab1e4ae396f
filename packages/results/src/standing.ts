import { existsSync, lstatSync, readdirSync, readFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { digestOf, type FolderKind, MARKER_FILE, type Marker, readMarker } from './marker.ts';
import { ResultsRefused } from './results-error.ts';

/** What lies in a folder, told apart by whose it is; names below folders with '/'. */
export interface Standing {
  /** Undefined when the folder is not known as one of this program's. */
  marker: Marker | undefined;
  /** Files as this program wrote them. */
  own: string[];
  /** Files that this program wrote and somebody has changed since. */
  changed: string[];
  /** Files of somebody else that the list knows. */
  kept: string[];
  /** Files that are on no list, and folders of that kind, these with '/' behind them. */
  foreign: string[];
  /** What is of no use to anybody: leavings of file browsers and of writes that were cut. */
  litter: string[];
}

/** Ending of a file that has not got its own name yet. */
export const WRITING = '.writing';

const LITTER = /^(\.DS_Store|Thumbs\.db|desktop\.ini|\..*\.writing)$/i;

/** Names of all files below a folder, and of its empty folders with '/' behind them. */
function namesBelow(place: string, before = ''): string[] {
  return readdirSync(place, { withFileTypes: true })
    .toSorted((a, b) => (a.name < b.name ? -1 : 1))
    .flatMap((entry) => {
      const name = before + entry.name;
      if (!entry.isDirectory()) return [name];
      const below = namesBelow(join(place, entry.name), `${name}/`);
      return below.length === 0 ? [`${name}/`] : below;
    });
}

/** Whether a file is there as it was written. */
function isAsWritten(file: string, digest: string): boolean {
  try {
    return lstatSync(file).isFile() && digestOf(readFileSync(file)) === digest;
  } catch {
    return false;
  }
}

/** Tells whose is what in a folder. */
export function standingIn(place: string): Standing {
  const marker = readMarker(place);
  const standing: Standing = { marker, own: [], changed: [], kept: [], foreign: [], litter: [] };
  for (const name of namesBelow(place)) {
    const digest = marker?.files[name];
    if (marker !== undefined && name === MARKER_FILE) continue;
    if (LITTER.test(basename(name))) standing.litter.push(name);
    else if (digest !== undefined) {
      standing[isAsWritten(join(place, name), digest) ? 'own' : 'changed'].push(name);
    } else standing[marker?.kept.includes(name) ? 'kept' : 'foreign'].push(name);
  }
  return standing;
}

const KIND_WORDS: Readonly<Record<FolderKind, string>> = {
  pick: 'a pick',
  sweep: 'a sweep',
  compare: 'a comparison',
  place: 'a search for places',
  optimise: 'a search for the best values',
  learned: 'what was learned',
  'first test': 'the plan of a first test',
  year: 'an overview of cars',
  book: "what a shop's book taught",
};

/** What a folder of a kind holds, in words. */
export const kindWords = (kind: FolderKind): string => KIND_WORDS[kind];

/** Names that are told at most. */
const MOST_NAMED = 6;

const listed = (names: readonly string[]): string =>
  names.length <= MOST_NAMED
    ? names.join(', ')
    : `${names.slice(0, MOST_NAMED).join(', ')} and ${names.length - MOST_NAMED} more`;

const MEND = 'Move it, or name another folder with --results. Nothing was run.';

/** Makes sure that a folder holds no results of another kind. @throws ResultsRefused */
export function refuseKind(place: string, kind: FolderKind): void {
  const marker = readMarker(place);
  if (marker === undefined || marker.kind === kind) return;
  throw new ResultsRefused(`${place}: holds ${kindWords(marker.kind)}, not ${kindWords(kind)}. ${MEND}`);
}

/**
 * Makes sure that a place for results is free, or holds results of the same kind and nothing else.
 * @throws ResultsRefused that names what stands there
 */
export function refuseForeign(place: string, kind: FolderKind): void {
  const there = lstatSync(place, { throwIfNoEntry: false });
  if (there === undefined) return;
  if (!there.isDirectory()) {
    const what = there.isSymbolicLink() ? 'a link' : 'a file';
    throw new ResultsRefused(`${place}: is ${what}; results are written into a folder of this name. ${MEND}`);
  }
  if (readdirSync(place).length === 0) return;
  const { marker, foreign } = standingIn(place);
  if (marker === undefined) {
    const near = existsSync(join(place, MARKER_FILE))
      ? `its ${MARKER_FILE} is no list that this program can read`
      : 'this program did not write it';
    throw new ResultsRefused(`${place}: holds ${listed(foreign)}; ${near}, and it would be lost. ${MEND}`);
  }
  refuseKind(place, kind);
  if (foreign.length > 0) {
    throw new ResultsRefused(
      `${place}: these results hold what this program did not write: ${listed(foreign)}. It would be lost. ${MEND}`,
    );
  }
}
