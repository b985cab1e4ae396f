import { leastAccepted, type Result } from '@tubgap/results';

export type HardFigures = Result['hardPointFigures'][number][number];

/** One hard point as a shop looks at it: fixed to the car, so that no height of a tub moves it. */
export interface HardSight {
  name: string;
  /** Gap to see with the build tyre on at build pressure, m, and the hub angle of the tyre's nearest place. */
  atRest: number;
  atRestAngle: number;
  /** Less than this with the build tyre on and the point takes more than it should, m: the strictest tyre's word. */
  limit: number;
  /** Tyre that comes nearest in the runs, and its figures. */
  tyre: string;
  figures: HardFigures;
  /** Most of any tyre's touches at the pick that this point makes with nothing else; 0 without a pick. */
  alone: number;
  /** How much further away it would have to stand, the worst tyre's, m. */
  moveBy: number;
}

/** Share of the touches at the pick from which on a hard point has a say in it: so much would go away with it. */
const SAY = 0.1;

/** Order of two points or tyres, the nearer in a run of the accepted risk first; by commoner runs where that is not known. */
const comesNearer = (a: HardFigures, b: HardFigures): number =>
  a.rare === null || b.rare === null ? a.p05 - b.p05 : a.rare - b.rare;

/** Every hard point of a result, the nearest in the runs first. */
export const nearestSights = (result: Result): HardSight[] =>
  hardSights(result).sort((a, b) => comesNearer(a.figures, b.figures));

/** Every hard point of a result, in the order of the case. */
export function hardSights(result: Result): HardSight[] {
  const build = result.tyres.findIndex((tyre) => tyre.name === result.build.tyre);
  return result.hardPoints.flatMap(({ name }, h): HardSight[] => {
    const tyres = result.hardPointFigures[h] ?? [];
    const own = tyres[build];
    if (own === undefined) return [];
    const worst = tyres.reduce((best, one, i) => (comesNearer(one, tyres[best]!) < 0 ? i : best), 0);
    const spare = Math.min(...tyres.map((one) => one.spare ?? 0));
    return [
      {
        name,
        atRest: own.atRest,
        atRestAngle: own.atRestAngle,
        limit: own.atRest - Math.max(0, spare),
        tyre: result.tyres[worst]!.name,
        figures: tyres[worst]!,
        alone: Math.max(...tyres.map(({ atPick }) => atPick?.alone ?? 0)),
        moveBy: Math.max(...tyres.map((one) => one.moveBy)),
      },
    ];
  });
}

/**
 * Hard points that decide, and not the tub: with a pick those that alone make a tenth of a tyre's touches there,
 * without one those that alone take more than half of the accepted risk.
 */
export function decidingPoints(result: Result): HardSight[] {
  const pick = result.chosen ?? result.nearest;
  return hardSights(result).filter(
    ({ alone, figures, moveBy }) =>
      moveBy > 0 && (pick !== null ? alone >= SAY : figures.risk.estimate > leastAccepted(result) / 2),
  );
}
