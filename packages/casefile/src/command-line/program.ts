import { Command } from '@commander-js/extra-typings';
import { BAD_INPUT } from './exit-codes.ts';
import { outliveOutput } from './output.ts';

/** Adds a verb to a program: its words, its options, and what it does. */
export type Mount = (program: Command) => unknown;

/** A command line of verbs: what it cannot read ends it as input to mend. */
export function openProgram(name: string, description: string, verbs: readonly Mount[]): Command {
  const program = new Command()
    .exitOverride((error) => process.exit(error.exitCode === 0 ? 0 : BAD_INPUT))
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
