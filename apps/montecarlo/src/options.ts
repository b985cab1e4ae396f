import type { Case, Setting } from '@tubgap/casefile';
import { openCase } from '@tubgap/casefile/node';

/** Exit codes: 0 done, 1 this program's fault, 2 the input, 3 too few draws for the accepted risk, 4 a tub that is not within it. */
export const BAD_INPUT = 2;
export const TOO_FEW = 3;
export const NOT_WITHIN = 4;
export const MADE_BY = 'tubgap 0.1.0';

/** Says why nothing comes of it, and ends. */
export function stop(message: string, code: number): never {
  process.stderr.write(`${message}\n`);
  process.exit(code);
}

/** Reads a case, or ends with all that is to mend in it. */
export function readCase(
  file: string,
  set: readonly Setting[],
): { source: Case; text: string; named: Readonly<Record<string, string>> } {
  const opened = openCase(file, set);
  if (opened.ok) return opened;
  const { lines } = opened;
  const count = lines.length === 1 ? 'One thing' : `${lines.length} things`;
  stop([...lines, `${count} to mend; nothing was run.`].join('\n'), BAD_INPUT);
}
