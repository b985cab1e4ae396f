import { existsSync, mkdirSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { asideName, asideWords, copyWhole, fileDigest, keepingOf, keptWords } from './keeping.ts';
import { digestOf, type FolderKind, MARKER_FILE, markerText, readMarker } from './marker.ts';
import { clearFormer, formerPlace, freshPlace } from './mending.ts';
import { DiskRefused, reasonOf } from './results-error.ts';
import { standingIn } from './standing.ts';
import { writeFileWhole } from './whole-file.ts';

/** Files by their names; a name may lead into a folder below, with '/'. */
export type Files = Readonly<Record<string, string | Uint8Array>>;

/** What a folder is, as its list keeps it. */
export interface FolderWords {
  kind: FolderKind;
  /** The command that makes the same again. */
  asked: string;
}

const FREE_SPACE = 'Free some space or choose another folder, and run again.';

/** Writes new results beside those that stand, with what somebody else has there. @returns what is to be told of it */
function writeBeside(place: string, writing: string, { kind, asked }: FolderWords, files: Files): string[] {
  mkdirSync(writing);
  const digests: Record<string, string> = {};
  for (const [file, text] of Object.entries(files)) {
    mkdirSync(dirname(join(writing, file)), { recursive: true });
    writeFileSync(join(writing, file), text, { flush: true });
    digests[file] = digestOf(text);
  }
  const stays: string[] = [];
  const remarks: string[] = [];
  const kept: string[] = [];
  if (existsSync(place)) {
    const standing = standingIn(place);
    const isTaken = (name: string): boolean => name in files || existsSync(join(place, name));
    for (const name of standing.changed) {
      const before = standing.marker!.files[name]!;
      const next = digests[name];
      if (next === undefined) {
        // Whoever writes this name later on, a paper of the report, sees that it was changed.
        copyWhole(join(place, name), join(writing, name));
        digests[name] = before;
        continue;
      }
      const keeping = keepingOf(fileDigest(join(place, name)), before, next);
      if (keeping === 'as it is') {
        copyWhole(join(place, name), join(writing, name));
        stays.push(name);
      } else if (keeping === 'aside') {
        const aside = asideName(name, isTaken);
        copyWhole(join(place, name), join(writing, aside));
        kept.push(aside);
        remarks.push(asideWords(place, name, aside));
      }
    }
    // What came while these results were worked out is not lost either.
    for (const name of [...standing.kept, ...standing.foreign]) {
      if (name.endsWith('/')) continue;
      const to = name in files ? asideName(name, isTaken) : name;
      copyWhole(join(place, name), join(writing, to));
      kept.push(to);
    }
  }
  const marker = markerText({ format: 'tubgap folder', version: 1, kind, asked, files: digests, kept });
  writeFileSync(join(writing, MARKER_FILE), marker, { flush: true });
  return [...keptWords(place, stays), ...remarks];
}

/**
 * Writes a results folder whole or not at all: beside the old one first, then swapped in. A finished result is there
 * at every instant, as itself or under the name from which `mendResults` brings it back. What somebody has changed or laid
 * in the old one is in the new one too. Only for whoever holds the folder.
 * @returns what is to be told: files that were kept, and what could not be taken away
 * @throws DiskRefused
 */
export function swapResults(parent: string, name: string, words: FolderWords, files: Files): string[] {
  const place = join(parent, name);
  const writing = freshPlace(parent, name);
  let remarks: string[];
  let former: string | undefined;
  try {
    remarks = writeBeside(place, writing, words, files);
    if (existsSync(place)) {
      const aside = formerPlace(parent, name);
      renameSync(place, aside);
      former = aside;
    }
    renameSync(writing, place);
  } catch (error) {
    rmSync(writing, { recursive: true, force: true });
    // Whatever was moved aside is whole there, and comes back at once or with the next command.
    if (former !== undefined && !existsSync(place)) renameSync(former, place);
    throw new DiskRefused(
      `${place}: the results could not be written (${reasonOf(error)}). ` +
        `The results that were there before are untouched. ${FREE_SPACE}`,
    );
  }
  return [...remarks, ...(former === undefined ? [] : clearFormer(former, place))];
}

/**
 * Writes further files into a folder, each one whole or not at all, and adds them to its list. What somebody has changed
 * is kept, in its place or aside. A folder without a list gets none, unless its kind is given: then what stands in
 * it is left to whom it belongs, and only these files are this program's.
 * @returns what is to be told of files that were kept
 * @throws DiskRefused
 */
export function addFiles(place: string, files: Files, shared?: FolderWords): string[] {
  const known = readMarker(place);
  const marker =
    known ??
    (shared && { format: 'tubgap folder' as const, version: 1 as const, ...shared, files: {}, kept: [] });
  const stays: string[] = [];
  const remarks: string[] = [];
  const digests = { ...marker?.files };
  const kept = [...(marker?.kept ?? [])];
  const writing = (file: string, act: () => void): void => {
    try {
      act();
    } catch (error) {
      throw new DiskRefused(`${join(place, file)}: could not be written (${reasonOf(error)}). ${FREE_SPACE}`);
    }
  };
  for (const [file, text] of Object.entries(files)) {
    const target = join(place, file);
    const next = digestOf(text);
    writing(file, () => {
      const before = digests[file];
      digests[file] = next;
      const there = existsSync(target) ? fileDigest(target) : undefined;
      if (there !== undefined && there !== before) {
        const keeping = keepingOf(there, before, next);
        if (keeping === 'as it is') stays.push(file);
        if (keeping === 'aside') {
          const aside = asideName(file, (name) => existsSync(join(place, name)));
          copyWhole(target, join(place, aside));
          kept.push(aside);
          remarks.push(asideWords(place, file, aside));
        }
        if (keeping !== 'aside') return;
      }
      writeFileWhole(target, text);
    });
  }
  if (marker !== undefined) {
    writing(MARKER_FILE, () =>
      writeFileWhole(join(place, MARKER_FILE), markerText({ ...marker, files: digests, kept })),
    );
  }
  return [...keptWords(place, stays), ...remarks];
}
