import type { CarInput } from '@tubgap/core';
import { centralValue } from '@tubgap/statistics';
import type { Case, UncertainInput } from '../case.ts';
import { DEFAULTS } from '../defaults.ts';
import type { WrittenCase, WrittenTyre } from '../schema.ts';
import { linkGeometry, type WrittenCar } from './car.ts';
import { type Contradiction, contradiction, takenAsExact } from './contradiction.ts';
import { given } from './input.ts';
import type { ListedTyre } from './tyre.ts';
import { carOfClass } from './tyre-class.ts';

/** A car to judge: its fields as the case or a class gives them, the car that they make, and its inputs. */
interface JudgedCar extends WrittenCar {
  own: WrittenCase | NonNullable<WrittenTyre['class']>;
  inputs: Record<CarInput, UncertainInput>;
}

/** Of two ways to give the rear downforce, one at most. */
function downforceTwice({ own, at }: JudgedCar): Contradiction[] {
  if (!given(own, 'aero.downforceArea') || !given(own, 'aero.rearDownforce')) return [];
  const reason = 'downforceArea is given as well; keep one of the two';
  return [contradiction([...at, 'aero', 'rearDownforce'], reason)];
}

/** By how much anti-squat and axle path may differ from what the instant centre gives before it is worth a word. */
const LINK_TOLERANCE = { antiSquat: 0.1, axlePathSlope: 0.03 } as const;

function linkFaults(car: JudgedCar): Contradiction[] {
  if (!given(car.own, 'suspension.instantCentre')) return [];
  const path = [...car.at, 'suspension', 'instantCentre'];
  const geometry = linkGeometry(car);
  if (geometry === undefined) {
    const reason = 'it needs build.axleHeight, the height of the axle above the track at rest';
    return [contradiction(path, reason, undefined, 'missing')];
  }
  return (['antiSquat', 'axlePathSlope'] as const).flatMap((name): Contradiction[] => {
    const used = centralValue(car.inputs[name].law);
    if (Math.abs(used - geometry[name]) <= LINK_TOLERANCE[name]) return [];
    const reason = `it gives ${name} ${geometry[name].toFixed(2)}, the case says ${used.toFixed(2)}`;
    const hint = "The case's own number is used; measure the links again or leave one of the two out";
    return [{ ...contradiction(path, reason, hint), severity: 'warning' }];
  });
}

function exactInEveryRun({ own, at }: JudgedCar): Contradiction[] {
  const ofRun = DEFAULTS.car.filter((row) => row.each === 'run');
  return ofRun.flatMap(({ path }) => takenAsExact([...at, ...path.split('.')], own, path));
}

/** Contradictions of the car, and of what it becomes in the class of each tyre. */
export function carFaults(
  written: WrittenCase,
  { car }: Case,
  tyres: readonly ListedTyre[],
): Contradiction[] {
  const classes = tyres.flatMap((tyre): JudgedCar[] => {
    const own = written.tyres[tyre.index]?.class;
    const its = carOfClass(written, tyre.index, { ...car, ...tyre.car });
    return own && its ? [{ ...its, own }] : [];
  });
  const all: JudgedCar[] = [{ written, at: [], inputs: car, own: written }, ...classes];
  return all.flatMap((each) => [...downforceTwice(each), ...linkFaults(each), ...exactInEveryRun(each)]);
}
