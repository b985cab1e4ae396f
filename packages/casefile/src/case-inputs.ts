import type { Case, UncertainInput } from './case.ts';

/** Every uncertain input of a case: the car's, each tyre's, and the car's where a tyre's class has its own. */
export const everyInput = ({ car, tyres }: Case): UncertainInput[] => [
  ...Object.values(car),
  ...tyres.flatMap((tyre) => [...Object.values(tyre.inputs), ...Object.values(tyre.car ?? {})]),
];

/**
 * A case with each of its inputs changed.
 * @param change  gives what stands in an input's place; it is told the input's name, and of a tyre's own that tyre's,
 *   the same in all its classes
 */
export function withInputs(
  source: Case,
  change: (input: UncertainInput, name: string, tyre?: string) => UncertainInput,
): Case {
  const changed = <Inputs extends Record<string, UncertainInput>>(inputs: Inputs, tyre?: string): Inputs =>
    Object.fromEntries(
      Object.entries(inputs).map(([name, input]) => [name, change(input, name, tyre)]),
    ) as Inputs;
  return {
    ...source,
    car: changed(source.car),
    tyres: source.tyres.map((tyre) => ({
      ...tyre,
      inputs: changed(tyre.inputs, tyre.tyre),
      ...(tyre.car === undefined ? {} : { car: changed(tyre.car) }),
    })),
  };
}
