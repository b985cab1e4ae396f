#!/usr/bin/env node
import { spawn } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { Command } from '@commander-js/extra-typings';
import type { Setting } from '@tubgap/casefile';
import { settingOption } from '@tubgap/casefile/command-line';
import { outliveOutput } from '@tubgap/casefile/output';
import { holdFolder, makeFolder, ResultsError, ResultsRefused, writeFileWhole } from '@tubgap/results';
import { type Asked, BadInputError, readAsked } from './asked-case.ts';
import { isPage, withCarried } from './carried/carried.ts';
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

/** What the page is to be made of, or the end with what is to mend in it. */
function askedOf(file: string, folders: string, set: readonly Setting[]): Asked {
  try {
    return readAsked(file, folders, set);
  } catch (error) {
    if (error instanceof BadInputError || error instanceof ResultsError) stop(error.message, BAD_INPUT);
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
  .argument(
    '<case>',
    'case file (YAML), or a results folder: the page is then of the case as it was read for them',
  )
  .option('--results <folder>', 'folder that holds the results folders', 'results')
  .option('--out <file>', `page to write; left out: ${PAGE_FILE} in the case’s results folder`)
  .option('--set <path=value>', 'value in place of the file’s; may be repeated', settingOption)
  .option('--no-open', 'only write the page')
  .action((file, options) => {
    try {
      const { source, carried, results, outdated, remark } = askedOf(
        file,
        options.results,
        options.set ?? [],
      );
      const page = withCarried(readFileSync(fileURLToPath(PAGE), 'utf8'), carried, stillOf(carried));
      if (outdated !== undefined) {
        process.stderr.write(
          `${outdated} holds results of another state of this case, or of other settings: the page begins where the case says, not at their pick.\n`,
        );
      }
      if (remark !== undefined) process.stderr.write(`${remark}\n`);
      const beside = join(options.results, `${source.name}-${PAGE_FILE}`);
      const target = options.out ?? (results === undefined ? beside : join(results, PAGE_FILE));
      if (options.out === undefined && results !== undefined) {
        const hold = holdFolder(results);
        try {
          const remarks = [...hold.remarks, ...hold.add({ [PAGE_FILE]: page })];
          for (const remark of remarks) process.stderr.write(`${remark}\n`);
        } finally {
          hold.free();
        }
      } else writeAlone(target, page);
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
