import { Command } from '@commander-js/extra-typings';
import { endingJson } from './ending.ts';
import { BAD_INPUT } from './exit-codes.ts';
import { outliveOutput } from './output.ts';

/** Adds a verb to a program: its words, its options, and what it does. */
export type Mount = (program: Command) => unknown;

/** A command line of verbs: what it cannot read ends it as input to mend. */
export function openProgram(name: string, description: string, verbs: readonly Mount[]): Command {
  const program = new Command()
    .exitOverride((error) => process.exit(error.exitCode === 0 ? 0 : BAD_INPUT))
    .configureOutput({
      outputError: (words, write) => {
        const message = words.trim();
        // Options that cannot be read were not read: only the words themselves say that JSON was asked for.
        if (process.argv.includes('--json')) {
          process.stdout.write(endingJson({ message, exitCode: BAD_INPUT }));
        } else write(words);
      },
    })
    .name(name)
    .description(description);
  for (const mount of verbs) mount(program);
  return program;
}

/** Runs the verb that this process was started with. */
export async function runProgram(program: Command): Promise<void> {
  outliveOutput();
  await program.parseAsync();
}
