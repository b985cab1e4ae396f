import { radialStiffnessFromDrop, type TyreInput } from '@tubgap/core';
import { centralValue } from '@tubgap/uncertainty';
import type { Case, CaseTyre } from '../case.ts';
import { DEFAULTS } from '../defaults.ts';
import type { Issue, Problem } from '../issue.ts';
import type { WrittenCase } from '../schema.ts';
import type { Fault } from '../schema-issue.ts';
import type { Path } from '../text/node-place.ts';
import { formatQuantity } from '../units.ts';
import { linkGeometry } from './car.ts';
import { distanceFromAxle, outlineFault } from './hard-point.ts';
import { givenLaw } from './input.ts';
import type { ListedTyre } from './tyre.ts';

/** A fault that no single field shows: it takes two of them, or a catalogue. */
export interface Contradiction extends Fault {
  severity: Issue['severity'];
}

const inches = (value: number) => formatQuantity(value, 'length', 'in');
const freeRadius = (tyre: CaseTyre) => centralValue(tyre.inputs.referenceRadius.law);

function error(
  path: Path,
  reason: string,
  hint?: string,
  code: Problem['code'] = 'contradiction',
): Contradiction {
  const problem = { code, reason, ...(hint === undefined ? {} : { hint }) };
  return { path, at: 'value', severity: 'error', problem };
}

/** Of two ways to say the same, one at least or one at most. */
function alternatives(written: WrittenCase): Contradiction[] {
  const found: Contradiction[] = [];
  const area = givenLaw(written, 'aero.downforceArea');
  if (area && written.aero.rearDownforce) {
    found.push(error(['aero', 'rearDownforce'], 'downforceArea is given as well; keep one of the two'));
  }
  if (!area && !written.aero.rearDownforce) {
    const hint = 'A car without a wing says downforceArea: 0 m2';
    found.push(error(['aero'], 'downforceArea is missing, or rearDownforce in its place', hint, 'missing'));
  }
  for (const [index, entry] of written.tyres.entries()) {
    if (!entry.rollout || !givenLaw(entry, 'referenceRadius')) continue;
    found.push(error(['tyres', index, 'rollout'], 'referenceRadius is given as well; keep one of the two'));
  }
  return found;
}

/** Whether the measured drop can be had from a sidewall at all: not all of it from the air, nor all from the patch. */
function hasSidewall(tyre: CaseTyre): boolean {
  const middle = (name: TyreInput) => centralValue(tyre.inputs[name].law);
  try {
    radialStiffnessFromDrop({
      pressure: tyre.referencePressure,
      load: tyre.deflectionLoad,
      drop: tyre.deflection,
      freeRadius: middle('referenceRadius'),
      sectionWidth: middle('sectionWidth'),
      treadWidth: middle('treadWidth'),
      carcassPressure: middle('patchCarcassPressure'),
      tangentialRatio: middle('tangentialRatio'),
    });
    return true;
  } catch (cause) {
    if (cause instanceof RangeError) return false;
    throw cause;
  }
}

function tyreFaults(tyre: ListedTyre, written: WrittenCase): Contradiction[] {
  const found: Contradiction[] = [];
  const at = (...path: Path): Path => ['tyres', tyre.index, ...path];
  const section = centralValue(tyre.inputs.sectionWidth.law);
  const tread = centralValue(tyre.inputs.treadWidth.law);
  if (tread > section) {
    const field = tyre.inputs.treadWidth.source === 'case' ? 'treadWidth' : 'sectionWidth';
    const reason = `the tread is ${inches(tread)} wide, the section only ${inches(section)}`;
    found.push(error(at(field), reason));
  }
  if (!hasSidewall(tyre)) {
    const field = written.tyres[tyre.index]?.deflection === undefined ? 'tyre' : 'deflection';
    const { deflection, deflectionLoad, referencePressure } = tyre;
    const load = formatQuantity(deflectionLoad, 'force');
    const pressure = formatQuantity(referencePressure, 'pressure');
    const reason = `no sidewall gives a drop of ${inches(deflection)} under ${load} at ${pressure}`;
    found.push(
      error(
        at(field),
        reason,
        'Measure again: free radius less loaded radius, and the load on this one tyre',
      ),
    );
  }
  const { rim } = tyre;
  if (rim && rim.width > section) {
    found.push(
      error(at('rim'), `the rim, ${inches(rim.width)}, is wider than the section, ${inches(section)}`),
    );
  }
  if (rim && rim.backspacing > rim.width + 2 * rim.flange) {
    const reason = `the whole rim is only ${inches(rim.width + 2 * rim.flange)} wide`;
    found.push(error(at('rim', 'backspacing'), reason));
  }
  return found;
}

function hardPointFaults({ hardPoints, tyres }: Case): Contradiction[] {
  const largest = Math.max(0, ...tyres.map(freeRadius));
  const names = new Set<string>();
  return hardPoints.flatMap((hardPoint, index): Contradiction[] => {
    const taken = names.has(hardPoint.name);
    names.add(hardPoint.name);
    if (taken) {
      return [
        error(['hardPoints', index, 'name'], 'this name is already taken', undefined, 'duplicate-name'),
      ];
    }
    const bent = hardPoint.shape === 'polygon' ? outlineFault(hardPoint.points) : undefined;
    if (bent !== undefined) {
      const reason = `${bent}; its corners must go round a convex outline in order`;
      return [error(['hardPoints', index, 'points'], reason, 'Give a bent shape as two or more convex ones')];
    }
    const distance = distanceFromAxle(hardPoint);
    if (distance >= largest) return [];
    const reason = `it comes within ${inches(distance)} of the axle, inside the standing tyre of radius ${inches(largest)}`;
    return [error(['hardPoints', index], reason, 'Measure ahead of and above the axle, the car at rest')];
  });
}

