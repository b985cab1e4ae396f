import type { Case } from '@tubgap/casefile';
import { SIXTEENTH } from '@tubgap/units';
import { missingRoom } from './envelope.ts';
import type { ToleranceRow } from './tolerances.ts';

/** The height that a shop sets the tub to build out at: what every paper names. */
export interface SetOut {
  /** Which of the tolerance rows it is. */
  row: number;
  /** m, inside top above the track: the least height of the pick, or as much more as the work takes. */
  topHeight: number;
  /** What passes once the tub is built and measured, m. */
  passes: number;
}

/** A sixteenth of an inch in everything: less than that nobody builds to. */
const workable = ({ lower, ahead, back, gapLess }: ToleranceRow): boolean =>
  [lower, ahead, back, gapLess].every((much) => much >= SIXTEENTH - 1e-9);

/**
 * The least row that allows a sixteenth of an inch in everything and for whose top the car has room; the first where
 * there is none, and every hair counts.
 * @param least  height of the pick, m
 * @param rows  lowest first; the first is set out at the least height
 */
export function setOutOf(source: Case, tub: number, least: number, rows: readonly ToleranceRow[]): SetOut {
  const found = rows.findIndex(
    (row) => workable(row) && missingRoom(source, tub, least + row.higher).length === 0,
  );
  const row = Math.max(0, found);
  const topHeight = least + rows[row]!.higher;
  return { row, topHeight, passes: topHeight - rows[row]!.lower };
}
