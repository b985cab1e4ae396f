import type { CarInput } from '@tubgap/core';
import type { UncertainInput } from '../case.ts';
import { DEFAULTS } from '../defaults.ts';
import type { WrittenCase, WrittenTyre } from '../schema.ts';
import { carInput, STANDS_FOR, type WrittenCar } from './car.ts';
import { given } from './input.ts';
import type { Ledger } from './ledger.ts';

type WrittenClass = NonNullable<WrittenTyre['class']>;
type Inputs = Record<CarInput, UncertainInput>;

/** Rows of the car's inputs that a class changes, by name or through what stands for them. */
function changedRows(its: WrittenClass) {
  const through = Object.keys(STANDS_FOR).filter((path) => given(its, path) !== undefined);
  const names = through.flatMap((path) => STANDS_FOR[path] ?? []);
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
  const rows = changedRows(its);
  const open = rows.map(({ path }) => path.slice(path.lastIndexOf('.') + 1));
  const { run } = written;
  const gripLost = overlaid(run.gripLost ?? {}, its.run?.gripLost, open);
  return {
    written: {
      ...written,
      run: { ...overlaid(run, its.run, open), gripLost },
      aero: overlaid(written.aero ?? {}, its.aero, open),
      suspension: overlaid(written.suspension ?? {}, its.suspension, open),
    },
    at: ['tyres', index, 'class'],
    inputs,
    changed: rows.map(({ name }) => name),
  };
}

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
  return Object.fromEntries(rows.map((row) => [row.name, carInput(row, car, ledger)]));
}
