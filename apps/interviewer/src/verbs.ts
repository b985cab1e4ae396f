import type { Command } from '@commander-js/extra-typings';
import { conclude, example } from '@tubgap/casefile/command-line';
import { QUESTION_OPTIONS } from './question-options.ts';

/** An option with an answer, as it was given. */
export interface GivenAnswer {
  flag: string;
  text: string;
}

/** What is done with a case that was written; it is told what the verb was given, options added to it by the front door too. */
export type OnCase = (file: string, given: Readonly<Record<string, unknown>>) => Promise<unknown> | undefined;

/**
 * The verb that makes a case of what a caller knows.
 * @param then  what is done with the case once it stands
 */
export const ask = (then: OnCase) => (program: Command) => {
  const given: GivenAnswer[] = [];
  const command = program
    .command('ask')
    .description(
      'ask what a caller knows of car and tyre, and write a case of it; what nobody knows is assumed and marked so',
    )
    .argument('[folder]', 'folder for the case and its catalogues; left out: named after the car, here')
    .option('--tubs <file>', 'catalogue of the shop’s tubs (CSV); left out: invented tubs, marked so')
    .option('--replace', 'write over a case that is there; left out: it stays, and nothing is written')
    .option('--no-questions', 'ask nothing: what no option tells is not known; so it is where no terminal is')
    .option(
      '--no-answer',
      'write the case and no more; left out: a first answer is told, what each missing answer costs, and which to ask for next',
    );
  for (const { flags, words } of QUESTION_OPTIONS) {
    const flag = flags.slice(0, flags.indexOf(' '));
    command.option(flags, words, (text: string) => {
      given.push({ flag, text });
      return text;
    });
  }
  return command
    .addHelpText(
      'after',
      `
What is not known is left out. Every quantity needs its unit. A second tyre is a second --tyre: what is told of a tyre
belongs to the --tyre before it, and a speed or a time behind a second --tyre is the one on that tyre.
${example(
  'tubgap ask',
  'tubgap ask --tyre 33.5x17.0-16 --build "bias slick" --speed "224 mph" --distance quarter --pick',
  'tubgap ask heron --tyre 33.0x16.5-15 --build "bias slick" --speed "188 mph" --tyre 275/60R15 --build "treaded radial" --speed "165 mph"',
)}`,
    )
    .action((folder, { tubs, replace = false, questions, answer }, { opts }) =>
      conclude('ask', async () => {
        const { runAsk } = await import('./run-ask.ts');
        const file = await runAsk(given, { folder, tubs, replace, questions, answer });
        await then(file, opts.call(command));
        return 0;
      }),
    );
};
