import type { Case, CaseTyre } from '@tubgap/casefile';
import type { StudySetup } from '../study/study-point.ts';
import { type Limited, limitQuantities } from './quantities.ts';

/** A number of the case at one value, or another tyre in the place of the one that asks for the most height. */
export type Trial = { code: Limited; value: number } | { tyre: CaseTyre };

/** Some values of a case's numbers, each by itself, told by what they are: a case is long to hand over. */
export interface Trials {
  /** Indices of the tub that stands, and of the tyre that asks for the most height in it. */
  tub: number;
  tyre: number;
  trials: readonly Trial[];
}

/** The case with one of its tubs alone. */
export const inTub = (source: Case, tub: number): Case => ({ ...source, tubs: [source.tubs[tub]!] });

/** Another tyre in the class of one, with what that class sets for its runs. */
function inClassOf(own: CaseTyre, tyre: CaseTyre): CaseTyre {
  const { runsPerSeason, car, own: numbers } = own;
  const { coldPressure, airHeating, rideHeightChange } = own.inputs;
  const { car: _, own: __, ...bare } = tyre;
  return {
    ...bare,
    name: tyre.tyre + own.name.slice(own.tyre.length),
    runsPerSeason,
    inputs: { ...tyre.inputs, coldPressure, airHeating, rideHeightChange },
    ...(car ? { car } : {}),
    ...(numbers ? { own: numbers } : {}),
  };
}

/** The case with another tyre in the place of one, in every class of it; the tub's place stays as it was measured. */
function withTyre(source: Case, index: number, tyre: CaseTyre): Case {
  const { build, tyres } = source;
  const gone = tyres[index]!;
  const put = tyres.map((one, i) =>
    i === index ? tyre : one.tyre === gone.tyre ? inClassOf(one, tyre) : one,
  );
  const builds = tyres.findIndex(({ name }) => name === build.tyre);
  return { ...source, build: { ...build, tyre: put[builds]!.name }, tyres: put };
}

/** The setups of some trials: first the case as it stands, in that tub alone. */
export function trialSetups(source: Case, { tub, tyre, trials }: Trials): StudySetup[] {
  const only = inTub(source, tub);
  const quantities = limitQuantities(only, tyre);
  return [
    { label: source.name, source: only },
    ...trials.map((trial): StudySetup => {
      if ('tyre' in trial) return { label: trial.tyre.name, source: withTyre(only, tyre, trial.tyre) };
      const { code, value } = trial;
      const quantity = quantities.find((one) => one.code === code);
      if (quantity === undefined) throw new RangeError(`${code}: the case has no such number to move`);
      return { label: `${quantity.path} at ${value}`, source: quantity.at(value) };
    }),
  ];
}
