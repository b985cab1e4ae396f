import type { Study, StudyCell } from '@tubgap/results';
import { chanceCell, inchCell } from '@tubgap/units';
import { ANY_TYRE } from '../tables.ts';

/** Columns of a cell's heights. */
export const HEIGHT_COLUMNS = [
  'top_height_in',
  'even_height_in',
  'height_change_in',
  'height_change_ci95_low_in',
  'height_change_ci95_high_in',
] as const;

export const heightValues = (cell: StudyCell): string[] => [
  inchCell(cell.topHeight),
  inchCell(cell.heightAtRisk),
  inchCell(cell.heightDifference?.estimate),
  inchCell(cell.heightDifference?.low),
  inchCell(cell.heightDifference?.high),
];

/** Columns of the risk at one height. */
export const RISK_COLUMNS = [
  'at_height_in',
  'run_risk',
  'run_risk_ci95_low',
  'run_risk_ci95_high',
  'risk_change',
  'risk_change_ci95_low',
  'risk_change_ci95_high',
  'method',
  'cov',
  'effective_draws',
] as const;

type Compared = StudyCell['compared'][number];

export const riskValues = (compared: Compared | undefined): string[] => {
  if (compared === undefined) return RISK_COLUMNS.map(() => '');
  const { height, risk, difference } = compared;
  return [
    inchCell(height),
    chanceCell(risk.estimate),
    chanceCell(risk.low),
    chanceCell(risk.high),
    chanceCell(difference?.estimate),
    chanceCell(difference?.low),
    chanceCell(difference?.high),
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

/** A unit as part of a column's name: 'lbf_per_in', 'percent'. */
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
