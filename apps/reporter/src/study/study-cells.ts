import type { Study, StudyCell } from '@tubgap/results';
import { chanceCell, degreeCell } from '@tubgap/units';
import { type Column, columnsOf } from '@tubgap/wording';
import { figuresOf } from '../figures-of.ts';
import { ANY_TYRE, gapColumn } from '../tables.ts';

/** Whether the seasons of every setup were run. */
export const hasSeasons = ({ kind, cars }: Study): boolean =>
  (kind === 'sweep' || kind === 'setups') && cars !== null;

/** Columns of a cell's heights. */
export const heightColumns = (study: Study): Column[] =>
  columnsOf(
    figuresOf(study).units,
    'run_top_height',
    ...(hasSeasons(study) ? (['top_height'] as const) : []),
    'even_height',
    'height_change',
    'height_change_low',
    'height_change_high',
  );

export const heightValues = (study: Study, found: StudyCell): string[] =>
  [
    found.topHeight,
    ...(hasSeasons(study) ? [found.seasonTopHeight] : []),
    found.heightAtRisk,
    found.heightDifference?.estimate,
    found.heightDifference?.low,
    found.heightDifference?.high,
  ].map(figuresOf(study).cell);

/** Columns of the risks at one height. */
export const riskColumns = (study: Study): Column[] =>
  columnsOf(
    figuresOf(study).units,
    'at_height',
    'run_risk',
    'run_risk_low',
    'run_risk_high',
    'run_risk_change',
    'run_risk_change_low',
    'run_risk_change_high',
    'contact_risk',
    'contact_risk_low',
    'contact_risk_high',
    ...(hasSeasons(study) ? (['season_risk', 'season_risk_low', 'season_risk_high'] as const) : []),
  );

/** Columns of the gaps there, and of how its run risk was found. */
export const gapColumns = (study: Study): Column[] => {
  const { units } = figuresOf(study);
  const straightUp = gapColumn(units, 0);
  return columnsOf(
    units,
    'gap_p01',
    'gap_p05',
    'gap_p50',
    straightUp,
    'tight_angle_deg',
    'tight_moment',
    'method',
    'cov',
    'effective_draws',
  );
};

type Compared = StudyCell['compared'][number];

const chanceCells = (
  risk: Readonly<{ estimate: number; low: number; high: number }> | null | undefined,
): string[] => [risk?.estimate, risk?.low, risk?.high].map((chance) => chanceCell(chance));

export const riskValues = (study: Study, compared: Compared | undefined): string[] => {
  if (compared === undefined) return riskColumns(study).map(() => '');
  const { height, risk, difference, contact, season } = compared;
  return [
    figuresOf(study).cell(height),
    ...chanceCells(risk),
    ...chanceCells(difference),
    ...chanceCells(contact),
    ...(hasSeasons(study) ? chanceCells(season) : []),
  ];
};

export const gapValues = (study: Study, compared: Compared | undefined): string[] => {
  if (compared === undefined) return gapColumns(study).map(() => '');
  const { cell } = figuresOf(study);
  const {
    risk,
    gaps: { atSpeed, standing },
  } = compared;
  return [
    ...[atSpeed.p01, atSpeed.p05, atSpeed.p50, standing].map(cell),
    degreeCell(atSpeed.tightestAngle),
    atSpeed.tightestMoment,
    risk.method,
    risk.cov === null ? '' : risk.cov.toPrecision(3),
    risk.effectiveDraws.toFixed(0),
  ];
};

/** Risk at a height of a cell. */
export const comparedAt = (cell: StudyCell, height: number | null): Compared | undefined =>
  cell.compared.find((one) => one.height === height);

/** Names of the rows of figures: the tyres, and all of them together. */
export const rowNames = (tyres: readonly string[]): string[] => [...tyres, ANY_TYRE];

/** Part of a column's or file's name: letters and digits. */
export const plainName = (text: string): string => text.replace(/[^A-Za-z0-9]+/g, '_').replace(/^_|_$/g, '');

/** A unit as part of a column's name: column('lbf_per'), 'percent'. */
export const unitName = (unit: string): string =>
  plainName(unit.replaceAll('/', '_per_').replace('%', 'percent'));

/** The tub that words are about: the one to build, else the first that has a height or would have one, else the first. */
export function reportedTub(study: Study, figures: readonly (readonly StudyCell[])[]): number {
  if (study.chosen !== null) return study.chosen;
  return Math.max(
    0,
    figures.at(-1)!.findIndex(({ topHeight, heightAtRisk }) => (topHeight ?? heightAtRisk) !== null),
  );
}
