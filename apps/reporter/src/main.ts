#!/usr/bin/env node
import { Command } from '@commander-js/extra-typings';
import type { Case, Setting } from '@tubgap/casefile';
import { settingOption, topHeightOption } from '@tubgap/casefile/command-line';
import { openCase } from '@tubgap/casefile/node';
import { outliveOutput } from '@tubgap/casefile/output';
import { MOMENTS } from '@tubgap/core';
import {
  type FolderHold,
  holdFolder,
  isStudy,
  type Result,
  ResultsError,
  readResults,
  readStudy,
  writeInto,
} from '@tubgap/results';
import { caseSetup, caseState, type RunTyre } from '@tubgap/simulation';
import { formatQuantity, INCH, sixteenths } from '@tubgap/units';
import { csvText } from '@tubgap/wording';
import { decisionText } from './decision.ts';
import { hardPointTable } from './hard-points/hard-tables.ts';
import { yearTable } from './overview/year.ts';
import { yearPage } from './overview/year-page.ts';
import { yearText } from './overview/year-text.ts';
import { revisionText } from './revision/revision.ts';
import { type StateInput, stateJson, stateSheet } from './state/state-sheet.ts';
import { studyFiles, studyWords } from './study/study-report.ts';
import { changesTable, driversTable, measureTable, pickTable, riskTable, sharesTable } from './tables.ts';

/** Exit codes: 0 done, 1 this program's fault, 2 the input. */
const BAD_INPUT = 2;

function stop(message: string, code: number): never {
  process.stderr.write(`${message}\n`);
  process.exit(code);
}

/** What went wrong with a results folder, said; a fault of the program otherwise. */
function stopReading(what: string, error: unknown): never {
  if (error instanceof ResultsError) stop(error.message, BAD_INPUT);
  stop(`${what}: this program failed (${String(error).slice(0, 300)}). Please report it.`, 1);
}

/** Tells what became of files, a line each, beside what is printed. */
const tell = (remarks: readonly string[]): void => {
  for (const remark of remarks) process.stderr.write(`${remark}\n`);
};

/** Does something with a results folder that nobody else writes meanwhile. */
async function holding(place: string, act: (hold: FolderHold) => Promise<void>): Promise<void> {
  const hold = holdFolder(place);
  try {
    tell(hold.remarks);
    await act(hold);
  } finally {
    hold.free();
  }
}

/** Writes the tables and papers of a result and prints the decision. */
async function tellResult(folder: string, json: true | undefined, hold: FolderHold): Promise<void> {
  const result = readResults(folder);
  // Loaded here alone: its writers of PDF and DXF would hold up every other command.
  const { paperFiles } = await import('./papers.ts');
  tell(hold.add({ ...(await tableFiles(result)), ...(await paperFiles(folder, result)) }));
  process.stdout.write(
    json
      ? `${JSON.stringify({ case: result.case, chosen: result.chosen === null ? null : result.picks[result.chosen]!.tub, picks: result.picks }, null, 2)}\n`
      : decisionText(result),
  );
}

async function tableFiles(result: Result): Promise<Record<string, string>> {
  return {
    'risk.csv': await csvText(riskTable(result)),
    'pick.csv': await csvText(pickTable(result)),
    'shares.csv': await csvText(sharesTable(result)),
    'drivers.csv': await csvText(driversTable(result)),
    'hard-points.csv': await csvText(hardPointTable(result)),
    'changes.csv': await csvText(changesTable(result)),
    'measure-next.csv': await csvText(measureTable(result)),
  };
}

/** Writes the tables and pictures of a sweep or comparison and prints what it found. */
async function tellStudy(folder: string, json: true | undefined, hold: FolderHold): Promise<void> {
  const study = readStudy(folder);
  tell(hold.add(await studyFiles(study)));
  const words = studyWords(study);
  process.stdout.write(json ? `${JSON.stringify(study, null, 2)}\n` : words);
}

function readCase(file: string, set: readonly Setting[]): Case {
  const opened = openCase(file, set);
  if (!opened.ok) stop(opened.lines.join('\n'), BAD_INPUT);
  return opened.source;
}

/** Index of a name in a list, the first when none is asked for. */
function indexOf(names: readonly string[], asked: string | undefined, what: string): number {
  if (asked === undefined) return 0;
  const index = names.indexOf(asked);
  if (index < 0)
    stop(`--${what} ${asked}: the case has no such ${what}; it has ${names.join(', ')}.`, BAD_INPUT);
  return index;
}

/** Inputs of a tyre's runs with their middle values. */
function stateInputs(tyre: RunTyre): StateInput[] {
  const row = (input: RunTyre['car'][number], value: number): StateInput => ({
    label: input.label,
    value,
    shown: formatQuantity(value, input.kind),
    source: input.source === 'assumed' ? 'assumed' : input.basis,
  });
  return [
    ...tyre.car.map((input, c) => row(input, tyre.centralCar[c]!)),
    ...tyre.tyre.map((input, c) => row(input, tyre.centralTyre[c]!)),
  ];
}

