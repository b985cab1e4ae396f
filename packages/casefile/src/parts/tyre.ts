import { type CarInput, freeRadiusFromRollout, type TyreInput } from '@tubgap/core';
import { scaleLaw } from '@tubgap/statistics';
import { formatQuantity } from '@tubgap/units';
import type { CaseTyre, UncertainInput } from '../case.ts';
import type { CatalogueTyre } from '../catalogue/catalogue.ts';
import { exactField } from '../defaults/field-spec.ts';
import { JUDGEMENT, type TyreRow } from '../defaults/row.ts';
import {
  STIFFNESS_OF_USUAL_DROP,
  USUAL_SPREADS,
  USUAL_TYRES,
  usualBasis,
  usualDrop,
  usualMass,
} from '../defaults/usual-tyre.ts';
import { DEFAULTS, exactOrLawSpec, tyreSpec } from '../defaults.ts';
import type { ReadLaw } from '../law.ts';
import { MARKED_BASIS } from '../marking/marked-size.ts';
import type { WrittenCase, WrittenTyre } from '../schema.ts';
import { type Path, pathText } from '../text/node-place.ts';
import { tyreInClass } from './class-name.ts';
import { givenLaw, lawAbout, lawWithin, readPrior } from './input.ts';
import type { Ledger } from './ledger.ts';
import { classInputs, classNumbers } from './tyre-class.ts';

/** A tyre and its position in the case's list, which moves when an entry before it could not be read. */
export type ListedTyre = CaseTyre & { index: number };

/** What a tyre of the case is made from. */
export interface TyreSources {
  entry: WrittenTyre;
  /** Its position in the case's list. */
  index: number;
  tyre: CatalogueTyre;
  /** As a basis names the catalogue: 'tyres.csv'. */
  catalogue: string;
  written: WrittenCase;
  /** Inputs of the car as the case has them. */
  car: Record<CarInput, UncertainInput>;
  ledger: Ledger;
  /** The same tyre in the class that it stands in first: what was measured of it is told there. */
  first?: CaseTyre | undefined;
}

interface Middle {
  value: number;
  source: UncertainInput['source'];
  basis: string;
  /** In place of the spread that the table has about a measured value. */
  spread?: string;
}

const isWidthBlank = ({ values }: Pick<CatalogueTyre, 'values'>): boolean =>
  values.sectionWidth === undefined && values.treadWidth === undefined;

/** The tyre's numbers with something in place of each cell that its row leaves blank. */
function filled({ entry, tyre }: TyreSources) {
  const { values, construction, marked } = tyre;
  const usual = USUAL_TYRES[construction];
  const freeDiameter = values.freeDiameter ?? marked!.freeDiameter.nominal;
  // Of the two widths one that is given tells more of the other than the marking does.
  const printed = isWidthBlank(tyre) ? marked : undefined;
  // Of a wide tread and no section the section is the wider one.
  const sectionWidth =
    values.sectionWidth ??
    printed?.sectionWidth.nominal ??
    Math.max(usual.sectionShare * freeDiameter, values.treadWidth ?? 0);
  const referencePressure = values.referencePressure ?? usual.referencePressure;
  const { drop, load } = usualDrop(construction, entry.referencePressure ?? referencePressure);
  const deflectionLoad = values.deflectionLoad ?? load;
  return {
    freeDiameter,
    sectionWidth,
    treadWidth: values.treadWidth ?? printed?.treadWidth.nominal ?? usual.treadShare * sectionWidth,
    rimWidth: values.rimWidth ?? usual.rimShare * sectionWidth,
    mass: values.mass ?? usualMass(construction, freeDiameter, sectionWidth),
    referencePressure,
    // A load without its drop: as much of the usual drop as it is of the usual load.
    deflection: values.deflection ?? (drop * (entry.deflectionLoad ?? deflectionLoad)) / load,
    deflectionLoad,
  };
}

