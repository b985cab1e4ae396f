import { standsUnderTyre } from '@tubgap/core';
import type { HardPoint } from '../case.ts';

type Point = { ahead: number; above: number };

const turn = (a: Point, b: Point, c: Point) =>
  (b.ahead - a.ahead) * (c.above - b.above) - (b.above - a.above) * (c.ahead - b.ahead);

/**
 * Why an outline is not convex, or undefined when it is: every corner turns the same way, once round.
 * Corners in a row on one line are allowed as long as they do not turn back.
 */
export function outlineFault(points: readonly Point[]): string | undefined {
  const n = points.length;
  const at = (index: number) => points[index % n]!;
  const turns = points.map((_, index) => turn(at(index), at(index + 1), at(index + 2)));
  if (
    points.some(
      (point, index) =>
        Math.hypot(point.ahead - at(index + 1).ahead, point.above - at(index + 1).above) === 0,
    )
  ) {
    return 'two corners in a row are the same';
  }
  if (turns.every((value) => value === 0)) return 'all corners lie on one line';
  if (turns.some((value) => value > 0) && turns.some((value) => value < 0)) {
    return `the outline bends inward at corner ${1 + ((inwardCorner(turns) + 1) % n)}`;
  }
  // Turning one way all along can still go round twice, as a five-pointed star does.
  const edges = points.map((point, index) =>
    Math.atan2(at(index + 1).above - point.above, at(index + 1).ahead - point.ahead),
  );
  const total = edges.reduce((sum, angle, index) => {
    const change = edges[(index + 1) % n]! - angle;
    return sum + Math.atan2(Math.sin(change), Math.cos(change));
  }, 0);
  return Math.abs(total) > 3 * Math.PI ? 'the outline crosses itself' : undefined;
}

/** The corner that turns the other way than most. */
function inwardCorner(turns: readonly number[]): number {
  const left = turns.filter((value) => value > 0).length;
  const right = turns.filter((value) => value < 0).length;
  return turns.findIndex((value) => (left >= right ? value < 0 : value > 0));
}

function distanceToEdge(a: Point, b: Point): number {
  const along = { ahead: b.ahead - a.ahead, above: b.above - a.above };
  const share = -(a.ahead * along.ahead + a.above * along.above) / (along.ahead ** 2 + along.above ** 2);
  const t = Math.min(1, Math.max(0, share));
  return Math.hypot(a.ahead + t * along.ahead, a.above + t * along.above);
}

/** Distance of a hard point from the axle at rest, m; 0 when the axle is inside it. Polygons must be convex. */
export function distanceFromAxle(hardPoint: HardPoint): number {
  if (hardPoint.shape === 'circle') {
    return Math.max(0, Math.hypot(hardPoint.ahead, hardPoint.above) - hardPoint.radius);
  }
  const { points } = hardPoint;
  const next = (index: number) => points[(index + 1) % points.length]!;
  const sides = points.map((point, index) => turn(point, next(index), { ahead: 0, above: 0 }));
  if (sides.every((side) => side > 0) || sides.every((side) => side < 0)) return 0;
  return Math.min(...points.map((point, index) => distanceToEdge(point, next(index))));
}

/** Whether some of a hard point stands under the tyre, where no gap to it can be told. Polygons must be convex. */
export const isUnderTyre = (hardPoint: HardPoint): boolean =>
  standsUnderTyre(
    hardPoint.shape === 'circle'
      ? hardPoint
      : {
          shape: 'polygon',
          xy: Float64Array.from(hardPoint.points.flatMap(({ ahead, above }) => [ahead, above])),
        },
  );
