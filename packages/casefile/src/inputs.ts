import type { CarInput, TyreInput } from '@tubgap/core';
import { centralValue, scaleLaw } from '@tubgap/uncertainty';
import type { UncertainInput } from './case.ts';
import type { CatalogueTyre } from './catalogue.ts';
import { FINISH_ACCELERATION_FACTOR, TORQUE_ROLL_WITH_BAR } from './defaults/car-inputs.ts';
import { type CarRow, JUDGEMENT, type LawText, type Prior, type TyreRow } from './defaults/row.ts';
import { carSpec, DEFAULTS, exactField, type InputSpec, lawWords, tyreSpec } from './defaults.ts';
import { type ReadLaw, uncertain } from './law-text.ts';
import { readMeasure } from './quantity.ts';
import type { WrittenCase, WrittenTyre } from './schema.ts';
import { formatQuantity } from './units.ts';

/** Says where a value stands: 'case.yaml:14' for a path of the case. */
export type Basis = (path: readonly (string | number)[]) => string;

type Row = Pick<CarRow, 'label' | 'group' | 'kind'>;
type Origin = Pick<UncertainInput, 'path' | 'source' | 'basis'>;

function inputOf(row: Row, spec: Pick<InputSpec, 'min'>, read: ReadLaw, origin: Origin): UncertainInput {
  const { label, group, kind } = row;
  const floor = spec.min >= 0 ? { floor: 0 } : {};
  return { ...origin, label, group, kind, law: read.law, each: read.each, shown: read.shown, ...floor };
}

/** A law of the table; one that cannot be read is a fault of the table, not of the case. */
export function readPrior(law: LawText, spec: InputSpec): ReadLaw {
  return uncertain(spec).parse(law);
}

/** A normal law about a value from elsewhere, with the table's spread: a length or a share of the value. */
function about(value: number, spec: InputSpec, spread: string): ReadLaw {
  const share = readMeasure(spread, 'ratio');
  const own = readMeasure(spread, spec.kind);
  const sd = share.ok
    ? share.value.number * share.value.unit.factor * value
    : own.ok
      ? own.value.number * own.value.unit.factor
      : 0;
  const shown = {
    law: 'normal',
    mean: formatQuantity(value, spec.kind, spec.unit),
    sd: spread,
    each: spec.each,
  };
  return { law: { kind: 'normal', mean: value, sd }, each: spec.each, shown: lawWords(shown) };
}

/** The uncertain number that the case gives at a path such as 'run.bump'; undefined when it gives none. */
export function givenLaw(from: unknown, path: string): ReadLaw | undefined {
  const step = (group: unknown, part: string) => (group as Record<string, unknown> | undefined)?.[part];
  return path.split('.').reduce(step, from) as ReadLaw | undefined;
}

/** Rear downforce at one speed as an area: C_z A = 2 F / (ρ v²). */
function downforceArea(
  aero: WrittenCase['aero'],
  basis: Basis,
): { read: ReadLaw; basis: string } | undefined {
  const given = aero.rearDownforce;
  if (given === undefined) return undefined;
  const density = given.airDensity ?? exactValue('aero.rearDownforce.airDensity');
  const law = scaleLaw(given.force.law, 2 / (density * given.at ** 2), 0);
  const shown = `rear downforce ${given.force.shown}, at ${formatQuantity(given.at, 'speed')}`;
  return { read: { ...given.force, law, shown }, basis: basis(['aero', 'rearDownforce']) };
}

/** Default of an exact number. RangeError when the table has none. */
export function exactValue(path: string): number {
  const row = exactField(path);
  const read = readMeasure(row.value, row.kind);
  if (!read.ok) throw new RangeError(`${path} has no default`);
  return read.value.number * read.value.unit.factor + read.value.unit.offset;
}

const ofCar = (name: CarInput): CarRow => DEFAULTS.car.find((row) => row.name === name)!;

/** Geometry of the links in place of antiSquat and axlePathSlope: AS = h_I L/(d h), slope = (a₀ − h_I)/d. */
export function linkGeometry(written: WrittenCase): { antiSquat: number; axlePathSlope: number } | undefined {
  const centre = written.suspension?.instantCentre;
  const axleHeight = written.build.axleHeight;
  if (centre === undefined || axleHeight === undefined) return undefined;
  const middle = (name: CarInput) => {
    const row = ofCar(name);
    const read = givenLaw(written, row.path);
    return centralValue((read ?? readPrior(row.prior.law!, carSpec(row))).law);
  };
  const antiSquat = (centre.height * middle('wheelbase')) / (centre.ahead * middle('cgHeight'));
  return { antiSquat, axlePathSlope: (axleHeight - centre.height) / centre.ahead };
}

type Found = { read: ReadLaw; source: UncertainInput['source']; basis: string };

