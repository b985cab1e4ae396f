#!/usr/bin/env node
import { Command, InvalidArgumentError } from '@commander-js/extra-typings';
import type { Case, Setting } from '@tubgap/casefile';
import { openCase, readSetting } from '@tubgap/casefile/node';
import { planFirstTest } from '@tubgap/evidence';
import { ResultsError, writeResults } from '@tubgap/results';
import { caseSetup } from '@tubgap/simulation';
import { csvText } from '@tubgap/wording';
import { assessElsewhere } from './assessed-case.ts';
import { learnWords } from './learn-words.ts';
import { learn, withEnough } from './learning.ts';
import { isNotWithin, mustStop, type Refusal } from './outcome.ts';
import { outcomeFiles } from './outcome-files.ts';
import { type PlanSubject, planPage, planSheet, planWords } from './plan-words.ts';
import { refusalLines, rejectedLines } from './refusal-words.ts';

/** Exit codes: 0 done, 1 this program's fault, 2 the input, 4 a measured car that must not run or a tub not within what is accepted. */
const BAD_INPUT = 2;
const MUST_NOT_RUN = 4;
const MADE_BY = 'tubgap 0.1.0';
const INCH = 0.0254;

function stop(message: string, code: number): never {
  process.stderr.write(`${message}\n`);
  process.exit(code);
}

function readCase(file: string, set: readonly Setting[]): Case {
  const opened = openCase(file, set);
  if (opened.ok) return opened.source;
  return stop(opened.lines.join('\n'), BAD_INPUT);
}

/** What went wrong, said: refused input, a disk that refuses, or a fault of this program. */
function stopFor(file: string, error: unknown): never {
  if (error instanceof ResultsError) return stop(error.message, 1);
  if (error instanceof RangeError) return stop(`${file}: ${error.message}`, BAD_INPUT);
  const { code, path } = error as NodeJS.ErrnoException;
  if (code === 'ENOENT' || code === 'ENOTDIR') {
    return stop(`${path}: there is no such folder of measurements.`, BAD_INPUT);
  }
  return stop(`${file}: this program failed (${String(error).slice(0, 300)}). Please report it.`, 1);
}

const wholeNumber =
  (least: number, most: number) =>
  (text: string): number => {
    const value = Number(text.replaceAll(',', ''));
    if (!Number.isInteger(value) || value < least || value > most) {
      throw new InvalidArgumentError(`read "${text}"; a whole number from ${least} to ${most} is needed.`);
    }
    return value;
  };

function settingOption(words: string, before: Setting[] = []): Setting[] {
  const setting = readSetting(words);
  if (setting === undefined) {
    throw new InvalidArgumentError(`read "${words}"; path=value is needed, such as "run.trapSpeed=230 mph".`);
  }
  return [...before, setting];
}

function inchesOption(text: string): number {
  const match = /^(\d+(?:\.\d+)?)(?:[ -](\d+)\/(\d+))?(?:\s*in)?$/.exec(text.trim());
  if (match === null) {
    throw new InvalidArgumentError(`read "${text}"; inches such as 39.25 or "39 1/4 in" are needed.`);
  }
  return (Number(match[1]) + (match[2] === undefined ? 0 : Number(match[2]) / Number(match[3]))) * INCH;
}

const SETTING = 'value in place of the file’s, such as "run.trapSpeed=~230 mph"; may be repeated';

const program = new Command()
  .exitOverride((error) => process.exit(error.exitCode === 0 ? 0 : BAD_INPUT))
  .name('tubgap-learner')
  .description('Learns from what a shop measures of its car, and plans a first test.');

