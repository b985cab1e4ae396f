import type { StudyCell } from '@tubgap/results';
import { INCH } from '@tubgap/units';
import { BLANK, type Block, figureTable, line, row } from '@tubgap/wording';
import { figuresOf } from '../figures-of.ts';
import { comparedAt, reportedTub } from './study-cells.ts';
import {
  besideHeads,
  besideTexts,
  changeText,
  ending,
  headline,
  heightText,
  heightWords,
  isTooFew,
  listText,
  moreBeside,
  riskText,
  seasonHeads,
  seasonTexts,
  tubText,
} from './study-words.ts';
import { type Effect, effectsOf, valueText, written } from './sweep-effects.ts';
import { ownHeight, reportedCell, reportedRow, type SeriesPoint, type Sweep } from './sweep-tables.ts';

/** Rows of the printed table at most; the CSV has all. */
const MOST_ROWS = 24;

/** 'from 1/4 in less (210 mph) to 3/16 in more (238 mph)' */
function effectText(study: Sweep, { input, spread, least, most, others }: Effect, tub: number): string {
  const { length } = figuresOf(study);
  const { label } = study.varied[input]!;
  const held = others === '' ? '' : `, with ${others}`;
  if (spread < INCH / 32) return `${label}: nothing that a tape shows`;
  const at = (one: SeriesPoint): string => {
    const change = moreBeside(
      figuresOf(study),
      reportedCell(study, one.point, tub),
      reportedCell(study, study.points[0]!, tub),
    );
    const value = written(study, input, one);
    return change === undefined ? value : `${change} (${value})`;
  };
  if (least === most) return `${label}: ${at(least)}${held}`;
  const known = reportedCell(study, study.points[0]!, tub).heightAtRisk !== null;
  const size = known ? '' : `${length(spread, 'nearest')} of height, `;
  return `${label}: ${size}from ${at(least)} to ${at(most)}${held}`;
}

/** Where another tub than the case's own is to be built. */
function tubWords(study: Sweep): string {
  const own = study.points[0]!.chosen;
  const name = (tub: number | null): string => (tub === null ? 'none' : study.tubs[tub]!.name);
  const others = study.points.slice(1).filter(({ chosen }) => chosen !== own);
  if (others.length === 0) return `${name(own)} at every point`;
  const lines = [...new Set(others.map(({ chosen }) => chosen))].map((chosen) => {
    const points = others.filter((point) => point.chosen === chosen);
    const first = pointText(study, points[0]!);
    const more =
      points.length > 1 ? ` and ${points.length - 1} more point${points.length > 2 ? 's' : ''}` : '';
    const few = chosen === null && points.some((point) => point.figures.at(-1)!.some(isTooFew));
    return `${few ? 'not to be told from so few runs' : name(chosen)} at ${first}${more}`;
  });
  return `${name(own)} as it stands; ${lines.join('; ')}`;
}

const pointText = (study: Sweep, point: Sweep['points'][number]): string =>
  study.varied
    .flatMap(({ label, texts }, v) => {
      const at = point.at[v];
      return at === null || at === undefined ? [] : [`${label} ${valueText(texts[at]!)}`];
    })
    .join(', ');

/** Inputs in one table at most; more are told by the number of the row that gave them. */
const MOST_INPUTS = 4;

const isByNumber = ({ mode, varied }: Sweep): boolean => mode === 'points' && varied.length > MOST_INPUTS;

/** What a point is called in the table: a column an input for a grid, one for all where one is varied at a time. */
function pointColumns(study: Sweep, point: Sweep['points'][number]): string[] {
  const number = study.points.indexOf(point);
  if (isByNumber(study)) return [number === 0 ? 'the case as it stands' : String(number)];
  if (study.mode === 'one at a time') return [pointText(study, point) || 'the case as it stands'];
  return study.varied.map(({ texts }, v) => {
    const at = point.at[v];
    return at === null || at === undefined ? 'as in the case' : valueText(texts[at]!);
  });
}

/** Whose risk a sweep's table tells of: that of the row that it reports. */
const riskOf = (study: Sweep): string => study.tyres[reportedRow(study)] ?? 'any tyre';

function pointsTable(study: Sweep, tub: number): Block[] {
  const { length } = figuresOf(study);
  const own = ownHeight(study, tub);
  const names =
    study.mode === 'one at a time' || isByNumber(study) ? ['point'] : study.varied.map(({ label }) => label);
  const shown = study.points.slice(0, MOST_ROWS + 1);
  const tableOf = (heads: readonly string[], texts: (cell: StudyCell, isBase: boolean) => string[]): Block =>
    figureTable(
      [...names, ...heads],
      shown.map((point) => [
        ...pointColumns(study, point),
        ...texts(reportedCell(study, point, tub), point === study.points[0]),
      ]),
    );
  const risk = own === null ? [] : [`${riskOf(study)} too close at ${length(own, 'up')}`];
  const heights = tableOf(
    ['top at least', ...seasonHeads(study), 'against the case', ...risk],
    (cell, isBase) => [
      heightText(figuresOf(study), cell),
      ...seasonTexts(study, cell),
      isBase ? '' : changeText(figuresOf(study), cell, reportedCell(study, study.points[0]!, tub)),
      ...(own === null ? [] : [riskText(comparedAt(cell, own)?.risk)]),
    ],
  );
  // A table of its own: with the heights it would be too wide for most terminals.
  const beside =
    own === null
      ? []
      : [
          BLANK,
          line(`  At ${length(own, 'up')} for ${riskOf(study)}:`),
          tableOf(besideHeads(study), (cell) => besideTexts(study, comparedAt(cell, own))),
        ];
  const left = study.points.length - 1 - MOST_ROWS;
  return [heights, ...(left > 0 ? [line(`  ${left} more points in sweep.csv`)] : []), ...beside];
}

/** Heights of the fabricator's own, with the risk at each, the case as it stands. */
function heightRows(study: Sweep, tub: number): Block[] {
  const { length } = figuresOf(study);
  const { heights } = study.shown;
  if (heights.length === 0) return [];
  const cell = reportedCell(study, study.points[0]!, tub);
  const rows = heights.map((height) => [
    length(height, 'down'),
    riskText(comparedAt(cell, height)?.risk),
    ...besideTexts(study, comparedAt(cell, height)),
  ]);
  return [
    BLANK,
    line(`  The case as it stands in ${study.tubs[tub]!.name}:`),
    figureTable(['top at', `${riskOf(study)} too close`, ...besideHeads(study)], rows),
  ];
}

/** What a sweep found, in words: what moves the height and by how many sixteenths, then point by point. */
export function sweepText(study: Sweep): Block[] {
  const tub = reportedTub(study, study.points[0]!.figures);
  const effects = effectsOf(study, tub);
  return [
    ...headline(study),
    row(
      'SWEEP',
      `${listText(study.varied.map(({ label }) => label)) || 'heights'} in ${tubText(figuresOf(study), study.tubs[tub]!)}${reportedRow(study) === study.tyres.length ? '' : `, ${study.tyres[reportedRow(study)]} alone`}`,
    ),
    row('As it stands', heightWords(figuresOf(study), reportedCell(study, study.points[0]!, tub))),
    ...effects.map((effect, i) => row(i === 0 ? 'MOVES IT' : '', effectText(study, effect, tub))),
    ...(study.varied.length === 0 ? [] : [row('Tub to build', tubWords(study))]),
    ...(study.varied.length === 0 ? [] : [BLANK, ...pointsTable(study, tub)]),
    ...heightRows(study, tub),
    BLANK,
    ...ending(study),
  ];
}
