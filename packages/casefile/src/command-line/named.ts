import { stop } from './ending.ts';
import { BAD_INPUT } from './exit-codes.ts';

/**
 * Index of the entry of a list that an option names; undefined when it was not given.
 * @param what  name of the option, without dashes, and of what it chooses
 * @throws Stop
 */
export function indexNamed(
  list: readonly { name: string }[],
  asked: string | undefined,
  what: string,
): number | undefined {
  if (asked === undefined) return undefined;
  const names = list.map(({ name }) => name);
  const index = names.indexOf(asked);
  if (index >= 0) return index;
  return stop(`--${what} ${asked}: the case has no such ${what}; it has ${names.join(', ')}.`, BAD_INPUT);
}
