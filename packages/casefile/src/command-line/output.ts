/**
 * Lets a command outlive its output: a reader that has gone (EPIPE, as `| head` does) hides what is left and no more;
 * output that cannot be written is said and ends in 1, once all else is done.
 */
export function outliveOutput(): void {
  process.stderr.on('error', () => undefined);
  process.stdout.on('error', ({ code }: NodeJS.ErrnoException) => {
    if (code === 'EPIPE') return;
    process.exitCode = 1;
    process.stderr.write(
      `What is printed here could not be written (${code}). Free some space, and run again.\n`,
    );
  });
}

/** Prints one JSON document: typed arrays as lists; a number that is none, or has no end, as null. */
export const printJson = (what: unknown): void =>
  void process.stdout.write(
    `${JSON.stringify(what, (_, value) => (ArrayBuffer.isView(value) ? Array.from(value as Float64Array) : value), 2)}\n`,
  );
