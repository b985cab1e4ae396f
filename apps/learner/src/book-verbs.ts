import { availableParallelism } from 'node:os';
import type { Command } from '@commander-js/extra-typings';
import {
  BAD_INPUT,
  centreOption,
  conclude,
  example,
  gapOption,
  hubAngleOption,
  RESULTS,
  stop,
  topHeightOption,
  trapSpeedOption,
  WORKERS,
  wholeNumber,
} from '@tubgap/casefile/command-line';

const FOLDER = ['<folder>', 'folder of the book'] as const;

/** Kinds of entries as an option names them; the evidence package knows what each must have. */
const ENTRIES = 'runs, gap, tyre, tub, "looked into"';

/** A range of speeds: 'from to', or one. */
function speedsOf(text: string): { low: number; high: number } {
  const [low, high = low] = text.split(/\s+to\s+/).map((part) => trapSpeedOption(part));
  return { low: low!, high: high! };
}

const given = <Value>(values: Readonly<Record<string, Value | undefined>>): Record<string, Value> =>
  Object.fromEntries(Object.entries(values).filter(([, value]) => value !== undefined)) as Record<
    string,
    Value
  >;

/** The verb of the shop's book: every car teaches the next. */
export const book = (program: Command) => {
  const own = program
    .command('book')
    .description("keep the shop's book: its cars, their runs and marks; learn from all of them at once");
  own
    .command('new')
    .description('begin a book in a folder')
    .argument(...FOLDER)
    .requiredOption('--name <name>', 'short name of the shop: small letters, digits, hyphens; must be given')
    .option('--builder <words>', 'who sets its tubs out; left out: not known')
    .option('--tape <words>', 'the tape that its tyres are measured with; left out: not known')
    .option('--invented', 'the shop is made up; left out: it is not')
    .action((folder, options) =>
      conclude(folder, async () => (await import('./book/run-book.ts')).runNew(folder, options)),
    );
  own
    .command('add')
    .description('add a car: its case file, what that names, and what was measured of it')
    .argument(...FOLDER)
    .argument('<case>', 'case file (YAML)')
    .option('--name <name>', 'name of the car in the book; left out: the case’s')
    .option('--measured <folder>', 'folder with its measurements as CSV files; left out: none yet')
    .action((folder, file, options) =>
      conclude(file, async () => (await import('./book/run-book.ts')).runAdd(folder, file, options)),
    );
  own
    .command('enter')
    .description(
      'enter what happened to a car on a day: runs with or without a mark, a gap, a new tyre, a moved tub',
    )
    .argument(...FOLDER)
    .argument('<car>', 'its name in the book')
    .requiredOption('--entry <kind>', `what it is: ${ENTRIES}; must be given`)
    .requiredOption('--date <day>', 'day, as 2026-05-02; must be given')
    .option('--tyre <name>', 'tyre that ran, or that was put on; left out: none is named')
    .option('--batch <words>', 'its compound batch or date code; left out: not known')
    .option('--tub <name>', 'tub in the car; left out: as the last entry of a tub says')
    .option(
      '--top <length>',
      'its inside top above the track; left out: as the last entry says',
      topHeightOption,
    )
    .option(
      '--centre <length>',
      'its centre ahead of the axle; left out: as the last entry says',
      centreOption,
    )
    .option('--runs <number>', 'runs made; left out: none', wholeNumber(1, 10_000))
    .option(
      '--speed <speeds>',
      'speed at the finish, as "220 mph to 226 mph"; left out: as the case says',
      speedsOf,
    )
    .option('--mark <words>', 'mark or none, after a look over the whole tub; left out: not looked')
    .option('--angle <angle>', 'hub angle of a gap, forward positive; left out: no gap', hubAngleOption)
    .option('--gap <length>', 'gap measured there; left out: no gap', gapOption)
    .option('--note <words>', 'what else is to be known; left out: nothing')
    .addHelpText(
      'after',
      example(
        'tubgap book enter shop blue-car --entry tub --date 2026-03-01 --tub street-42 --top "39 1/4 in"',
        'tubgap book enter shop blue-car --entry runs --date 2026-05-02 --tyre tall-slick --runs 48 --speed "220 mph to 226 mph" --mark none',
      ),
    )
    .action(
      (folder, car, { entry, date, tyre, batch, tub, mark, note, runs, speed, top, centre, angle, gap }) =>
        conclude(folder, async () => {
          if (entry === 'runs' && mark === undefined) {
            stop(
              '--mark: say mark or none; runs after which nobody looked say nothing. Nothing was written.',
              BAD_INPUT,
            );
          }
          const { runEnter } = await import('./book/run-book.ts');
          return runEnter(folder, car, {
            date,
            kind: entry,
            words: given({ tyre, batch, tub, mark, note }),
            numbers: given({
              runs,
              speed_low: speed?.low,
              speed_high: speed?.high,
              top_height: top,
              centre_forward: centre,
              angle,
              measured: gap,
            }),
          });
        }),
    );
  own
    .command('list')
    .description('list the cars and what is due: marks not looked into, tyres not taped, runs not entered')
    .argument(...FOLDER)
    .action((folder) => conclude(folder, async () => (await import('./book/run-book.ts')).runList(folder)));
  own
    .command('learn')
    .description(
      'learn from all cars at once: priors for the next car, what each car learned, who stands apart',
    )
    .argument(...FOLDER)
    .option(...RESULTS)
    .option('--seed <number>', 'seed of the random numbers; left out: 1', wholeNumber(0, 2 ** 29))
    .option(...WORKERS)
    .option('--json', 'print what was found as JSON in SI; left out: in words')
    .addHelpText('after', example('tubgap book learn shop'))
    .action((folder, { workers = availableParallelism(), ...options }) =>
      conclude(folder, async () =>
        (await import('./book/run-learn-book.ts')).runLearnBook(folder, { workers, ...options }),
      ),
    );
  return own;
};
