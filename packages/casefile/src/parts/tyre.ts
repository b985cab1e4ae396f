import { type CarInput, freeRadiusFromRollout, type TyreInput } from '@tubgap/core';
import { scaleLaw } from '@tubgap/statistics';
import type { CaseTyre, UncertainInput } from '../case.ts';
import type { CatalogueTyre } from '../catalogue/catalogue.ts';
import { JUDGEMENT, type TyreRow } from '../defaults/row.ts';
import { DEFAULTS, exactOrLawSpec, tyreSpec } from '../defaults.ts';
import type { ReadLaw } from '../law.ts';
import type { WrittenCase, WrittenTyre } from '../schema.ts';
import { type Path, pathText } from '../text/node-place.ts';
import { givenLaw, lawAbout, readPrior } from './input.ts';
import type { Ledger } from './ledger.ts';
import { classInputs } from './tyre-class.ts';

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
}

interface Middle {
  value: number;
  source: 'case' | 'catalogue';
  basis: string;
}

/** Middle value of an input that the table gives no law for. */
function middleOf(name: TyreInput, from: TyreSources): Middle {
  const { tyre, entry, ledger, index } = from;
  const { build } = from.written;
  const listed = (value: number | undefined): Middle => ({
    value: value!,
    source: 'catalogue',
    basis: `${from.catalogue}:${tyre.line}`,
  });
  const { freeDiameter = 0, referencePressure } = tyre.values;
  if (name === 'referenceRadius') return listed(freeDiameter / 2);
  if (name !== 'coldPressure') return listed(tyre.values[name]);
  if (build.tyre === tyre.name) {
    return { value: build.pressure, source: 'case', basis: ledger.basis(['build', 'pressure']) };
  }
  if (entry.referencePressure === undefined) return listed(referencePressure);
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
  if (prior.law) {
    const read = readPrior(prior.law, spec);
    return ledger.input(row, spec, read, { place, source: 'assumed', basis: prior.basis });
  }
  const middle = middleOf(row.name, from);
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

/** A tyre of the case, complete: from the case, the catalogue, or the table of defaults. */
export function caseTyre(from: TyreSources): CaseTyre {
  const { entry, tyre, index, written, ledger } = from;
  const { referencePressure, deflection, deflectionLoad, rimWidth } = tyre.values;
  const condition = entry.condition ?? assumedCondition(from);
  const inputs: Partial<Record<TyreInput, UncertainInput>> = {};
  for (const row of DEFAULTS.tyre) inputs[row.name] = tyreInput(row, from);
  const rim = entry.rim && {
    width: entry.rim.width ?? rimWidth!,
    backspacing: entry.rim.backspacing,
    flange: entry.rim.flange ?? ledger.assume('tyres[].rim.flange', ['tyres', index, 'rim', 'flange']),
  };
  const car = classInputs(written, index, from.car, ledger);
  return {
    name: tyre.name,
    label: `${tyre.name}, ${condition}`,
    construction: tyre.construction,
    condition,
    runsPerSeason: entry.runsPerSeason,
    referencePressure: entry.referencePressure ?? referencePressure!,
    deflection: entry.deflection ?? deflection!,
    deflectionLoad: entry.deflectionLoad ?? deflectionLoad!,
    inputs: inputs as Record<TyreInput, UncertainInput>,
    ...(car ? { car } : {}),
    ...(rim ? { rim } : {}),
  };
}
