import type { Result } from '@tubgap/results';
import { chanceCell, degreeCell } from '@tubgap/units';
import { columnsOf, type SheetTable } from '@tubgap/wording';
import { figuresOf } from '../figures-of.ts';
import { hardSights } from './hard-sight.ts';

/** What each hard point does to each tyre. Gaps are before the reserve is taken off; touching is leaving less than it. */
export function hardPointTable(result: Result): SheetTable {
  const { units, cell, cellUp } = figuresOf(result);
  return {
    columns: columnsOf(
      units,
      'case',
      'hard_point',
      'tyre',
      'static_gap',
      'static_angle_deg',
      'gap_p50',
      'gap_p05',
      'gap_accepted_risk',
      'tight_angle_deg',
      'tight_moment',
      'draws',
      'touches',
      'run_risk',
      'run_risk_low',
      'run_risk_high',
      'contact_risk',
      'contact_risk_high',
      'method',
      'share_of_touches_alone',
      'share_of_touches_with_others',
      'may_stand_nearer',
      'move_away',
    ),
    rows: result.hardPoints.flatMap(({ name }, h) =>
      (result.hardPointFigures[h] ?? []).map((row, i) => [
        result.case.name,
        name,
        result.tyres[i]!.name,
        cell(row.atRest),
        degreeCell(row.atRestAngle),
        cell(row.p50),
        cell(row.p05),
        row.rare === null ? '' : cell(row.rare),
        degreeCell(row.tightestAngle),
        row.tightestMoment,
        row.risk.events,
        row.risk.touches,
        chanceCell(row.risk.estimate),
        chanceCell(row.risk.low),
        chanceCell(row.risk.high),
        chanceCell(row.contact.estimate),
        chanceCell(row.contact.high),
        row.risk.method,
        row.atPick === null ? '' : row.atPick.alone.toFixed(4),
        row.atPick === null ? '' : row.atPick.together.toFixed(4),
        row.spare === null ? '' : cell(row.spare),
        cellUp(row.moveBy),
      ]),
    ),
  };
}

/** The hard points' blanks of the check sheet, to type the measures back into: the build tyre on. */
export function hardCheckTable(result: Result): SheetTable {
  const { units, cell, cellUp } = figuresOf(result);
  return {
    columns: columnsOf(units, 'case', 'side', 'hard_point', 'static_gap', 'limit', 'measured'),
    rows: (['left', 'right'] as const).flatMap((side) =>
      hardSights(result).map(({ name, atRest, limit }) => [
        result.case.name,
        side,
        name,
        cell(atRest),
        cellUp(limit),
        '',
      ]),
    ),
  };
}
