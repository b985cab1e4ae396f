import { InvalidArgumentError } from '@commander-js/extra-typings';
import type { Case, Setting } from '@tubgap/casefile';
import { openCase, readSetting } from '@tubgap/casefile/node';

/** Exit codes: 0 done, 1 this program's fault, 2 the input, 3 too few draws for the accepted risk, 4 a tub that is not within it. */
export const BAD_INPUT = 2;
export const TOO_FEW = 3;
export const NOT_WITHIN = 4;
export const MADE_BY = 'tubgap 0.1.0';

/** Reads a whole number of a command line. */
export const wholeNumber =
  (least: number, most: number) =>
  (text: string): number => {
    const value = Number(text.replaceAll(',', ''));
    if (!Number.isInteger(value) || value < least || value > most) {
      throw new InvalidArgumentError(`read "${text}"; a whole number from ${least} to ${most} is needed.`);
    }
    return value;
  };

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

/** Collects `--set path=value`, as often as it is given. */
export function settingOption(words: string, before: Setting[] = []): Setting[] {
  const setting = readSetting(words);
  if (setting === undefined) {
    throw new InvalidArgumentError(
      `read "${words}"; path=value is needed, such as "run.trapSpeed=~230 mph".`,
    );
  }
  return [...before, setting];
}