outliveOutput();

const program = new Command()
  .exitOverride((error) => process.exit(error.exitCode === 0 ? 0 : BAD_INPUT))
  .name('tubgap-reporter')
  .description('Writes tables and papers from a results folder, and shows one state of a case.');

program
  .command('tables')
  .description('write the tables and papers of a results folder and print the decision')
  .argument('<folder>', 'results folder, such as results/winged-door-car')
  .option('--json', 'print the picks as JSON in place of the decision')
  .action(async (folder, options) => {
    try {
      await holding(folder, (hold) =>
        isStudy(folder) ? tellStudy(folder, options.json, hold) : tellResult(folder, options.json, hold),
      );
    } catch (error) {
      stopReading(folder, error);
    }
  });

program
  .command('year')
  .description('write shop-year.csv and shop-year.html from the results folders of several cars')
  .argument('<folders...>', 'results folders')
  .option('--to <folder>', 'folder to write into', '.')
  .action(async (folders, options) => {
    try {
      const cars = folders.map((folder) => ({ folder, result: readResults(folder) }));
      const files = { 'shop-year.csv': await csvText(yearTable(cars)), 'shop-year.html': yearPage(cars) };
      tell(writeInto(options.to, { kind: 'year', asked: 'tubgap year' }, files));
      process.stdout.write(yearText(cars));
    } catch (error) {
      stopReading(folders.join(' '), error);
    }
  });

program
  .command('revision')
  .description('say what changed from one result of a case to another, and what that asks for')
  .argument('<old>', 'results folder of the old result')
  .argument('<new>', 'results folder of the new result')
  .action((before, after) => {
    try {
      process.stdout.write(revisionText(readResults(before), readResults(after)));
    } catch (error) {
      stopReading(`${before} ${after}`, error);
    }
  });

program
  .command('study')
  .description('write the tables and pictures of a sweep or comparison and print what it found')
  .argument('<folder>', 'its folder, such as results/winged-door-car-sweep')
  .option('--json', 'print everything that was found as JSON, SI')
  .action(async (folder, options) => {
    try {
      await holding(folder, (hold) => tellStudy(folder, options.json, hold));
    } catch (error) {
      stopReading(folder, error);
    }
  });

program
  .command('state')
  .description('show one state with every intermediate value, all inputs at their middle values')
  .argument('<case>', 'case file (YAML)')
  .option('--tyre <name>', 'tyre of the case; the first when left out')
  .option('--tub <name>', 'tub of the case; the first when left out')
  .option('--moment <name>', `moment of the run: ${MOMENTS.join(', ')}`, 'finish')
  .option(
    '--height <inches>',
    'top height above the track; the lowest that clears at rest plus 6 in when left out',
    topHeightOption,
  )
  .option(
    '--set <path=value>',
    'value in place of the file’s, such as "run.trapSpeed=230 mph"; may be repeated',
    settingOption,
  )
  .option('--json', 'SI values as JSON')
  .action((file, options) => {
    const source = readCase(file, options.set ?? []);
    const moment = MOMENTS.find((name) => name === options.moment);
    if (moment === undefined) {
      stop(
        `--moment ${options.moment}: there is no such moment; there are ${MOMENTS.join(', ')}.`,
        BAD_INPUT,
      );
    }
    const tyre = indexOf(
      source.tyres.map((row) => row.name),
      options.tyre,
      'tyre',
    );
    const tub = indexOf(
      source.tubs.map((row) => row.name),
      options.tub,
      'tub',
    );
    try {
      const setup = caseSetup(source);
      const topHeight = options.height ?? setup.lowestHeights[tub]! + 6 * INCH;
      const state = caseState(setup, { tyre, tub, topHeight, moment });
      const heading = {
        title: `${source.title}${source.invented ? ' [an invented car]' : ''}`,
        tyre: source.tyres[tyre]!.name,
        tub: source.tubs[tub]!.name,
        moment,
        topHeight,
        inputs: stateInputs(setup.tyres[tyre]!),
      };
      process.stdout.write(
        options.json ? `${JSON.stringify(stateJson(heading, state), null, 2)}\n` : stateSheet(heading, state),
      );
      if (!Number.isFinite(state.requiredHeight)) {
        process.stderr.write(
          `The tyre fits this tub at no height, ${sixteenths(topHeight, 'down')} included.\n`,
        );
      }
    } catch (error) {
      if (error instanceof RangeError) stop(`${file}: ${error.message}`, BAD_INPUT);
      stop(`${file}: this program failed (${String(error).slice(0, 300)}). Please report it.`, 1);
    }
  });

await program.parseAsync();
