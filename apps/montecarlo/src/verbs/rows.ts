import type { Command } from '@commander-js/extra-typings';
import { InvalidArgumentError } from '@commander-js/extra-typings';
import {
  CASE,
  conclude,
  DRAWS,
  example,
  SEED,
  SET,
  topHeightOption,
  WORKERS,
} from '@tubgap/casefile/command-line';
import { MOST_ANGLES } from '../rows/asked-gaps.ts';
import { FORMATS, type Format } from '../rows/draws-plan.ts';
import { shardOption } from '../shards/shard-choice.ts';

/** Reads '0,30,45': hub angles in degrees. */
function anglesOption(words: string): number[] {
  const angles = words.split(',').map((word) => (word.trim() === '' ? Number.NaN : Number(word)));
  const isSound = angles.every((angle) => Math.abs(angle) <= 120);
  if (isSound && angles.length <= MOST_ANGLES) return angles;
  throw new InvalidArgumentError(
    `read "${words}"; up to ${MOST_ANGLES} hub angles in degrees are needed, from -120 to 120, ahead of the top above 0, such as 0,30,45.`,
  );
}

/** Reads the kind of file. */
function formatOption(word: string): Format {
  const format = FORMATS.find((name) => name === word);
  if (format !== undefined) return format;
  throw new InvalidArgumentError(`read "${word}"; ${FORMATS.join(' or ')} is needed.`);
}

const GAPS = [
  '--gaps <degrees>',
  'hub angles at which the gaps of every run are told too, such as 0,30,45, to a tub at its height; left out: none',
  anglesOption,
] as const;
const GAP_TUB = ['--tub <name>', 'tub that the gaps are to; left out: the only one'] as const;
const GAP_HEIGHT = [
  '--height <length>',
  'inside top of that tub above the track, such as "39 1/4 in"; left out: no gaps are told',
  topHeightOption,
] as const;

/** The verb that writes the draws themselves. */
export const draws = (program: Command) =>
  program
    .command('draws')
    .description(
      'write the simulated runs themselves, a row a run and tyre: every input, its weight, the height it needs',
    )
    .argument(...CASE)
    .option('--to <folder>', 'folder to write into; left out: results/CASE-draws')
    .option('--format <csv|parquet>', 'kind of files; left out: csv', formatOption)
    .option(
      '--weighted',
      'draw from where touches are; each row counts by its weight; left out: plainly, as the laws say',
    )
    .option(...DRAWS)
    .option(...SEED)
    .option(...SET)
    .option(...GAPS)
    .option(...GAP_TUB)
    .option(...GAP_HEIGHT)
    .option(
      '--shard <i/n>',
      'write only every n-th file from the i-th on, for n machines that fill one folder; left out: all',
      shardOption,
    )
    .option(
      '--queue',
      'have the files made by every tubgap work at the queue of REDIS_URL; left out: by this machine',
    )
    .option(...WORKERS)
    .addHelpText(
      'after',
      example(
        'tubgap draws mycar.yaml --draws 1000000 --format parquet',
        'tubgap draws mycar.yaml --weighted --gaps 0,30 --tub street-42 --height "39 1/4 in"',
      ),
    )
    .action((file, options) =>
      conclude(file, async () => {
        const { runDraws } = await import('../rows/run-draws.ts');
        return runDraws(file, options);
      }),
    );

/** The verb that evaluates given points. */
export const evaluate = (program: Command) =>
  program
    .command('evaluate')
    .description(
      'say what runs need that you give: a table of inputs, from a design of experiments or another program',
    )
    .argument(...CASE)
    .requiredOption(
      '--points <table>',
      'CSV, a row a run, a column an input by its path and unit; must be given',
    )
    .option('--to <file>', 'CSV file to write; left out: printed')
    .option(...GAPS)
    .option(...GAP_TUB)
    .option(...GAP_HEIGHT)
    .option(...SET)
    .addHelpText('after', example('tubgap evaluate mycar.yaml --points points.csv --to answers.csv'))
    .action((file, options) =>
      conclude(file, async () => {
        const { runEvaluate } = await import('../rows/run-evaluate.ts');
        return runEvaluate(file, options);
      }),
    );
