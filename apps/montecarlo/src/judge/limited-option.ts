import { InvalidArgumentError } from '@commander-js/extra-typings';
import type { Limited } from '@tubgap/simulation';

/** What a limit can be asked of: a number of the case, or which tyre of its catalogue. */
export type Asked = Limited | 'tyre';

/** As in simulation/limits/quantities.ts, which is too heavy for a command line to load before it is asked for. */
const NAMES: Readonly<Record<Asked, true>> = {
  speed: true,
  launch: true,
  pressure: true,
  spring: true,
  stop: true,
  travel: true,
  mass: true,
  reserve: true,
  diameter: true,
  runs: true,
  tyre: true,
};

const isLimited = (name: string): name is Asked => Object.hasOwn(NAMES, name);

/** Reads a list of what limits are asked of. @throws InvalidArgumentError */
export function limitedOption(text: string): Asked[] {
  const names = text.split(',').map((name) => name.trim());
  return names.map((name) => {
    if (isLimited(name)) return name;
    throw new InvalidArgumentError(`"${name}" is none of ${Object.keys(NAMES).join(', ')}.`);
  });
}
