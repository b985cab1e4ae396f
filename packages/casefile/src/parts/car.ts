import { antiSquat, axlePathSlope, type CarInput } from '@tubgap/core';
import { centralValue, scaleLaw } from '@tubgap/uncertainty';
import type { UncertainInput } from '../case.ts';
import { TORQUE_ROLL_WITH_BAR } from '../defaults/chassis-inputs.ts';
import { type CarRow, JUDGEMENT } from '../defaults/row.ts';
import { FINISH_ACCELERATION_FACTOR } from '../defaults/run-inputs.ts';
import { carSpec, DEFAULTS } from '../defaults.ts';
import type { ReadLaw } from '../law.ts';
import type { WrittenCase } from '../schema.ts';
import { formatQuantity } from '../units.ts';
import { type Basis, exactDefault, givenLaw, inputOf, lawAbout, readPrior } from './input.ts';

/** What stands in for an input that the case does not give. */
interface StandIn {
  read: ReadLaw;
  source: UncertainInput['source'];
  basis: string;
}

/** Rear downforce at one speed as an area: C_z A = 2 F / (ρ v²). */
function downforceArea(written: WrittenCase, basis: Basis): StandIn | undefined {
  const given = written.aero.rearDownforce;
  if (given === undefined) return undefined;
  const density = given.airDensity ?? exactDefault('aero.rearDownforce.airDensity');
  const law = scaleLaw(given.force.law, 2 / (density * given.at ** 2), 0);
  const shown = `from the rear downforce at ${formatQuantity(given.at, 'speed')}: ${given.force.shown}`;
  return { read: { ...given.force, law, shown }, source: 'case', basis: basis(['aero', 'rearDownforce']) };
}

/** Middle of an input's law, from the case or from the table. */
function middleOf(name: CarInput, written: WrittenCase): number {
  const row = DEFAULTS.car.find((candidate) => candidate.name === name)!;
  const read = givenLaw(written, row.path) ?? readPrior(row.prior.law!, carSpec(row));
  return centralValue(read.law);
}

/**
 * What a side-view instant centre says of the links, with wheelbase and height of the centre of gravity at their
 * middle values. Undefined without a centre, or without build.axleHeight.
 */
export function linkGeometry(written: WrittenCase): { antiSquat: number; axlePathSlope: number } | undefined {
  const centre = written.suspension?.instantCentre;
  const { axleHeight } = written.build;
  if (centre === undefined || axleHeight === undefined) return undefined;
  return {
    antiSquat: antiSquat(centre, middleOf('wheelbase', written), middleOf('cgHeight', written)),
    axlePathSlope: axlePathSlope(centre, axleHeight),
  };
}

function fromLinks(
  row: CarRow & { name: 'antiSquat' | 'axlePathSlope' },
  written: WrittenCase,
  basis: Basis,
) {
  const geometry = linkGeometry(written);
  if (geometry === undefined) return undefined;
  const read = lawAbout(geometry[row.name], carSpec(row), row.prior.spread!);
  const place = basis(['suspension', 'instantCentre']);
  return {
    read,
    source: 'case' as const,
    basis: `derived from instantCentre, ${place}; spread: ${JUDGEMENT.replace('prior: ', '')}`,
  };
}

function standIn(row: CarRow, written: WrittenCase, basis: Basis): StandIn | undefined {
  const { name } = row;
  if (name === 'downforceArea') return downforceArea(written, basis);
  if (name === 'antiSquat' || name === 'axlePathSlope') return fromLinks({ ...row, name }, written, basis);
  if (name === 'torqueRoll' && written.suspension?.antiRollBar) {
    return { read: readPrior(TORQUE_ROLL_WITH_BAR, carSpec(row)), source: 'assumed', basis: JUDGEMENT };
  }
  return undefined;
}

/** Spec of the factor that takes the place of an acceleration at the finish. */
const FACTOR = { kind: 'ratio', min: 0, max: 3, unit: '' } as const;

function carInput(row: CarRow, written: WrittenCase, basis: Basis): UncertainInput {
  const { path } = row;
  const spec = carSpec(row);
  const read = givenLaw(written, path);
  if (read) return inputOf(row, spec, read, { path, source: 'case', basis: basis(path.split('.')) });
  if (row.name === 'finishAcceleration') {
    const factor = { ...spec, ...FACTOR };
    const law = readPrior(FINISH_ACCELERATION_FACTOR, factor);
    return inputOf(row, factor, law, { path, source: 'assumed', basis: JUDGEMENT });
  }
  const found = standIn(row, written, basis);
  if (found) return inputOf(row, spec, found.read, { path, source: found.source, basis: found.basis });
  // What must be given and is not was reported; a place-holder lets the rest of the case be judged.
  const law = row.prior.law ?? { law: 'constant', value: row.prior.range[0], each: row.each };
  return inputOf(row, spec, readPrior(law, spec), { path, source: 'assumed', basis: row.prior.basis });
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
export function carInputs(written: WrittenCase, basis: Basis): Record<CarInput, UncertainInput> {
  const inputs: Partial<Record<CarInput, UncertainInput>> = { gripLostToss: GRIP_LOST_TOSS };
  for (const row of DEFAULTS.car) inputs[row.name] = carInput(row, written, basis);
  return inputs as Record<CarInput, UncertainInput>;
}
