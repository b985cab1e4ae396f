import type { Result } from '@tubgap/results';
import { inchCell } from '@tubgap/units';
import type { SheetTable } from '@tubgap/wording';
import { verdictWord } from '../fit-words.ts';
import { changeText, tubFits } from './envelope.ts';

const yes = (fits: boolean): string => (fits ? 'yes' : 'no');

/** Which tubs the car takes, which the tyres, and what would have to change; rooms are negative where they are missing. */
export function envelopeTable(result: Result): SheetTable {
  return {
    header: [
      'case',
      'tub',
      'fits_car',
      'fits_tyre',
      'fits_both',
      'top_height_in',
      'outside_top_in',
      'reach_ahead_in',
      'reach_behind_in',
      'leg_end_in',
      'leg_trim_in',
      'room_above_in',
      'room_ahead_in',
      'room_behind_in',
      'run_risk_high_at_limit',
      'to_change',
    ],
    rows: tubFits(result).map((fit) => [
      result.case.name,
      fit.name,
      yes(fit.fitsCar),
      verdictWord(fit.tyreVerdict),
      verdictWord(fit.bothVerdict),
      inchCell(fit.topHeight),
      inchCell(fit.reach.top),
      inchCell(fit.reach.ahead),
      inchCell(fit.reach.behind),
      inchCell(fit.reach.legEnd),
      inchCell(fit.reach.legTrim),
      inchCell(fit.room.above),
      inchCell(fit.room.ahead),
      inchCell(fit.room.behind),
      fit.riskAtLimit === undefined ? '' : fit.riskAtLimit.toPrecision(6),
      changeText(fit),
    ]),
  };
}
