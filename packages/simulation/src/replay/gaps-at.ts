import { type GapFigures, inspectGaps } from '../inspect-gaps.ts';
import { createBlockRoom } from '../run-risk.ts';
import { focusOn } from './focus.ts';
import type { RunPlace } from './run-states.ts';

/**
 * Where one tyre is tight in one tub: the figures that a pick of the case has of that place, from the same runs.
 * @param seed  of the case
 */
export function gapsAt({ setup, tub, tyre, topHeight }: RunPlace, seed: number): GapFigures {
  const focus = focusOn(setup, { tub, tyre });
  return inspectGaps(focus.setup, seed, [[topHeight]], createBlockRoom(focus.setup))[focus.tyre]![0]![0]!;
}
