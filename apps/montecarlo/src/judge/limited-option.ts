import { InvalidArgumentError } from '@commander-js/extra-typings';
import type { Limited } from '@tubgap/simulation';

/** As in simulation/limits/quantities.ts, which is too heavy for a command line to load before it is asked for. */
const NAMES: Readonly<Record<Limited, true>> = {
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
};

const isLimited = (name: string): name is Limited => Object.hasOwn(NAMES, name);

/** Reads a list of what limits are asked of. @throws InvalidArgumentError */
export function limitedOption(text: string): Limited[] {
  const names = text.split(',').map((name) => name.trim());
  return names.map((name) => {
    if (isLimited(name)) return name;
    throw new InvalidArgumentError(`"${name}" is none of ${Object.keys(NAMES).join(', ')}.`);
  });
}
