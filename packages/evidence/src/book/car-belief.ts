import { TYRE_INPUTS } from '@tubgap/core';
import { tyreStream } from '@tubgap/simulation';
import { numberSource } from '@tubgap/statistics';
import { openCarSpace } from '../car-space.ts';
import { type Believed, pointsOf } from '../posterior.ts';
import { tyreGroups } from './book-car.ts';
import { groupDraws } from './group-draws.ts';
import { runSeed } from './prepare-car.ts';
import type { BookBelief } from './sample-book.ts';

/**
 * What the book believes of one of its cars, as if it had been learned alone: the draws of its own coordinates, and of
 * those that its evidence does not speak of but its tyres' groups do.
 * @throws RangeError when the book has no such car, or none with readings
 */
export function carBelief(belief: BookBelief, name: string): Believed {
  const u = belief.cars.findIndex(({ car }) => car.name === name);
  const opened = belief.cars[u];
  if (opened === undefined) throw new RangeError(`the book has no car ${name} with readings.`);
  const { car, space: own, cliques, prepared } = opened;
  const known = new Set(own.directions.map(({ stream }) => stream));
  const fromGroups = new Map(
    car.setup.tyres.flatMap(({ name: tyre, tyreName, tyre: inputs }, t, all) => {
      // In its other classes it is the same tyre.
      if (all.findIndex((other) => other.tyreName === tyreName) < t) return [];
      const groups = tyreGroups(car, tyre);
      return belief.kinds.flatMap(({ name: kind, family }) => {
        const what = kind.slice('tyre/'.length);
        const stream = tyreStream(tyreName, what);
        const input = inputs[(TYRE_INPUTS as readonly string[]).indexOf(what)];
        if (family !== 'tyre' || known.has(stream) || input === undefined || input.source === 'case')
          return [];
        return [[stream, { groups: groupDraws(belief, kind, groups), clique: cliques.indexOf(t) }] as const];
      });
    }),
  );
  const space = openCarSpace(
    car.setup,
    runSeed(belief.seed, name),
    (stream) => known.has(stream) || fromGroups.has(stream),
    own.nuisances,
    prepared.runCount,
  );
  const places = [
    ...space.directions.map(({ stream }) => own.directions.findIndex((one) => one.stream === stream)),
    ...own.nuisances.map((_, i) => own.directions.length + i),
  ];
  const chains = belief.chains.map((chain, c) => {
    const { normal } = numberSource(belief.seed, `book/car/${name}/${c}`);
    const points = new Float64Array(chain.draws * space.dimension);
    for (let draw = 0; draw < chain.draws; draw++) {
      places.forEach((place, i) => {
        if (place >= 0) {
          points[draw * space.dimension + i] = chain.units[u]![draw * own.dimension + place]!;
          return;
        }
        const { groups, clique } = fromGroups.get(space.directions[i]!.stream)!;
        const isApart = clique >= 0 && chain.apart[u]![draw * cliques.length + clique] === 1;
        const { middle, spread } = isApart ? { middle: 0, spread: 1 } : groups.at(chain, draw);
        points[draw * space.dimension + i] = middle + spread * normal();
      });
    }
    return points;
  });
  const posterior = {
    dimension: space.dimension,
    chains,
    draws: belief.chains[0]?.draws ?? 0,
    asked: 0,
  };
  return { space, parts: car.parts, posterior, points: pointsOf(posterior) };
}

/** Chance that each of a car's tyres does not belong to its group, by the name that its case has for it. */
export function apartChances(belief: BookBelief, name: string): { tyre: string; chance: number }[] {
  const u = belief.cars.findIndex(({ car }) => car.name === name);
  const opened = belief.cars[u];
  if (opened === undefined) return [];
  return opened.cliques.map((t, clique) => {
    let sum = 0;
    let count = 0;
    for (const { apart, draws } of belief.chains) {
      for (let draw = 0; draw < draws; draw++) sum += apart[u]![draw * opened.cliques.length + clique]!;
      count += draws;
    }
    return { tyre: opened.car.setup.tyres[t]!.name, chance: sum / count };
  });
}
