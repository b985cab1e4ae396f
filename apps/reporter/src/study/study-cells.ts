import type { Study, StudyCell } from '@tubgap/results';
import { chanceCell } from '@tubgap/units';
import { figuresOf, type OfCase } from '../figures-of.ts';
import { ANY_TYRE } from '../tables.ts';

/** Columns of a cell's heights. */
export const heightColumns = (study: OfCase): string[] =>
  ['top_height', 'even_height', 'height_change', 'height_change_ci95_low', 'height_change_ci95_high'].map(
    figuresOf(study).column,
  );

export const heightValues = (study: OfCase, found: StudyCell): string[] =>
  [
    found.topHeight,
    found.heightAtRisk,
    found.heightDifference?.estimate,
    found.heightDifference?.low,
    found.heightDifference?.high,
  ].map(figuresOf(study).cell);

/** Columns of the risk at one height. */
export const riskColumns = (study: OfCase): string[] => [
  figuresOf(study).column('at_height'),
  'run_risk',
  'run_risk_ci95_low',
  'run_risk_ci95_high',
  'risk_change',
  'risk_change_ci95_low',
  'risk_change_ci95_high',
  'method',
  'cov',
  'effective_draws',
];

type Compared = StudyCell['compared'][number];

export const riskValues = (study: OfCase, compared: Compared | undefined): string[] => {
  if (compared === undefined) return riskColumns(study).map(() => '');
  const { height, risk, difference } = compared;
  return [
    figuresOf(study).cell(height),
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
