import type { Construction } from '@tubgap/core';
import type { CaseTyre } from '../case.ts';
import { DEFAULTS, type InputSpec, tyreSpec } from '../defaults.ts';
import { uncertain } from '../law.ts';
import { readQuantity } from '../quantity.ts';
import { type Fault, faultsOf } from '../schema-issue.ts';
import type { Path } from '../text/node-place.ts';

/** The part of the file, as YAML gave it, that is read a second time. */
export interface WrittenNumbers {
  build: Record<string, unknown>;
  tyres: Record<string, unknown>[];
}

const TYRE_WORDS: Readonly<Record<Construction, string>> = { bias: 'a bias tyre', radial: 'a radial' };

/**
 * Numbers of a tyre that its own construction does not allow: the schema alone cannot know that 20 psi, fine for a
 * radial, is too much for a slick. `index` is the tyre's position in the case's list.
 */
export function constructionFaults(raw: WrittenNumbers, tyre: CaseTyre, index: number): Fault[] {
  const entry = raw.tyres[index] ?? {};
  const within = (name: string, label?: string): InputSpec => {
    const row = DEFAULTS.tyre.find((candidate) => candidate.name === name)!;
    const its = `${label ?? row.label} of ${TYRE_WORDS[tyre.construction]}`;
    return { ...tyreSpec(row, tyre.construction), label: its };
  };
  const inputs = DEFAULTS.tyre.flatMap(({ name, prior }): Fault[] => {
    if (entry[name] === undefined || new Set(Object.values(prior)).size === 1) return [];
    const read = uncertain(within(name)).safeParse(entry[name], { reportInput: true });
    return (read.error?.issues ?? [])
      .flatMap(faultsOf)
      .map((fault) => ({ ...fault, path: ['tyres', index, name, ...fault.path] }));
  });
  const exact = (path: Path, value: unknown, label: string): Fault[] => {
    const read = value === undefined ? undefined : readQuantity(value, within('coldPressure', label));
    return read === undefined || read.ok ? [] : [{ path, at: 'value', problem: read.problem }];
  };
  const isBuildTyre = raw.build.tyre === tyre.tyre;
  return [
    ...inputs,
    ...exact(['tyres', index, 'referencePressure'], entry.referencePressure, 'reference pressure'),
    ...exact(['build', 'pressure'], isBuildTyre ? raw.build.pressure : undefined, 'build pressure'),
  ];
}
