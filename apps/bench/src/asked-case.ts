import { existsSync, readFileSync, statSync } from 'node:fs';
import { basename, join } from 'node:path';
import { isDeepStrictEqual } from 'node:util';
import type { Case, Setting } from '@tubgap/casefile';
import { BAD_INPUT } from '@tubgap/casefile/command-line';
import { openCase } from '@tubgap/casefile/node';
import { CHECK_FILES } from '@tubgap/evidence';
import { bringBackCut, CASE_FILE, RESULT_FILE, ResultsError, readResults, readSample } from '@tubgap/results';
import type { Carried } from './carried/carried.ts';
import { textWith, UnwritableError } from './carried/case-text.ts';

/** What the input says that no page can be made of, in words. */
class BadInputError extends Error {
  readonly exitCode = BAD_INPUT;
}

/** What a page is made of. */
export interface Asked {
  source: Case;
  /** Begins at the pick of the results where these are of the same case. */
  carried: Carried;
  /** Folder of the results of just this case; undefined where there are none. */
  results: string | undefined;
  /** A folder of results of the same name, but of another state of the case. */
  outdated?: string;
  /** What of the results could not be taken, and what that means, in words. */
  remark?: string;
}

type Whole = Pick<Asked, 'source' | 'carried'>;

/** A case with every file that it names, with settings in their places. */
function readWhole(file: string, set: readonly Setting[]): Whole {
  const name = basename(file);
  const opened = openCase(file, set);
  if (!opened.ok) throw new BadInputError(opened.lines.join('\n'));
  const { source, text, named } = opened;
  try {
    const written = set.length === 0 ? text : textWith(text, source, set);
    return { source, carried: { file: name, files: { [name]: written, ...named } } };
  } catch (error) {
    if (error instanceof UnwritableError) throw new BadInputError(`--set ${error.message}`);
    throw error;
  }
}

/** A results folder's own copy of its case, with what was set for that run and what is set now in its place. */
function readCopy(folder: string, set: readonly Setting[]): Whole {
  const { settings } = readResults(folder).case;
  const kept = settings.filter(({ path }) => !set.some((one) => one.path === path));
  return readWhole(join(folder, CASE_FILE), [...kept, ...set]);
}

/** Whether a results folder was made of just this case and the same files beside it. */
function isOf(folder: string, { carried: { file, files } }: Whole): boolean {
  if (!existsSync(join(folder, RESULT_FILE))) return false;
  try {
    const { carried } = readCopy(folder, []);
    const texts = { ...carried.files, [file]: carried.files[carried.file] };
    if (file !== carried.file) delete texts[carried.file];
    return isDeepStrictEqual(texts, { ...files });
  } catch (error) {
    if (error instanceof ResultsError || error instanceof BadInputError) return false;
    throw error;
  }
}

/** The tub to build of results as it is set out, where the page then begins; undefined when there is none. */
function pickIn(folder: string): Carried['start'] {
  const { picks, chosen, tolerances } = readResults(folder);
  const pick = chosen === null ? undefined : picks[chosen];
  if (pick?.height === undefined) return undefined;
  const { topHeight, limitingTyre } = pick.height;
  return { tub: pick.tub, tyre: limitingTyre, topHeight: tolerances?.setOut.topHeight ?? topHeight };
}

/** The check sheet's tables of a results folder, for what they let pass. */
function sheetTables(results: string): Record<string, string> {
  const files = [...new Set(Object.values(CHECK_FILES))].filter((file) => existsSync(join(results, file)));
  return Object.fromEntries(files.map((file) => [file, readFileSync(join(results, file), 'utf8')]));
}

/** The sample of a results folder; where it is damaged, why it is not taken. */
function sampleIn(results: string): Pick<Carried, 'sample'> & Pick<Asked, 'remark'> {
  try {
    const sample = readSample(results, readResults(results));
    return sample === undefined ? {} : { sample };
  } catch (error) {
    if (!(error instanceof ResultsError)) throw error;
    return { remark: `${error.message} Until then the page counts runs of its own.` };
  }
}

/** A page's case, begun at the pick of its results; their sample and check sheet go with it where the case is theirs. */
function begun({ source, carried }: Whole, results: string, same: boolean): Asked {
  const start = pickIn(results);
  const { sample, remark } = same ? sampleIn(results) : {};
  const sheet = start?.tub !== undefined && same && { tub: start.tub, tables: sheetTables(results) };
  return {
    source,
    carried: { ...carried, ...(start && { start }), ...(sheet && { sheet }), ...(sample && { sample }) },
    results,
    ...(remark !== undefined && { remark }),
  };
}

/**
 * What a page is made of: a case file, with its results where they are of the same case; or a results folder, whose own
 * copy of the case it then is, as it was read for them.
 * @param folders  that holds the results folders
 * @throws BadInputError or ResultsError, which say what is to mend
 */
export function readAsked(file: string, folders: string, set: readonly Setting[]): Asked {
  bringBackCut(file);
  if (statSync(file, { throwIfNoEntry: false })?.isDirectory()) {
    return begun(readCopy(file, set), file, set.length === 0);
  }
  const whole = readWhole(file, set);
  const results = join(folders, whole.source.name);
  bringBackCut(results);
  if (isOf(results, whole)) return begun(whole, results, true);
  return { ...whole, results: undefined, ...(existsSync(results) && { outdated: results }) };
}
