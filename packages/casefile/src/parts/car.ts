import { antiSquat, axlePathSlope, type CarInput } from '@tubgap/core';
import { centralValue, scaleLaw } from '@tubgap/statistics';
import { formatQuantity } from '@tubgap/units';
import type { UncertainInput } from '../case.ts';
import { TORQUE_ROLL_WITH_BAR } from '../defaults/chassis-inputs.ts';
import { type CarRow, JUDGEMENT } from '../defaults/row.ts';
import { FINISH_ACCELERATION_FACTOR } from '../defaults/run-inputs.ts';
import { carSpec, DEFAULTS, exactOrLawSpec } from '../defaults.ts';
import type { ReadLaw } from '../law.ts';
import type { WrittenCase } from '../schema.ts';
import { type Path, pathText } from '../text/node-place.ts';
import { givenLaw, inputOf, lawAbout, readPrior } from './input.ts';
import type { Ledger } from './ledger.ts';

/** Sections whose fields stand for inputs of other names. */
export const STANDS_FOR: Readonly<Record<string, readonly CarInput[]>> = {
  'aero.rearDownforce': ['downforceArea'],
  'suspension.instantCentre': ['antiSquat', 'axlePathSlope'],
  'suspension.antiRollBar': ['torqueRoll'],
};

/** A car as the case writes it, or as it reads in the class of a tyre. */
export interface WrittenCar {
  written: WrittenCase;
  /** Where its sections stand: in the file itself, or under `tyres[1].class`. */
  at: Path;
  /** Its inputs as far as they are known. */
  inputs: Partial<Record<CarInput, UncertainInput>>;
}

/** What stands in for an input that the case does not give. */
interface StandIn {
  read: ReadLaw;
  source: UncertainInput['source'];
  basis: string;
}

const FORCE = exactOrLawSpec('aero.rearDownforce.force');

/** Rear downforce at one speed as an area: C_z A = 2 F / (ρ v²). */
function downforceArea({ written, at }: WrittenCar, ledger: Ledger): StandIn | undefined {
  const given = written.aero?.rearDownforce;
  if (given === undefined) return undefined;
  const place = [...at, 'aero', 'rearDownforce'];
  const density =
    given.airDensity ?? ledger.assume('aero.rearDownforce.airDensity', [...place, 'airDensity']);
  const force = ledger.law([...place, 'force'], FORCE, given.force);
  const law = scaleLaw(force.law, 2 / (density * given.at ** 2), 0);
  const shown = `from the rear downforce at ${formatQuantity(given.at, 'speed')}: ${force.shown}`;
  return { read: { ...force, law, shown }, source: 'case', basis: ledger.basis(place) };
}

/**
 * What a side-view instant centre says of the links, with wheelbase and height of the centre of gravity at their
 * middle values. Undefined without a centre, or without build.axleHeight.
 */
export function linkGeometry({
  written,
  inputs,
}: WrittenCar): { antiSquat: number; axlePathSlope: number } | undefined {
  const centre = written.suspension?.instantCentre;
  const { axleHeight } = written.build;
  const { wheelbase, cgHeight } = inputs;
  if (centre === undefined || axleHeight === undefined || !wheelbase || !cgHeight) return undefined;
  return {
    antiSquat: antiSquat(centre, centralValue(wheelbase.law), centralValue(cgHeight.law)),
    axlePathSlope: axlePathSlope(centre, axleHeight),
  };
}

function fromLinks(row: CarRow & { name: 'antiSquat' | 'axlePathSlope' }, car: WrittenCar, ledger: Ledger) {
  const geometry = linkGeometry(car);
  if (geometry === undefined) return undefined;
  const read = lawAbout(geometry[row.name], carSpec(row), row.prior.spread);
  const place = ledger.basis([...car.at, 'suspension', 'instantCentre']);
  return {
    read,
    source: 'case' as const,
    basis: `derived from instantCentre, ${place}; spread: ${JUDGEMENT.replace('prior: ', '')}`,
  };
}

function rollWithBar(row: CarRow, { written, at }: WrittenCar, ledger: Ledger): StandIn | undefined {
  const bar = written.suspension?.antiRollBar;
  if (bar === undefined) {
    ledger.note({
      path: pathText([...at, 'suspension', 'antiRollBar']),
      label: 'anti-roll bar at the rear',
      shown: 'none',
      basis: `${JUDGEMENT}; without one the body rolls more`,
    });
  }
  if (!bar) return undefined;
  return { read: readPrior(TORQUE_ROLL_WITH_BAR, carSpec(row)), source: 'assumed', basis: JUDGEMENT };
}

function standIn(row: CarRow, car: WrittenCar, ledger: Ledger): StandIn | undefined {
  const { name } = row;
  if (name === 'downforceArea') return downforceArea(car, ledger);
  if (name === 'antiSquat' || name === 'axlePathSlope') return fromLinks({ ...row, name }, car, ledger);
  return name === 'torqueRoll' ? rollWithBar(row, car, ledger) : undefined;
}

/** Spec of the factor that takes the place of an acceleration at the finish. */
const FACTOR = { kind: 'ratio', min: 0, max: 3, unit: '' } as const;

/** One input of a car: as written, from what stands for it, or from the table of defaults. */
export function carInput(row: CarRow, car: WrittenCar, ledger: Ledger): UncertainInput {
  const place = [...car.at, ...row.path.split('.')];
  const spec = carSpec(row);
  const read = givenLaw(car.written, row.path);
  if (read) return ledger.input(row, spec, read, { place, source: 'case', basis: ledger.basis(place) });
  if (row.name === 'finishAcceleration') {
    const factor = { ...spec, ...FACTOR };
    const law = readPrior(FINISH_ACCELERATION_FACTOR, factor);
    return inputOf(row, factor, law, { path: pathText(place), source: 'assumed', basis: JUDGEMENT });
  }
  const found = standIn(row, car, ledger);
  if (found) {
    const { read: law, ...from } = found;
    return ledger.input(row, spec, law, { place, ...from });
  }
  // What must be given and is not was reported; a place-holder lets the rest of the case be judged.
  const law = row.prior.law ?? { law: 'constant', value: row.prior.range[0], each: row.each };
  return ledger.input(row, spec, readPrior(law, spec), { place, source: 'assumed', basis: row.prior.basis });
}

const GRIP_LOST_TOSS: UncertainInput = {
  path: 'run.gripLost.toss',
  label: 'whether grip is lost in this run',
  group: 'day',
  kind: 'ratio',
  law: { kind: 'uniform', low: 0, high: 1 },
  each: 'run',
  source: 'assumed',
  basis: 'derived: compared with run.gripLost.chance',
  shown: 'uniform, low 0, high 1, new every run',
  floor: 0,
};

/** Every input of the car: from the case, or from the table of defaults. */
export function carInputs(written: WrittenCase, ledger: Ledger): Record<CarInput, UncertainInput> {
  const inputs: Partial<Record<CarInput, UncertainInput>> = { gripLostToss: GRIP_LOST_TOSS };
  // The links ask for wheelbase and centre of gravity, which stand before them in the table.
  for (const row of DEFAULTS.car) inputs[row.name] = carInput(row, { written, at: [], inputs }, ledger);
  return inputs as Record<CarInput, UncertainInput>;
}
