import type { Result } from '@tubgap/results';
import { chanceCell, degreeCell, inchCell, inchCellUp } from '@tubgap/units';
import type { SheetTable } from '@tubgap/wording';
import { hardSights } from './hard-sight.ts';

/** What each hard point does to each tyre. Gaps are before the reserve is taken off; touching is leaving less than it. */
export function hardPointTable(result: Result): SheetTable {
  return {
    header: [
      'case',
      'hard_point',
      'tyre',
      'static_gap_in',
      'static_angle_deg',
      'gap_p50_in',
      'gap_p05_in',
      'gap_accepted_risk_in',
      'tight_angle_deg',
      'tight_moment',
      'draws',
      'touches',
      'touch_probability',
      'ci95_low',
      'ci95_high',
      'contact_probability',
      'contact_ci95_high',
      'method',
      'share_of_touches_alone',
      'share_of_touches_with_others',
      'may_stand_nearer_in',
      'move_away_in',
    ],
    rows: result.hardPoints.flatMap(({ name }, h) =>
      (result.hardPointFigures[h] ?? []).map((row, i) => [
        result.case.name,
        name,
        result.tyres[i]!.name,
        inchCell(row.atRest),
        degreeCell(row.atRestAngle),
        inchCell(row.p50),
        inchCell(row.p05),
        row.rare === null ? '' : inchCell(row.rare),
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
        row.spare === null ? '' : inchCell(row.spare),
        inchCellUp(row.moveBy),
      ]),
    ),
  };
}

/** The hard points' blanks of the check sheet, to type the measures back into: the build tyre on. */
export function hardCheckTable(result: Result): SheetTable {
  return {
    header: ['case', 'side', 'hard_point', 'static_gap_in', 'limit_in', 'measured_in'],
    rows: (['left', 'right'] as const).flatMap((side) =>
      hardSights(result).map(({ name, atRest, limit }) => [
        result.case.name,
        side,
        name,
        inchCell(atRest),
        inchCellUp(limit),
        '',
      ]),
    ),
  };
}
