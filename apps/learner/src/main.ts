#!/usr/bin/env node
import { Command } from '@commander-js/extra-typings';
import type { Case, Setting } from '@tubgap/casefile';
import { settingOption, topHeightOption, wholeNumber } from '@tubgap/casefile/command-line';
import { openCase } from '@tubgap/casefile/node';
import { outliveOutput } from '@tubgap/casefile/output';
import { mustStop, type Refusal, refusalWords } from '@tubgap/evidence';
import { buildOf, holdResults, ResultsError, type ResultsHold, ResultsRefused } from '@tubgap/results';
import { INCH } from '@tubgap/units';
import { csvText } from '@tubgap/wording';
import { learnWords } from './learn-words.ts';
import { learn } from './learning.ts';
import { planElsewhere } from './make-plan.ts';
import { isNotWithin } from './outcome.ts';
import { outcomeFiles } from './outcome-files.ts';
import { planPage, planSheet } from './plan-page.ts';
import { noPlanWords, overruling, type PlanSubject, planWords } from './plan-words.ts';
import { folderReader, rejectedLines } from './rejected-words.ts';

/**
 * Exit codes: 0 done, 1 this program's fault, 2 the input, 3 too few draws for the accepted risk, 4 a measured car that
 * must not run or a tub not within what is accepted.
 */
const BAD_INPUT = 2;
const TOO_FEW = 3;
const MUST_NOT_RUN = 4;
/** This program and its build. */
const { madeBy: MADE_BY } = buildOf(new URL(import.meta.url));

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
  if (error instanceof ResultsError)
    return stop(error.message, error instanceof ResultsRefused ? BAD_INPUT : 1);
  if (error instanceof RangeError) return stop(`${file}: ${error.message}`, BAD_INPUT);
  const { code, path } = error as NodeJS.ErrnoException;
  if (code === 'ENOENT' || code === 'ENOTDIR') {
    return stop(`${path}: there is no such folder of measurements.`, BAD_INPUT);
  }
  return stop(`${file}: this program failed (${String(error).slice(0, 300)}). Please report it.`, 1);
}

/** Tells what became of files, a line each, beside what is printed. */
const tell = (remarks: readonly string[]): void => {
  for (const remark of remarks) process.stderr.write(`${remark}\n`);
};

const SETTING = 'value in place of the file’s, such as "run.trapSpeed=~230 mph"; may be repeated';

outliveOutput();

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
    let hold: ResultsHold | undefined;
    try {
      hold = holdResults(options.results, `${source.name}-learned`, { kind: 'learned' });
      tell(hold.remarks);
      const outcome = await learn(source, options.measured, {
        draws: options.draws,
        cars: options.cars,
        seed: options.seed ?? source.simulation.seed,
        madeBy: MADE_BY,
        place: hold.place,
      });
      const files = await outcomeFiles(outcome, MADE_BY);
      if (files === undefined) {
        const { refusal } = outcome.result as { refusal: Refusal };
        hold.free();
        const { why } = refusalWords(refusal, folderReader(outcome.measured));
        stop([...rejectedLines(outcome.measured), ...why].join('\n'), BAD_INPUT);
      }
      tell(hold.write(files, 'tubgap learn'));
      process.stdout.write(learnWords(outcome, hold.place));
      const isStopped = mustStop(outcome.stops) || isNotWithin(outcome.standing);
      process.exitCode = isStopped ? MUST_NOT_RUN : 'learning' in outcome.result ? 0 : BAD_INPUT;
    } catch (error) {
      stopFor(file, error);
    } finally {
      hold?.free();
    }
  });

/** The command that a plan was asked for by; a height in inches to a hundredth. */
function planAsked(given: { tub?: string; tyre?: string; height?: number; overrule?: string }): string {
  const { tub, tyre, height, overrule } = given;
  const words = Object.entries({
    tub,
    tyre,
    height: height && `"${(height / INCH).toFixed(2)} in"`,
    overrule: overrule && JSON.stringify(overrule),
  });
  return ['tubgap plan', ...words.flatMap(([name, word]) => (word ? [`--${name} ${word}`] : []))].join(' ');
}

program
  .command('plan')
  .description('judge the tub in the car, and plan a stepped first test of the car as it is believed now')
  .argument('<case>', 'case file (YAML)')
  .option('--tub <name>', 'tub that is in the car; the pick when left out')
  .option('--tyre <name>', 'tyre that runs; the one that asks for the most height when left out')
  .option('--height <inches>', 'top height at which it stands; as set out when left out', topHeightOption)
  .option('--overrule <words>', 'who plans for a tub that is not within what is accepted, and why')
  .option('--results <folder>', 'folder that holds the results folders', 'results')
  .option('--draws <number>', 'simulated runs, in place of the case’s', wholeNumber(4096, 10_000_000))
  .option('--set <path=value>', SETTING, settingOption)
  .action(async (file, options) => {
    const source = readCase(file, options.set ?? []);
    source.simulation.draws = options.draws ?? source.simulation.draws;
    let hold: ResultsHold | undefined;
    try {
      const named = (list: readonly { name: string }[], asked: string | undefined, what: string) => {
        if (asked === undefined) return undefined;
        const index = list.findIndex(({ name }) => name === asked);
        if (index >= 0) return index;
        const names = list.map(({ name }) => name).join(', ');
        return stop(`--${what} ${asked}: the case has no such ${what}; it has ${names}.`, BAD_INPUT);
      };
      const asked = planAsked(options);
      hold = holdResults(options.results, `${source.name}-first-test`, { kind: 'first test', asked });
      tell(hold.remarks);
      const overruled = overruling(options.overrule);
      const made = await planElsewhere({
        source,
        asked: { tub: named(source.tubs, options.tub, 'tub'), topHeight: options.height },
        tyre: named(source.tyres, options.tyre, 'tyre'),
        isOverruled: overruled !== undefined,
      });
      if (made === undefined) {
        const which = 'Say which tub stands how high: --tub NAME --height "39 1/4 in"';
        stop(`${file}: there is no pick to plan for at the accepted risks. ${which}`, BAD_INPUT);
      }
      const { judged, plan } = made;
      const { standing } = judged.verdict;
      const subject: PlanSubject = {
        title: source.title,
        invented: source.invented,
        name: source.name,
        madeBy: MADE_BY,
        learned: source.learned !== undefined,
        reserve: source.build.reserve,
        runsPerSeason: source.tyres.reduce((sum, tyre) => sum + tyre.runsPerSeason, 0),
        overruled: standing === 'within' ? undefined : overruled,
      };
      if (plan === undefined) {
        stop(noPlanWords(judged, subject), standing === 'not known' ? TOO_FEW : BAD_INPUT);
      }
      const files = {
        'first-test.html': planPage(plan, judged, subject),
        'first-test.csv': await csvText(planSheet(plan, judged, subject)),
      };
      tell(hold.write(files, asked));
      process.stdout.write(planWords(plan, judged, subject, hold.place));
    } catch (error) {
      stopFor(file, error);
    } finally {
      hold?.free();
    }
  });

await program.parseAsync();