/** By how much anti-squat and axle path may differ from what the instant centre gives before it is worth a word. */
const LINK_TOLERANCE = { antiSquat: 0.1, axlePathSlope: 0.03 } as const;

function linkFaults(written: WrittenCase, { car }: Case): Contradiction[] {
  if (written.suspension?.instantCentre === undefined) return [];
  const path: Path = ['suspension', 'instantCentre'];
  const geometry = linkGeometry(written);
  if (geometry === undefined) {
    const reason = 'it needs build.axleHeight, the height of the axle above the track at rest';
    return [error(path, reason, undefined, 'missing')];
  }
  return (['antiSquat', 'axlePathSlope'] as const).flatMap((name): Contradiction[] => {
    const used = centralValue(car[name].law);
    if (Math.abs(used - geometry[name]) <= LINK_TOLERANCE[name]) return [];
    const reason = `it gives ${name} ${geometry[name].toFixed(2)}, the case says ${used.toFixed(2)}`;
    const hint = "The case's own number is used; measure the links again or leave one of the two out";
    return [{ ...error(path, reason, hint), severity: 'warning' }];
  });
}

function buildFaults({ build, tyres, heights, envelope }: Case): Contradiction[] {
  const found: Contradiction[] = [];
  const { axleHeight } = build;
  const tyre = tyres.find(({ name }) => name === build.tyre);
  if (tyre && axleHeight !== undefined) {
    const free = freeRadius(tyre);
    if (axleHeight >= free || axleHeight < 0.75 * free) {
      const reason = `with tyre ${tyre.name} it must be less than the free radius, ${inches(free)}, and more than three quarters of it`;
      found.push(error(['build', 'axleHeight'], reason));
    }
  }
  const lowest = heights?.[0];
  const top = Math.max(0, ...tyres.map((each) => 2 * freeRadius(each) - each.deflection));
  if (lowest !== undefined && lowest <= top) {
    const reason = `${inches(lowest)} is below the top of the standing tyre, about ${inches(top)} above the track`;
    found.push(error(['heights'], reason));
  }
  const { highestTop } = envelope;
  if (highestTop !== undefined && highestTop <= top) {
    const reason = `${inches(highestTop)} is below the top of the standing tyre, about ${inches(top)} above the track`;
    const hint = 'Measure from the track up to the lowest place of the body over the tyre';
    found.push(error(['envelope', 'highestTop'], reason, hint));
  }
  return found;
}

function limitFaults({ accept, simulation, tyres }: Case): Contradiction[] {
  const found: Contradiction[] = [];
  if (accept.seasonRisk < accept.runRisk) {
    const reason = 'a season cannot be safer than one of its runs; accept.runRisk is larger';
    found.push(error(['accept', 'seasonRisk'], reason));
  }
  const longest = Math.max(1, ...tyres.map(({ runsPerSeason }) => runsPerSeason));
  if (simulation.draws < simulation.cars * longest) {
    const reason = `${simulation.draws} draws among ${simulation.cars} cars are fewer runs a car than a season's ${longest}`;
    found.push(error(['simulation'], reason, 'Ask for more draws or fewer cars'));
  }
  return found;
}

/** Single values for what changes from run to run: the risk comes out too small, or too sure. 0 means that it is absent. */
function overconfidence(written: WrittenCase, tyres: readonly ListedTyre[]): Contradiction[] {
  const told = (path: Path, from: unknown, field: string): Contradiction[] => {
    const read = givenLaw(from, field);
    const isExact = read?.bare && read.law.kind === 'constant' && read.law.value !== 0;
    if (!isExact) return [];
    const reason = 'it is taken as exactly this in every run';
    const hint = 'Give a law with each: run, or { law: constant, value: …, each: run } if that is meant';
    return [{ ...error(path, reason, hint, 'taken-as-exact'), severity: 'warning' }];
  };
  const ofRun = DEFAULTS.car.filter((row) => row.each === 'run');
  const ofTyre = DEFAULTS.tyre.filter((row) => row.each === 'run');
  return [
    ...ofRun.flatMap(({ path }) => told(path.split('.'), written, path)),
    ...tyres.flatMap(({ index }) =>
      ofTyre.flatMap(({ name }) => told(['tyres', index, name], written.tyres[index], name)),
    ),
  ];
}

/** Physical nonsense and contradictions in a case whose every field is sound by itself. */
export function contradictions(
  written: WrittenCase,
  the: Case,
  tyres: readonly ListedTyre[],
): Contradiction[] {
  return [
    ...alternatives(written),
    ...tyres.flatMap((tyre) => tyreFaults(tyre, written)),
    ...hardPointFaults(the),
    ...linkFaults(written, the),
    ...buildFaults(the),
    ...limitFaults(the),
    ...overconfidence(written, tyres),
  ];
}
