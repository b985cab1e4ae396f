import type { HardPoint } from '@tubgap/core';
import type { Result } from '@tubgap/results';

/** A hard point of a result as the core knows it. */
export const hardPointShape = (point: Result['hardPoints'][number]): HardPoint =>
  point.shape === 'circle'
    ? { shape: 'circle', ahead: point.ahead, above: point.above, radius: point.radius }
    : { shape: 'polygon', xy: Float64Array.from(point.points.flatMap(({ ahead, above }) => [ahead, above])) };
