import { type DecidedResult, limitsOf, type Result } from '@tubgap/results';
import { chanceCell, degreeCell, type LengthUnits, wholeDegrees } from '@tubgap/units';
import { type Column, columnsOf, madeColumn, type SheetTable } from '@tubgap/wording';
import { reasonText } from './best-place.ts';
import { figuresOf } from './figures-of.ts';
import { verdictWord } from './fit-words.ts';
import { LEARNED_BY } from './learned-by.ts';
import { type ChosenTub, chosenTub } from './sheets/chosen-tub.ts';

/** Name of the rows of the whole car: a risk in them is that at least one of its tyres comes too close. */
export const ANY_TYRE = 'any';

/** Risk of a run by tyre, tub and top height. Gaps are before the reserve is taken off; a median angle, the most frequent moment. */
export function riskTable(result: Result): SheetTable {
  const { units, cell } = figuresOf(result);
  const names = [...result.tyres.map((tyre) => tyre.name), ANY_TYRE];
  const rows = names.flatMap((tyre, i) =>
    result.tubs.flatMap((tub, t) =>
      result.heights[t]!.map((height, h) => {
        const risk = result.risks[i]![t]![h]!;
        const contact = result.contactRisks[i]![t]![h]!;
        const gap = result.gaps[i]![t]![h] ?? null;
        return [
          result.case.name,
          tyre,
          tub.name,
          cell(tub.diameter),
          cell(height),
          risk.events,
          risk.touches,
          chanceCell(risk.estimate),
          chanceCell(risk.low),
          chanceCell(risk.high),
          ...(gap === null
            ? ['', '', '', '', '']
            : [
                cell(gap.p01),
                cell(gap.p05),
                cell(gap.p50),
                degreeCell(gap.tightestAngle),
                gap.tightestMoment,
              ]),
          risk.method,
          risk.cov === null ? '' : risk.cov.toPrecision(3),
          risk.effectiveDraws.toFixed(0),
          chanceCell(contact.estimate),
          chanceCell(contact.low),
          chanceCell(contact.high),
        ];
      }),
    ),
  );
  return {
    columns: columnsOf(
      units,
      'case',
      'tyre',
      'tub',
      'tub_diameter',
      'at_height',
      'draws',
      'touches',
      'run_risk',
      'run_risk_low',
      'run_risk_high',
      'gap_p01',
      'gap_p05',
      'gap_p50',
      'tight_angle_deg',
      'tight_moment',
      'method',
      'cov',
      'effective_draws',
      'contact_risk',
      'contact_risk_low',
      'contact_risk_high',
    ),
    rows,
  };
}

/** Column of a static gap: 'gap_at_m30deg_in', 'gap_at_90deg_in'. */
export function gapColumn(units: LengthUnits, radians: number): Column {
  const angle = wholeDegrees(radians);
  const name = `gap_at_${angle < 0 ? 'm' : ''}${Math.abs(angle)}deg`;
  const about = `gap standing, ${angle}° ahead of straight up, of the build tyre at build pressure, all at middle values`;
  return madeColumn(units, name, 'length', about);
}

/** Cells of the risks at the height that is set out: of the tub to build alone. */
function asSetOut(chosen: ChosenTub | undefined): string[] {
  if (chosen === undefined) return ['', '', '', '', ''];
  const { runRisk, contactRisk, seasonRisk } = chosen.asSetOut;
  return [runRisk.estimate, runRisk.high, contactRisk.estimate, seasonRisk.estimate, seasonRisk.high].map(
    chanceCell,
  );
}

/** Cells of a tub's best place along the car; empty where nobody looked, or it fits nowhere. */
function placeCells(result: Result, t: number): string[] {
  const { cell } = figuresOf(result);
  const best = result.bestPlaces[t]?.best ?? null;
  if (best === null) return ['', '', '', ''];
  const { centreForward, topHeight, runRisk, seasonRisk } = best;
  return [cell(centreForward), cell(topHeight), chanceCell(runRisk.high), chanceCell(seasonRisk.high)];
}

/** Heads of the columns that the shop's list of tubs has of its own. */
const listedHeads = ({ tubs }: Result): string[] => [
  ...new Set(tubs.flatMap(({ listed = {} }) => Object.keys(listed))),
];

/**
 * Per tub the lowest top height that keeps the accepted risk, its risks there, and what to see standing still; of the tub
 * to build also the height that is set out and its risks there.
 */