/** What stands in for an input that the case does not give, where that is more than the table's own law. */
function standIn(row: CarRow, written: WrittenCase, basis: Basis): Found | undefined {
  const spec = carSpec(row);
  const assumed = (law: LawText, kind: Pick<InputSpec, 'kind' | 'min' | 'max' | 'unit'> = spec): Found => ({
    read: readPrior(law, { ...spec, ...kind }),
    source: 'assumed',
    basis: JUDGEMENT,
  });
  switch (row.name) {
    case 'downforceArea': {
      const area = downforceArea(written.aero, basis);
      return area && { ...area, source: 'case' };
    }
    case 'antiSquat':
    case 'axlePathSlope': {
      const geometry = linkGeometry(written);
      if (geometry === undefined) return undefined;
      const read = about(geometry[row.name], spec, row.prior.spread!);
      const derived = `derived from instantCentre, ${basis(['suspension', 'instantCentre'])}; spread: ${row.prior.basis}`;
      return { read, source: 'case', basis: derived };
    }
    case 'torqueRoll':
      return written.suspension?.antiRollBar ? assumed(TORQUE_ROLL_WITH_BAR) : undefined;
    case 'finishAcceleration':
      return assumed(FINISH_ACCELERATION_FACTOR, { kind: 'ratio', min: 0, max: 3, unit: '' });
    default:
      return undefined;
  }
}

function carInput(row: CarRow, written: WrittenCase, basis: Basis): UncertainInput {
  const spec = carSpec(row);
  const read = givenLaw(written, row.path);
  if (read)
    return inputOf(row, spec, read, { path: row.path, source: 'case', basis: basis(row.path.split('.')) });
  const found = standIn(row, written, basis) ?? {
    read: readPrior(row.prior.law!, spec),
    source: 'assumed' as const,
    basis: row.prior.basis,
  };
  const kind = row.name === 'finishAcceleration' ? { kind: 'ratio' as const } : {};
  const { source, basis: origin } = found;
  return { ...inputOf(row, spec, found.read, { path: row.path, source, basis: origin }), ...kind };
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

/** What a tyre's inputs are drawn from. */
export interface TyreSources {
  entry: WrittenTyre;
  index: number;
  tyre: CatalogueTyre;
  /** As a basis names it: 'tyres.csv'. */
  catalogue: string;
  build: WrittenCase['build'];
  basis: Basis;
}

/** Middle value of an input that the table gives only a spread for, and where it comes from. */
function middleOf(
  name: TyreInput,
  from: TyreSources,
): { value: number; source: 'case' | 'catalogue'; basis: string } {
  const { tyre, entry, build, basis } = from;
  const catalogue = { source: 'catalogue' as const, basis: `${from.catalogue}:${tyre.line}` };
  if (name === 'referenceRadius') return { value: tyre.values.freeDiameter! / 2, ...catalogue };
  if (name !== 'coldPressure') return { value: tyre.values[name]!, ...catalogue };
  if (build.tyre === tyre.name)
    return { value: build.pressure, source: 'case', basis: basis(['build', 'pressure']) };
  return entry.referencePressure === undefined
    ? { value: tyre.values.referencePressure!, ...catalogue }
    : {
        value: entry.referencePressure,
        source: 'case',
        basis: basis(['tyres', from.index, 'referencePressure']),
      };
}

function tyreInput(row: TyreRow, from: TyreSources): UncertainInput {
  const { entry, index, basis } = from;
  const spec = tyreSpec(row, from.tyre.construction);
  const prior: Prior = row.prior[from.tyre.construction];
  const path = `tyres[${index}].${row.name}`;
  const given = givenLaw(entry, row.name);
  if (given)
    return inputOf(row, spec, given, { path, source: 'case', basis: basis(['tyres', index, row.name]) });
  if (row.name === 'referenceRadius' && entry.rollout) {
    const { rollout } = entry;
    const read = {
      ...rollout,
      law: scaleLaw(rollout.law, 1 / (2 * Math.PI), 0),
      shown: `rollout ${rollout.shown}`,
    };
    return inputOf(row, spec, read, { path, source: 'case', basis: basis(['tyres', index, 'rollout']) });
  }
  if (prior.law)
    return inputOf(row, spec, readPrior(prior.law, spec), { path, source: 'assumed', basis: prior.basis });
  const middle = middleOf(row.name, from);
  const read = about(middle.value, spec, prior.spread!);
  return inputOf(row, spec, read, {
    path,
    source: middle.source,
    basis: `${middle.basis}; spread: ${prior.basis}`,
  });
}

/** Every input of one tyre: from the case, the catalogue, or the table of defaults. */
export function tyreInputs(from: TyreSources): Record<TyreInput, UncertainInput> {
  const inputs: Partial<Record<TyreInput, UncertainInput>> = {};
  for (const row of DEFAULTS.tyre) inputs[row.name] = tyreInput(row, from);
  return inputs as Record<TyreInput, UncertainInput>;
}
