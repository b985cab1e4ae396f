import type { Result } from '@tubgap/results';
import { columnsOf, type SheetTable, yesNo } from '@tubgap/wording';
import { figuresOf } from '../figures-of.ts';
import { verdictWord } from '../fit-words.ts';
import { changeText, tubFits } from './envelope.ts';

/** Which tubs the car takes, which the tyres, and what would have to change; rooms are negative where they are missing. */
export function envelopeTable(result: Result): SheetTable {
  const { units, cell } = figuresOf(result);
  return {
    columns: columnsOf(
      units,
      'case',
      'tub',
      'fits_car',
      'fits_tyre',
      'fits_both',
      'top_height',
      'outside_top',
      'reach_ahead',
      'reach_behind',
      'leg_end',
      'leg_trim',
      'room_above',
      'room_ahead',
      'room_behind',
      'run_risk_high_at_limit',
      'to_change',
    ),
    rows: tubFits(result).map((fit) => [
      result.case.name,
      fit.name,
      yesNo(fit.fitsCar),
      verdictWord(fit.tyreVerdict),
      verdictWord(fit.bothVerdict),
      cell(fit.topHeight),
      cell(fit.reach.top),
      cell(fit.reach.ahead),
      cell(fit.reach.behind),
      cell(fit.reach.legEnd),
      cell(fit.reach.legTrim),
      cell(fit.room.above),
      cell(fit.room.ahead),
      cell(fit.room.behind),
      fit.riskAtLimit === undefined ? '' : fit.riskAtLimit.toPrecision(6),
      changeText(fit, figuresOf(result)),
    ]),
  };
}