/** Middle value of an input that the table gives no law for. */
function middleOf(name: TyreInput, from: TyreSources): Middle {
  const { tyre, entry, ledger, index } = from;
  const { build } = from.written;
  const values = filled(from);
  const listed = (value: number, field: keyof typeof values): Middle =>
    tyre.values[field] === undefined
      ? { value, source: 'assumed', basis: usualBasis(tyre.construction) }
      : { value, source: 'catalogue', basis: `${from.catalogue}:${tyre.line}` };
  if (name === 'referenceRadius') return listed(values.freeDiameter / 2, 'freeDiameter');
  if (name === 'sectionWidth' || name === 'treadWidth' || name === 'mass') {
    const middle = listed(values[name], name);
    return middle.source === 'assumed' ? { ...middle, spread: USUAL_SPREADS[name] } : middle;
  }
  if (name !== 'coldPressure') throw new RangeError(`no row of a catalogue gives ${name}`);
  if (build.tyre === tyre.name) {
    return { value: build.pressure, source: 'case', basis: ledger.basis(['build', 'pressure']) };
  }
  if (entry.referencePressure === undefined) return listed(values.referencePressure, 'referencePressure');
  const place = ledger.basis(['tyres', index, 'referencePressure']);
  return { value: entry.referencePressure, source: 'case', basis: place };
}

const ROLLOUT = exactOrLawSpec('tyres[].rollout');

/** The free radius from a rollout that the case gives: rollout over 2π. */
function radiusOfRollout(rollout: ReadLaw, place: Path, ledger: Ledger): ReadLaw {
  const read = ledger.law(place, ROLLOUT, rollout);
  const law = scaleLaw(read.law, freeRadiusFromRollout(1), 0);
  return { ...read, law, shown: `from the rollout: ${read.shown}` };
}

const isDropAssumed = ({ entry, tyre }: TyreSources): boolean =>
  entry.deflection === undefined && tyre.values.deflection === undefined;

/** What the size printed on the tyre says of an input whose cell is blank; undefined where it says nothing. */
function markedRange(
  name: TyreInput,
  { tyre: { marked, values } }: TyreSources,
): { low: number; high: number } | undefined {
  if (marked === undefined) return undefined;
  if (name === 'referenceRadius' && values.freeDiameter === undefined) {
    return { low: marked.freeDiameter.low / 2, high: marked.freeDiameter.high / 2 };
  }
  if (name !== 'sectionWidth' && name !== 'treadWidth') return undefined;
  return isWidthBlank({ values }) ? marked[name] : undefined;
}

function tyreInput(row: TyreRow, from: TyreSources): UncertainInput {
  const { entry, index, ledger } = from;
  const spec = tyreSpec(row, from.tyre.construction);
  const prior = row.prior[from.tyre.construction];
  const place = ['tyres', index, row.name];
  const given = givenLaw(entry, row.name);
  if (given) return ledger.input(row, spec, given, { place, source: 'case', basis: ledger.basis(place) });
  if (row.name === 'referenceRadius' && entry.rollout) {
    const taped = ['tyres', index, 'rollout'];
    const read = radiusOfRollout(entry.rollout, taped, ledger);
    return ledger.input(row, spec, read, { place, source: 'case', basis: ledger.basis(taped) });
  }
  const range = markedRange(row.name, from);
  if (range) {
    return ledger.input(row, spec, lawWithin(range, spec), { place, source: 'assumed', basis: MARKED_BASIS });
  }
  if (prior.law) {
    const isWide = row.name === 'stiffnessFactor' && isDropAssumed(from);
    const read = readPrior(isWide ? STIFFNESS_OF_USUAL_DROP : prior.law, spec);
    return ledger.input(row, spec, read, { place, source: 'assumed', basis: prior.basis });
  }
  const middle = middleOf(row.name, from);
  if (middle.spread !== undefined) {
    const { value, spread, source, basis } = middle;
    return ledger.input(row, spec, lawAbout(value, spec, spread), { place, source, basis });
  }
  const read = lawAbout(middle.value, spec, prior.spread);
  const spread = prior.spread === undefined ? 'no spread' : 'spread';
  const basis = `${middle.basis}; ${spread}: ${prior.basis.replace(/^(prior|derived): /, '')}`;
  return ledger.input(row, spec, read, { place, source: middle.source, basis });
}