program
  .command('learn')
  .description('learn from a folder of measurements and write what it changes')
  .argument('<case>', 'case file (YAML)')
  .requiredOption('--measured <folder>', 'folder with the measurements as CSV files')
  .option('--results <folder>', 'folder that holds the results folders', 'results')
  .option('--draws <number>', 'simulated runs for before and after', wholeNumber(4096, 10_000_000), 40_960)
  .option('--cars <number>', 'simulated cars for the season risk', wholeNumber(64, 1_000_000), 600)
  .option('--seed <number>', 'seed of the random numbers, in place of the case’s', wholeNumber(0, 1e9))
  .option('--set <path=value>', SETTING, settingOption)
  .action(async (file, options) => {
    const source = readCase(file, options.set ?? []);
    try {
      const outcome = await learn(source, options.measured, {
        draws: options.draws,
        cars: options.cars,
        seed: options.seed ?? source.simulation.seed,
        madeBy: MADE_BY,
      });
      const files = await outcomeFiles(outcome, MADE_BY);
      if (files === undefined) {
        const { refusal } = outcome.result as { refusal: Refusal };
        stop([...rejectedLines(outcome.measured), ...refusalLines(refusal)].join('\n'), BAD_INPUT);
      }
      const place = writeResults(options.results, `${source.name}-learned`, files);
      process.stdout.write(learnWords(outcome, place));
      const isStopped = mustStop(outcome.stops) || isNotWithin(outcome.standing);
      process.exitCode = isStopped ? MUST_NOT_RUN : 'learning' in outcome.result ? 0 : BAD_INPUT;
    } catch (error) {
      stopFor(file, error);
    }
  });

program
  .command('plan')
  .description('plan a stepped first test of the car as it is believed now')
  .argument('<case>', 'case file (YAML)')
  .option('--tub <name>', 'tub that is in the car; the pick when left out')
  .option('--tyre <name>', 'tyre that runs; the one that decides the pick when left out')
  .option('--height <inches>', 'top height at which it stands; the pick when left out', inchesOption)
  .option('--results <folder>', 'folder that holds the results folders', 'results')
  .option('--draws <number>', 'simulated runs for the pick', wholeNumber(4096, 10_000_000), 40_960)
  .option('--set <path=value>', SETTING, settingOption)
  .action(async (file, options) => {
    const opened = readCase(file, options.set ?? []);
    const { seed } = opened.simulation;
    const source = withEnough(opened, { draws: options.draws, cars: 600, seed });
    try {
      const named = (list: readonly { name: string }[], asked: string | undefined, what: string) => {
        if (asked === undefined) return undefined;
        const index = list.findIndex(({ name }) => name === asked);
        if (index >= 0) return index;
        const names = list.map(({ name }) => name).join(', ');
        return stop(`--${what} ${asked}: the case has no such ${what}; it has ${names}.`, BAD_INPUT);
      };
      let tub = named(source.tubs, options.tub, 'tub');
      let tyre = named(source.tyres, options.tyre, 'tyre');
      let { height } = options;
      if (tub === undefined || tyre === undefined || height === undefined) {
        const { picks, chosen } = await assessElsewhere(source);
        tub ??= chosen;
        const pick = tub === undefined ? undefined : picks[tub]?.height;
        height ??= pick?.topHeight;
        tyre ??= source.tyres.findIndex(({ name }) => name === (pick?.limitingTyre ?? source.build.tyre));
      }
      if (tub === undefined || height === undefined) {
        const which = 'Say which tub stands how high: --tub NAME --height "39 1/4 in"';
        stop(`${file}: no tub of this case has a height for the accepted risks. ${which}`, BAD_INPUT);
      }
      const plan = planFirstTest(source, tyre, tub, height);
      const subject: PlanSubject = {
        title: source.title,
        invented: source.invented,
        name: source.name,
        runRisk: source.accept.runRisk,
        madeBy: MADE_BY,
        learned: source.learned !== undefined,
        reserve: caseSetup(source).clearance.reserve,
      };
      const place = writeResults(options.results, `${source.name}-first-test`, {
        'first-test.html': planPage(plan, subject),
        'first-test.csv': await csvText(planSheet(plan)),
      });
      process.stdout.write(planWords(plan, subject, place));
    } catch (error) {
      stopFor(file, error);
    }
  });

await program.parseAsync();
