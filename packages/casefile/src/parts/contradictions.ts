import { radialStiffnessFromDrop, type TyreInput } from '@tubgap/core';
import { centralValue } from '@tubgap/statistics';
import { formatQuantity } from '@tubgap/units';
import type { Case, CaseTyre } from '../case.ts';
import { DEFAULTS } from '../defaults.ts';
import { inInches } from '../quantity.ts';
import type { WrittenCase } from '../schema.ts';
import type { Path } from '../text/node-place.ts';
import { carFaults } from './car-faults.ts';
import { type Contradiction, contradiction, takenAsExact } from './contradiction.ts';
import { distanceFromAxle, isUnderTyre, outlineFault } from './hard-point.ts';
import { givenLaw } from './input.ts';
import { measuredFaults } from './measured-apart.ts';
import type { ListedTyre } from './tyre.ts';
import { againFaults, firstOfTyre } from './tyre-again.ts';

const freeRadius = (tyre: CaseTyre) => centralValue(tyre.inputs.referenceRadius.law);

/** Of the two ways to give a tyre's radius, one at most. */
function radiusTwice(written: WrittenCase): Contradiction[] {
  return written.tyres.flatMap((entry, index) => {
    if (!entry.rollout || !givenLaw(entry, 'referenceRadius')) return [];
    return [
      contradiction(['tyres', index, 'rollout'], 'referenceRadius is given as well; keep one of the two'),
    ];
  });
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
    const reason = `the tread is ${inInches(tread)} wide, the section only ${inInches(section)}`;
    found.push(contradiction(at(field), reason));
  }
  if (!hasSidewall(tyre)) {
    const field = written.tyres[tyre.index]?.deflection === undefined ? 'tyre' : 'deflection';
    const { deflection, deflectionLoad, referencePressure } = tyre;
    const load = formatQuantity(deflectionLoad, 'force');
    const pressure = formatQuantity(referencePressure, 'pressure');
    const reason = `no sidewall gives a drop of ${inInches(deflection)} under ${load} at ${pressure}`;
    found.push(
      contradiction(
        at(field),
        reason,
        'Measure again: free radius less loaded radius, and the load on this one tyre',
      ),
    );
  }
  const { rim } = tyre;
  if (rim && rim.width > section) {
    found.push(
      contradiction(
        at('rim'),
        `the rim, ${inInches(rim.width)}, is wider than the section, ${inInches(section)}`,
      ),
    );
  }
  if (rim && rim.backspacing > rim.width + 2 * rim.flange) {
    const reason = `the whole rim is only ${inInches(rim.width + 2 * rim.flange)} wide`;
    found.push(contradiction(at('rim', 'backspacing'), reason));
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
        contradiction(
          ['hardPoints', index, 'name'],
          'this name is already taken',
          undefined,
          'duplicate-name',
        ),
      ];
    }
    const bent = hardPoint.shape === 'polygon' ? outlineFault(hardPoint.points) : undefined;
    if (bent !== undefined) {
      const reason = `${bent}; its corners must go round a convex outline in order`;
      return [
        contradiction(
          ['hardPoints', index, 'points'],
          reason,
          'Give a bent shape as two or more convex ones',
        ),
      ];
    }
    const measure = 'Measure ahead of and above the axle, the car at rest';
    const distance = distanceFromAxle(hardPoint);
    if (distance >= largest && isUnderTyre(hardPoint)) {
      const reason =
        'some of it stands under the tyre, more than 145° round from straight up, where the tyre rests on the track and no ' +
        'gap to it can be told';
      return [contradiction(['hardPoints', index], reason, `${measure}; leave out what lies below the tyre`)];
    }
    if (distance >= largest) return [];
    const reason = `it comes within ${inInches(distance)} of the axle, inside the standing tyre of radius ${inInches(largest)}`;
    return [contradiction(['hardPoints', index], reason, measure)];
  });
}

function buildFaults({ build, tyres, heights, envelope }: Case): Contradiction[] {
  const found: Contradiction[] = [];
  const { axleHeight } = build;
  const tyre = tyres.find(({ name }) => name === build.tyre);
  if (tyre && axleHeight !== undefined) {
    const free = freeRadius(tyre);
    if (axleHeight >= free || axleHeight < 0.75 * free) {
      const reason = `with tyre ${tyre.name} it must be less than the free radius, ${inInches(free)}, and more than three quarters of it`;
      found.push(contradiction(['build', 'axleHeight'], reason));
    }
  }
  const lowest = heights?.[0];
  const top = Math.max(0, ...tyres.map((each) => 2 * freeRadius(each) - each.deflection));
  if (lowest !== undefined && lowest <= top) {
    const reason = `${inInches(lowest)} is below the top of the standing tyre, about ${inInches(top)} above the track`;
    found.push(contradiction(['heights'], reason));
  }
  const { highestTop } = envelope;
  if (highestTop !== undefined && highestTop <= top) {
    const reason = `${inInches(highestTop)} is below the top of the standing tyre, about ${inInches(top)} above the track`;
    const hint = 'Measure from the track up to the lowest place of the body over the tyre';
    found.push(contradiction(['envelope', 'highestTop'], reason, hint));
  }
  return found;
}

function limitFaults({ accept, simulation }: Case, tyres: readonly ListedTyre[]): Contradiction[] {
  const found = tyres.flatMap(({ own, name, index }): Contradiction[] => {
    if (own?.runRisk === undefined || own.runRisk <= accept.seasonRisk) return [];
    const reason = `a season cannot be safer than one of its runs with ${name}; accept.seasonRisk is smaller`;
    return [contradiction(['tyres', index, 'class', 'accept', 'runRisk'], reason)];
  });
  if (accept.seasonRisk < accept.runRisk) {
    const reason = 'a season cannot be safer than one of its runs; accept.runRisk is larger';
    found.push(contradiction(['accept', 'seasonRisk'], reason));
  }
  const longest = Math.max(1, ...tyres.map(({ runsPerSeason }) => runsPerSeason));
  if (simulation.draws < simulation.cars * longest) {
    const reason = `${simulation.draws} draws among ${simulation.cars} cars are fewer runs a car than a season's ${longest}`;
    found.push(contradiction(['simulation'], reason, 'Ask for more draws or fewer cars'));
  }
  return found;
}

function exactInEveryRun({ index }: ListedTyre, written: WrittenCase): Contradiction[] {
  const ofRun = DEFAULTS.tyre.filter((row) => row.each === 'run');
  return ofRun.flatMap(({ name }) => takenAsExact(['tyres', index, name], written.tyres[index], name));
}

/** Physical nonsense and contradictions in a case whose every field is sound by itself. */
export function contradictions(
  written: WrittenCase,
  the: Case,
  tyres: readonly ListedTyre[],
): Contradiction[] {
  return [
    ...carFaults(written, the, tyres),
    ...againFaults(written),
    ...radiusTwice(written),
    ...tyres.flatMap((tyre) => [
      // What is wrong with a tyre is told where it stands first.
      ...(firstOfTyre(written, tyre.index) === tyre.index ? tyreFaults(tyre, written) : []),
      ...exactInEveryRun(tyre, written),
    ]),
    ...hardPointFaults(the),
    ...buildFaults(the),
    ...limitFaults(the, tyres),
    ...measuredFaults(written),
  ];
}
