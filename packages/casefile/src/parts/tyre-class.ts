import type { CarInput } from '@tubgap/core';
import { centralValue, relocateLaw } from '@tubgap/statistics';
import { formatQuantity } from '@tubgap/units';
import type { Case, CaseTyre, ClassNumbers, UncertainInput } from '../case.ts';
import { DEFAULTS } from '../defaults.ts';
import type { WrittenCase, WrittenTyre } from '../schema.ts';
import { type Path, pathText } from '../text/node-place.ts';
import { carInput, STANDS_FOR, type WrittenCar } from './car.ts';
import { given } from './input.ts';
import type { Ledger } from './ledger.ts';

type WrittenClass = NonNullable<WrittenTyre['class']>;
type Inputs = Record<CarInput, UncertainInput>;

const changes = (its: WrittenClass, ...paths: string[]): boolean =>
  paths.some((path) => given(its, path) !== undefined);

/** Whether the anti-squat comes from links and lengths of which a class changes some. */
const changesLinks = (written: WrittenCase, its: WrittenClass): boolean =>
  changes(its, 'car.wheelbase', 'car.cgHeight') &&
  given(written, 'suspension.instantCentre') !== undefined &&
  given(written, 'suspension.antiSquat') === undefined;

/** Rows of the car's inputs that a class changes, by name or through what stands for them. */
function changedRows(written: WrittenCase, its: WrittenClass) {
  const through = Object.keys(STANDS_FOR).filter((path) => given(its, path) !== undefined);
  const names: CarInput[] = through.flatMap((path) => STANDS_FOR[path] ?? []);
  if (changesLinks(written, its)) names.push('antiSquat');
  if (changes(its, 'car.mass', 'car.rearShare')) names.push('addedMass');
  return DEFAULTS.car.filter(({ path, name }) => given(its, path) !== undefined || names.includes(name));
}

/** A section with what a class gives in place of the case's own; what the class changes otherwise is left open. */
function overlaid<Section extends object>(
  section: Section,
  change: Partial<Section> | undefined,
  open: readonly string[],
): Section {
  const kept = Object.entries(section).filter(([field]) => !open.includes(field));
  const changes = Object.entries(change ?? {}).filter(([, value]) => value !== undefined);
  return Object.fromEntries([...kept, ...changes]) as Section;
}

/** The car as it reads in the class of a tyre; undefined for a tyre without one. */
export function carOfClass(
  written: WrittenCase,
  index: number,
  inputs: Inputs,
): (WrittenCar & { inputs: Inputs; changed: readonly CarInput[] }) | undefined {
  const its = written.tyres[index]?.class;
  if (its === undefined) return undefined;
  const rows = changedRows(written, its);
  const open = rows.map(({ path }) => path.slice(path.lastIndexOf('.') + 1));
  const { run } = written;
  const gripLost = overlaid(run.gripLost ?? {}, its.run?.gripLost, open);
  return {
    written: {
      ...written,
      car: overlaid(written.car, its.car, []),
      weather: overlaid(written.weather ?? {}, its.weather, []),
      build: overlaid(written.build, its.build, []),
      run: { ...overlaid(run, its.run, open), gripLost },
      aero: overlaid(written.aero ?? {}, its.aero, open),
      suspension: overlaid(written.suspension ?? {}, its.suspension, open),
    },
    at: ['tyres', index, 'class'],
    inputs,
    changed: rows.map(({ name }) => name),
  };
}

/** Middle of what the rear axle carries, kg. */
const onRearAxle = ({ mass, rearShare }: Inputs): number =>
  centralValue(mass.law) * centralValue(rearShare.law);

/**
 * What was missing on the rear axle at the build, for a class that carries more there: the place of the tub was set with
 * the car as the case says, and ballast that comes on later lowers the body. Derived from the middle values.
 */
function missingAtBuild(at: Path, inputs: Inputs, ofCase: Inputs): UncertainInput {
  const own = ofCase.addedMass;
  const more = onRearAxle(inputs) - onRearAxle(ofCase);
  const law = relocateLaw(own.law, 1, more, own.floor);
  const shown = `${own.shown}, and ${formatQuantity(more, 'mass')} by this class's mass and rear share`;
  const basis = `derived from ${inputs.mass.path} and ${inputs.rearShare.path}`;
  const path = pathText([...at, 'build', 'addedMass']);
  return { ...own, path, law, shown, source: 'case', basis };
}

/** Exact numbers of the car that a class changes; undefined when there are none. */
export function classNumbers(its: WrittenClass | undefined): Partial<ClassNumbers> | undefined {
  const all = {
    distance: its?.run?.distance,
    gripLostChance: its?.run?.gripLost?.chance,
    reserve: its?.build?.reserve,
    runRisk: its?.accept?.runRisk,
    finishAccelerationIs: given(its, 'run.finishAcceleration') && 'absolute',
  };
  const own = Object.entries(all).filter(([, value]) => value !== undefined);
  return own.length === 0 ? undefined : Object.fromEntries(own);
}

/** The exact numbers of a tyre's class: the case's, with what the class changes. */
export const numbersIn = (
  { distance, finishAccelerationIs, gripLostChance, build, accept }: Case,
  { own }: Pick<CaseTyre, 'own'>,
): ClassNumbers => ({
  distance,
  finishAccelerationIs,
  gripLostChance,
  reserve: build.reserve,
  runRisk: accept.runRisk,
  ...own,
});

/** Inputs of the car that the class of a tyre changes; undefined when there are none. */
export function classInputs(
  written: WrittenCase,
  index: number,
  inputs: Inputs,
  ledger: Ledger,
): Partial<Inputs> | undefined {
  const car = carOfClass(written, index, inputs);
  if (car === undefined || car.changed.length === 0) return undefined;
  const rows = DEFAULTS.car.filter(({ name }) => car.changed.includes(name));
  const own: Inputs = { ...inputs };
  // The links ask for wheelbase and centre of gravity, what was missing for the mass: all stand before them in the table.
  for (const row of rows) {
    const isDerived = row.name === 'addedMass' && given(written.tyres[index]?.class, row.path) === undefined;
    own[row.name] = isDerived
      ? missingAtBuild(car.at, own, inputs)
      : carInput(row, { ...car, inputs: own }, ledger);
  }
  return Object.fromEntries(rows.map(({ name }) => [name, own[name]]));
}
