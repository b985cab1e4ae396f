import type { Result } from '@tubgap/results';
import { wholeDegrees } from '@tubgap/units';
import { columnsOf, type SheetTable } from '@tubgap/wording';
import { figuresOf } from '../figures-of.ts';
import { chosenTub } from './chosen-tub.ts';

/** One place where a gap is measured at the tub to build, m and rad. */
export interface GapCheck {
  angle: number;
  /** To see standing still with the tub as set out. */
  gap: number;
  /** Less than this and the car does not run. */
  limit: number;
}

const SIDES = ['left', 'right'] as const;
const EPSILON = 1e-9;

/** Gaps further back than those of the pick are asked for when a tyre's tightest runs are tight behind its first one. */
function firstAngle(result: Result, tub: number): number {
  const first = Math.min(...result.build.staticGapAngles);
  const behind = result.tyres.some((_, i) => (result.pickGaps[i]?.[tub]?.tightestAngle ?? 0) < first);
  return behind ? Number.NEGATIVE_INFINITY : first;
}

/**
 * What to measure at the tub to build. The limit is the gap to see less what may be missing all round with the tub
 * set out where the sheets say.
 */
export function gapChecks(result: Result): GapCheck[] {
  const chosen = chosenTub(result);
  if (chosen === undefined || result.tolerances === null) return [];
  const { allowed, index } = chosen;
  if (allowed === undefined) return [];
  const first = firstAngle(result, index);
  return result.tolerances.angles
    .map((angle, k) => ({
      angle,
      gap: allowed.staticGaps[k]!,
      limit: allowed.staticGaps[k]! - allowed.gapLess,
    }))
    .filter(({ angle }) => angle >= first - EPSILON);
}

/** The check sheet's blanks as a table that is typed back: one row an angle and side. */
export function checkTable(result: Result): SheetTable {
  const { units, cell, cellUp } = figuresOf(result);
  const checks = gapChecks(result);
  return {
    columns: columnsOf(units, 'case', 'side', 'angle_deg', 'static_gap', 'limit', 'measured'),
    rows: SIDES.flatMap((side) =>
      checks.map(({ angle, gap, limit }) => [
        result.case.name,
        side,
        wholeDegrees(angle),
        cell(gap),
        cellUp(limit),
        '',
      ]),
    ),
  };
}

/**
 * The blanks of the tub's own place, one row a side: the inside top above the track, and the tub's centre ahead of the
 * axle; what passes lies at its limits or between them.
 */
export function tubCheckTable(result: Result): SheetTable | undefined {
  const { units, cell, cellUp, cellDown } = figuresOf(result);
  const chosen = chosenTub(result);
  if (chosen === undefined) return undefined;
  const { tub, setOut, passes, allowed } = chosen;
  const [back, ahead] = [tub.centreForward - (allowed?.back ?? 0), tub.centreForward + (allowed?.ahead ?? 0)];
  const columns = columnsOf(
    units,
    'case',
    'side',
    'top_set_out',
    'top_least',
    'top_measured',
    'centre_set_out',
    'centre_least',
    'centre_most',
    'centre_measured',
  );
  const rows = SIDES.map((side) => [
    result.case.name,
    side,
    cell(setOut),
    cellUp(passes),
    '',
    cell(tub.centreForward),
    cellUp(back),
    cellDown(ahead),
    '',
  ]);
  return { columns, rows };
}
