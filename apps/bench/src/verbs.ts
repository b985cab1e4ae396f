import type { Command } from '@commander-js/extra-typings';
import { conclude, example, RESULTS, SET } from '@tubgap/casefile/command-line';

/** The verb that puts a case into the page for the car. */
export const show = (program: Command) =>
  program
    .command('show')
    .description('write and open a page on which the tub can be dragged and the risk seen; it works offline')
    .argument(
      '[case]',
      'case file (YAML), or a results folder of a case, such as results/mycar; left out: the page begins with its questions, for a call',
    )
    .option(...RESULTS)
    .option(
      '--out <file>',
      'file to write the page to; left out: at-the-car.html in the case’s results folder, without a case on-the-phone.html',
    )
    .option(...SET)
    .option('--no-open', 'only write the page; left out: open it too, where that can be')
    .addHelpText('after', example('tubgap show', 'tubgap show mycar.yaml', 'tubgap show results/mycar'))
    .action((file, options) =>
      conclude(file ?? 'the page', async () => {
        const { runShow } = await import('./run-show.ts');
        return runShow(file, options);
      }),
    );