function assumedCondition({ index, ledger }: TyreSources): WrittenTyre['condition'] & string {
  const path = pathText(['tyres', index, 'condition']);
  const basis = `${JUDGEMENT}; new, run-in and worn are different tyres`;
  ledger.note({ path, label: 'state of the tyre that was measured', shown: 'run-in', basis });
  return 'run-in';
}

/** An exact number of a tyre: as the case gives it, as its row does, or assumed and noted. */
function exactOf(
  from: TyreSources,
  field: 'referencePressure' | 'deflection' | 'deflectionLoad' | 'rimWidth',
  given: number | undefined,
): number {
  const { tyre, index, ledger } = from;
  const value = given ?? tyre.values[field];
  if (value !== undefined) return value;
  const path = field === 'rimWidth' ? ['rim', 'width'] : [field];
  const { label, kind } = exactField(`tyres[].${path.join('.')}`);
  const assumed = filled(from)[field];
  const shown = formatQuantity(assumed, kind);
  ledger.note({
    path: pathText(['tyres', index, ...path]),
    label: `${label} of ${tyre.name}`,
    shown,
    basis: usualBasis(tyre.construction),
  });
  return assumed;
}

/** What an entry says of a tyre's class: its name, runs, and what is another on the car. */
function ofClass({ entry, tyre, index, written, car: ofCase, ledger }: TyreSources) {
  const car = classInputs(written, index, ofCase, ledger);
  const own = classNumbers(entry.class);
  return {
    name: tyreInClass(tyre.name, entry.class?.name),
    tyre: tyre.name,
    runsPerSeason:
      entry.runsPerSeason ?? ledger.assume('tyres[].runsPerSeason', ['tyres', index, 'runsPerSeason']),
    ...(car ? { car } : {}),
    ...(own ? { own } : {}),
  };
}

/** A tyre in another class: the very tyre, with what its entry there sets for the runs. */
function againIn(first: CaseTyre, from: TyreSources): CaseTyre {
  const { car: _, own: __, ...tyre } = first;
  const its = ofClass(from);
  const set = DEFAULTS.tyre.filter(({ name }) => givenLaw(from.entry, name));
  const inputs = Object.fromEntries(set.map((row) => [row.name, tyreInput(row, from)]));
  return {
    ...tyre,
    ...its,
    label: `${its.name}, ${tyre.condition}`,
    inputs: { ...tyre.inputs, ...inputs },
  };
}

/** A tyre of the case, complete: from the case, the catalogue, or the table of defaults. */
export function caseTyre(from: TyreSources): CaseTyre {
  if (from.first !== undefined) return againIn(from.first, from);
  const { entry, tyre, index, ledger } = from;
  const condition = entry.condition ?? assumedCondition(from);
  const inputs: Partial<Record<TyreInput, UncertainInput>> = {};
  for (const row of DEFAULTS.tyre) inputs[row.name] = tyreInput(row, from);
  const rim = entry.rim && {
    width: exactOf(from, 'rimWidth', entry.rim.width),
    backspacing: entry.rim.backspacing,
    flange: entry.rim.flange ?? ledger.assume('tyres[].rim.flange', ['tyres', index, 'rim', 'flange']),
  };
  const { name, runsPerSeason, ...its } = ofClass(from);
  return {
    ...its,
    name,
    label: `${name}, ${condition}`,
    construction: tyre.construction,
    condition,
    runsPerSeason,
    referencePressure: exactOf(from, 'referencePressure', entry.referencePressure),
    deflection: exactOf(from, 'deflection', entry.deflection),
    deflectionLoad: exactOf(from, 'deflectionLoad', entry.deflectionLoad),
    inputs: inputs as Record<TyreInput, UncertainInput>,
    ...(Object.keys(tyre.listed).length > 0 ? { listed: tyre.listed } : {}),
    ...(rim ? { rim } : {}),
  };
}
