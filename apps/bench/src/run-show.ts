import { spawn } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Setting } from '@tubgap/casefile';
import { BAD_INPUT, DONE, FAULT, printRemarks, RESULTS_FOLDER, stop } from '@tubgap/casefile/command-line';
import { holdFolder, makeFolder, ResultsRefused, writeFileWhole } from '@tubgap/results';
import { readAsked } from './asked-case.ts';
import { isPage } from './carried/carried.ts';
import { askingPage, PAGE_FILE, pageOf } from './made-page.ts';

/** What the page without a case is called. */
const ASKING_FILE = 'on-the-phone.html';

/** What the verb may be given. */
interface ShowOptions {
  results?: string | undefined;
  out?: string | undefined;
  set?: Setting[] | undefined;
  /** Whether the page is opened too. */
  open: boolean;
}

/** Writes a page where no results are; only a page of this program gives way to it. @throws ResultsRefused */
function writeAlone(target: string, page: string): void {
  if (existsSync(target) && !isPage(readFileSync(target, 'utf8'))) {
    throw new ResultsRefused(
      `${target}: is no page that this program has written, and would be lost. Name another file with --out.`,
    );
  }
  makeFolder(dirname(target));
  writeFileWhole(target, page);
}

/** Opens a page in the browser of whoever sits at this terminal; nothing where nobody does. */
function openPage(address: string): void {
  const seat = process.platform === 'linux' ? process.env.DISPLAY || process.env.WAYLAND_DISPLAY : 'seat';
  if (!process.stdout.isTTY || !seat) return;
  const [program, ...words] =
    process.platform === 'darwin'
      ? ['open']
      : process.platform === 'win32'
        ? ['cmd', '/c', 'start', '']
        : ['xdg-open'];
  const opener = spawn(program!, [...words, address], { stdio: 'ignore', detached: true });
  opener.on('error', () => {});
  opener.unref();
}

/** Writes the page where it belongs. @returns its place */
function writePage(file: string | undefined, options: ShowOptions): string {
  const { results: folders = RESULTS_FOLDER, out, set = [] } = options;
  if (file === undefined) {
    const target = out ?? join(folders, ASKING_FILE);
    writeAlone(target, askingPage());
    return target;
  }
  const asked = readAsked(file, folders, set);
  const { source, results, outdated, remark } = asked;
  const page = pageOf(asked);
  if (outdated !== undefined) {
    printRemarks([
      `${outdated} holds results of another state of this case, or of other settings: the page begins where the case says, not at their pick.`,
    ]);
  }
  if (remark !== undefined) printRemarks([remark]);
  if (out === undefined && results !== undefined) {
    const hold = holdFolder(results);
    try {
      printRemarks([...hold.remarks, ...hold.add({ [PAGE_FILE]: page })]);
    } finally {
      hold.free();
    }
    return join(results, PAGE_FILE);
  }
  const target = out ?? join(folders, `${source.name}-${PAGE_FILE}`);
  writeAlone(target, page);
  return target;
}

/**
 * Writes the page of a case, without a case the one that begins with its questions, and opens it where that can be.
 * @returns exit code
 * @throws Stop, ResultsError, BadInputError
 */
export function runShow(file: string | undefined, options: ShowOptions): number {
  if (file === undefined && (options.set ?? []).length > 0)
    return stop('--set changes a case, and none was named. Name the case file before it.', BAD_INPUT);
  let target: string;
  try {
    target = writePage(file, options);
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (code === undefined) throw error;
    return stop(`The page could not be written (${code}). Choose another place with --out.`, FAULT);
  }
  const address = pathToFileURL(resolve(target)).href;
  process.stdout.write(`${target}\n${address}\n`);
  if (options.open) openPage(address);
  return DONE;
}