export function pickTable(result: Result): SheetTable {
  const { units, cell } = figuresOf(result);
  const angles = result.build.staticGapAngles;
  const chosen = chosenTub(result);
  const own = listedHeads(result);
  const rows = result.picks.map((pick, t) => {
    const tub = result.tubs[t]!;
    const { height } = pick;
    const start = [result.case.name, pick.tub, cell(tub.diameter)];
    const end = [
      cell(limitsOf(result, height?.limitingTyre).reserve),
      verdictWord(pick.verdict),
      reasonText(result, t),
      ...placeCells(result, t),
      ...own.map((head) => tub.listed?.[head] ?? ''),
    ];
    if (height === undefined) {
      return [
        ...start,
        '',
        '',
        cell(tub.centreForward),
        ...angles.map(() => ''),
        '',
        '',
        '',
        '',
        '',
        '',
        '',
        '',
        '',
        ...asSetOut(undefined),
        ...end,
      ];
    }
    return [
      ...start,
      cell(height.topHeight),
      t === chosen?.index ? cell(chosen.setOut) : '',
      cell(tub.centreForward),
      ...height.staticGaps.map(cell),
      height.limitingTyre,
      limitingGap(result, t)?.tightestMoment ?? '',
      chanceCell(height.runRisk.estimate),
      chanceCell(height.runRisk.low),
      chanceCell(height.runRisk.high),
      chanceCell(height.contactRisk.estimate),
      chanceCell(height.seasonRisk.estimate),
      chanceCell(height.seasonRisk.low),
      chanceCell(height.seasonRisk.high),
      ...asSetOut(t === chosen?.index ? chosen : undefined),
      ...end,
    ];
  });
  return {
    columns: columnsOf(
      units,
      'case',
      'tub',
      'tub_diameter',
      'top_height',
      'set_out',
      'centre_forward',
      ...angles.map((angle) => gapColumn(units, angle)),
      'limiting_tyre',
      'limiting_moment',
      'run_risk',
      'run_risk_low',
      'run_risk_high',
      'contact_risk',
      'season_risk',
      'season_risk_low',
      'season_risk_high',
      'set_out_run_risk',
      'set_out_run_risk_high',
      'set_out_contact_risk',
      'set_out_season_risk',
      'set_out_season_risk_high',
      'reserve',
      'fits',
      'reason',
      'best_centre_forward',
      'best_place_top_height',
      'best_place_run_risk_high',
      'best_place_season_risk_high',
      ...own.map((head) => ({
        name: `list_${head}`,
        unit: '',
        about: `${head}, as the shop’s own list of tubs has it`,
      })),
    ),
    rows,
  };
}

/** Gap figures of the limiting tyre at a tub's pick. */
export function limitingGap(
  result: DecidedResult,
  tub: number,
): NonNullable<Result['pickGaps'][number][number]> | undefined {
  const name = result.picks[tub]?.height?.limitingTyre;
  const index = result.tyres.findIndex((tyre) => tyre.name === name);
  return result.pickGaps[index]?.[tub] ?? undefined;
}

/**
 * Where the gap goes at the pick. Medians and percentiles of shares do not add up to those of the whole closing; in
 * every single run the shares themselves do.
 */
export function sharesTable(result: Result): SheetTable {
  const { units, cell } = figuresOf(result);
  const rows = result.shares.flatMap((tyres, t) =>
    tyres.flatMap((rowsOfTyre, i) =>
      rowsOfTyre.map((row) => [
        result.case.name,
        result.tyres[i]!.name,
        row.moment,
        result.tubs[t]!.name,
        cell(result.picks[t]!.height!.topHeight),
        row.share,
        cell(row.p50),
        cell(row.p99),
      ]),
    ),
  );
  return {
    columns: columnsOf(units, 'case', 'tyre', 'moment', 'tub', 'at_height', 'share', 'p50', 'p99'),
    rows,
  };
}

const text = (value: number): string => value.toFixed(4);

/** What drives the height that the limiting tyre needs at the pick, single inputs first, then what each side decides. */
export function driversTable(result: Result): SheetTable {
  const name = result.case.name;
  const single = (result.drivers ?? []).map((row) => [
    name,
    row.tyre,
    row.label,
    row.group,
    ...[row.first, row.total, row.tail].flatMap((span) => [
      text(span.value),
      text(span.low),
      text(span.high),
    ]),
  ]);
  const grouped = (result.driverGroups ?? []).map((row) => [
    name,
    '',
    `all that the ${row.group} decides`,
    row.group,
    ...[row.first, row.total].flatMap((span) => [text(span.value), text(span.low), text(span.high)]),
    '',
    '',
    '',
  ]);
  return {
    columns: columnsOf(
      figuresOf(result).units,
      'case',
      'tyre',
      'input',
      'group',
      'first_order',
      'first_order_low',
      'first_order_high',
      'total',
      'total_low',
      'total_high',
      'touch_distance',
      'touch_distance_low',
      'touch_distance_high',
    ),
    rows: [...single, ...grouped],
  };
}

/** What single changes would ask for or give at the pick, with the same draws before and after. */
export function changesTable(result: Result): SheetTable {
  const { units, cell, wordsOf } = figuresOf(result);
  return {
    columns: columnsOf(
      units,
      'case',
      'change',
      'asks_for',
      'top_height_change',
      'run_risk_before',
      'run_risk_after',
    ),
    rows: (result.changes ?? []).map((row) => [
      result.case.name,
      wordsOf(row.label),
      row.asks,
      row.heightChange === null ? '' : cell(row.heightChange),
      chanceCell(row.runRisk.before),
      chanceCell(row.runRisk.after),
    ]),
  };
}

/** What to measure next: share of the spread of the required height that an input makes alone. */
export function measureTable(result: Result): SheetTable {
  return {
    columns: columnsOf(figuresOf(result).units, 'case', 'input', 'each', 'how', 'share_of_height_spread'),
    rows: (result.measureNext ?? []).map((row) => [
      result.case.name,
      row.label,
      row.each,
      LEARNED_BY[row.each],
      text(row.share),
    ]),
  };
}
