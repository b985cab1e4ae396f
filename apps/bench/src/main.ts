#!/usr/bin/env node
import { spawn } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { basename, dirname, join, resolve } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { Command } from '@commander-js/extra-typings';
import { type Case, issueLines, parseCase, type Setting } from '@tubgap/casefile';
import { settingOption } from '@tubgap/casefile/command-line';
import { outliveOutput } from '@tubgap/casefile/output';
import {
  holdFolder,
  holdsResults,
  makeFolder,
  RESULT_FILE,
  ResultsError,
  ResultsRefused,
  readResults,
  writeFileWhole,
} from '@tubgap/results';
import { type Carried, isPage, withCarried } from './carried/carried.ts';
import { textWith, UnwritableError } from './carried/case-text.ts';
import { stillOf } from './still.tsx';

/** Exit codes: 0 done, 1 this program's fault, 2 the input. */
const BAD_INPUT = 2;
/** The page as it is built, with the demo in it. */
const PAGE = new URL('./bench.html', import.meta.url);
/** What the page is called in a results folder; the report links to it by this name. */
const PAGE_FILE = 'at-the-car.html';

function stop(message: string, code: number): never {
  process.stderr.write(`${message}\n`);
  process.exit(code);
}

/** A case with every file that it names, read; ends with what is to mend when it is not sound. */
function readWhole(file: string, set: readonly Setting[]): { source: Case; carried: Carried } {
  const name = basename(file);
  let text: string;
  try {
    text = readFileSync(file, 'utf8');
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    stop(`${file}: cannot be read (${code}). Give the path of a case file.`, BAD_INPUT);
  }
  const files: Record<string, string> = { [name]: text };
  const load = (path: string): string | undefined => {
    try {
      files[path] = readFileSync(join(dirname(file), path), 'utf8');
    } catch {
      return undefined;
    }
    return files[path];
  };
  const read = parseCase({ file, text, load, set });
  if (!read.ok) stop(issueLines(read.issues).join('\n'), BAD_INPUT);
  try {
    files[name] = set.length === 0 ? text : textWith(text, read.value, set);
  } catch (error) {
    if (error instanceof UnwritableError) stop(`--set ${error.message}`, BAD_INPUT);
    throw error;
  }
  return { source: read.value, carried: { file: name, files } };
}

/** The tub to build of finished results as it is set out, where the page then begins; undefined when there is none for this case. */
function pickIn(folder: string, source: Case): Carried['start'] {
  if (!existsSync(join(folder, RESULT_FILE))) return undefined;
  try {
    const result = readResults(folder);
    const pick = result.chosen === null ? undefined : result.picks[result.chosen];
    if (pick?.height === undefined || result.case.name !== source.name) return undefined;
    const { topHeight, limitingTyre } = pick.height;
    return { tub: pick.tub, tyre: limitingTyre, topHeight: result.tolerances?.setOut.topHeight ?? topHeight };
  } catch (error) {
    if (error instanceof ResultsError) return undefined;
    throw error;
  }
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

outliveOutput();

new Command()
  .exitOverride((error) => process.exit(error.exitCode === 0 ? 0 : BAD_INPUT))
  .name('tubgap-bench')
  .description('Writes a page on which the tub of a case can be dragged and the risk seen.')
  .argument('<case>', 'case file (YAML)')
  .option('--results <folder>', 'folder that holds the results folders', 'results')
  .option('--out <file>', `page to write; left out: ${PAGE_FILE} in the case’s results folder`)
  .option('--set <path=value>', 'value in place of the file’s; may be repeated', settingOption)
  .option('--no-open', 'only write the page')
  .action((file, options) => {
    try {
      const { source, carried } = readWhole(file, options.set ?? []);
      const results = join(options.results, source.name);
      const hold = options.out === undefined ? holdFolder(results) : undefined;
      const start = pickIn(results, source);
      const begun = { ...carried, ...(start && { start }) };
      const page = withCarried(readFileSync(fileURLToPath(PAGE), 'utf8'), begun, stillOf(begun));
      const beside = join(options.results, `${source.name}-${PAGE_FILE}`);
      const inResults = hold !== undefined && holdsResults(results, 'pick');
      const target = options.out ?? (inResults ? join(results, PAGE_FILE) : beside);
      if (inResults) {
        const remarks = [...hold.remarks, ...hold.add({ [PAGE_FILE]: page })];
        for (const remark of remarks) process.stderr.write(`${remark}\n`);
      } else writeAlone(target, page);
      hold?.free();
      const address = pathToFileURL(resolve(target)).href;
      process.stdout.write(`${target}\n${address}\n`);
      if (options.open) openPage(address);
    } catch (error) {
      if (error instanceof ResultsError) stop(error.message, error instanceof ResultsRefused ? BAD_INPUT : 1);
      const { code } = error as NodeJS.ErrnoException;
      if (code !== undefined)
        stop(`The page could not be written (${code}). Choose another place with --out.`, 1);
      stop(`${file}: this program failed (${String(error).slice(0, 300)}). Please report it.`, 1);
    }
  })
  .parse();
