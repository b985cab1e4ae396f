import type { StudyCell, StudyOf } from '@tubgap/results';
import { BLANK, type Block, columnsOf, figureTable, row, type SheetTable, strongRow } from '@tubgap/wording';
import { figuresOf } from '../figures-of.ts';
import { ANY_TYRE } from '../tables.ts';
import {
  comparedAt,
  gapColumns,
  gapValues,
  heightColumns,
  heightValues,
  reportedTub,
  riskColumns,
  riskValues,
} from './study-cells.ts';
import {
  besideHeads,
  besideTexts,
  changeText,
  decidedText,
  ending,
  headline,
  heightText,
  heightWords,
  riskChangeText,
  riskText,
  seasonHeads,
  seasonTexts,
  tubText,
} from './study-words.ts';

type Setups = StudyOf<'setups'>;
type Setup = Setups['setups'][number];

const LETTERS = 'ABCDEFGHIJKLMNOPQRSTUVWXYZ';
const letterOf = (index: number): string => LETTERS[index] ?? `no. ${index + 1}`;

/** Every setup with every tyre, and all together, in every tub, against the first. */
export function setupsTable(study: Setups): SheetTable {
  const { units, cell } = figuresOf(study);
  const rows = study.setups.flatMap((setup, s) =>
    [...setup.tyres, ANY_TYRE].flatMap((tyre, i) =>
      setup.tubs.flatMap((tub, t) => {
        const found = setup.figures[i]![t]!;
        return [
          [
            study.case.name,
            letterOf(s),
            setup.label,
            tyre,
            tub,
            ...heightValues(study, found),
            cell(found.p50),
            cell(found.p99),
            decidedText(found),
            ...riskValues(study, found.compared[0]),
            ...gapValues(study, found.compared[0]),
            study.draws,
          ],
        ];
      }),
    ),
  );
  return {
    columns: columnsOf(
      units,
      'case',
      'setup',
      'what',
      'tyre',
      'tub',
      ...heightColumns(study),
      'required_height_p50',
      'required_height_p99',
      'decided_by',
      ...riskColumns(study),
      ...gapColumns(study),
      'draws',
    ),
    rows,
  };
}

/** A setup's cell for a tub, or tyre and tub, of the first setup; undefined where it has none. */
function besideCell(setup: Setup, tub: number, tyre?: number): StudyCell | undefined {
  const t = setup.tubOf.indexOf(tub);
  const i = tyre === undefined ? setup.figures.length - 1 : setup.tyreOf.indexOf(tyre);
  return t < 0 || i < 0 ? undefined : setup.figures[i]![t];
}

/** Tub by tub, one other setup beside the first. */
function tubsTable(study: Setups, other: number): Block {
  const letter = letterOf(other);
  const rows = study.tubs.map((tub, t) => {
    const own = study.setups[0]!.figures.at(-1)![t]!;
    const beside = besideCell(study.setups[other]!, t);
    return [
      tub.name,
      heightText(figuresOf(study), own),
      beside === undefined ? 'has none' : heightText(figuresOf(study), beside),
      ...(beside === undefined ? seasonHeads(study).map(() => '') : seasonTexts(study, beside)),
      beside === undefined ? '' : changeText(figuresOf(study), beside, own),
      riskText(comparedAt(own, own.topHeight)?.risk),
      riskText(beside?.compared[0]?.risk),
      ...besideTexts(study, beside?.compared[0]),
    ];
  });
  return figureTable(
    [
      'tub',
      'A at least',
      `${letter} at least`,
      ...seasonHeads(study),
      `${letter} against A`,
      'A too close',
      `${letter} at A’s height`,
      ...besideHeads(study),
    ],
    rows,
  );
}

/** What another setup asks for in the tub that words are about. */
function verdict(study: Setups, other: number, tub: number): Block[] {
  const { length } = figuresOf(study);
  const setup = study.setups[other]!;
  const first = study.setups[0]!;
  const own = first.figures.at(-1)![tub]!;
  const beside = besideCell(setup, tub);
  if (beside === undefined) return [row(letterOf(other), `${setup.label}: has no ${study.tubs[tub]!.name}`)];
  const change = changeText(figuresOf(study), beside, own);
  const height = `${heightWords(figuresOf(study), beside)}${change === '' ? '' : `; against A: ${change}`}`;
  const risk = riskChangeText(beside.compared[0]?.difference ?? null);
  const same =
    own.topHeight === null || risk === '' ? [] : [row('', `at A’s ${length(own.topHeight, 'up')}: ${risk}`)];
  const tyres = study.tyres.length < 2 ? [] : tyreWords(study, setup, tub);
  const chosen = setup.chosen === null ? 'none' : setup.tubs[setup.chosen]!;
  const was = study.chosen === null ? 'none' : study.tubs[study.chosen]!.name;
  return [
    strongRow(letterOf(other), `${setup.label}: ${height}`),
    ...same,
    ...tyres,
    ...(chosen === was ? [] : [row('', `tub to build: ${chosen} (A: ${was})`)]),
  ];
}

function tyreWords(study: Setups, setup: Setup, tub: number): Block[] {
  const words = study.tyres.flatMap((name, i) => {
    const cell = besideCell(setup, tub, i);
    if (cell === undefined) return [];
    return [
      `${name} ${changeText(figuresOf(study), cell, study.setups[0]!.figures[i]![tub]!) || (cell.topHeight === null ? 'none' : 'not to be told')}`,
    ];
  });
  return words.length === 0 ? [] : [row('', `each tyre alone: ${words.join(', ')}`)];
}

/** Setups side by side in words: what each asks for, and what it does where the first is built. */
export function setupsText(study: Setups): Block[] {
  const first = study.setups[0]!;
  const tub = reportedTub(study, first.figures);
  const own = first.figures.at(-1)![tub]!;
  return [
    ...headline(study),
    row(
      'COMPARE',
      `in ${tubText(figuresOf(study), study.tubs[tub]!)}, all put through the same simulated runs`,
    ),
    strongRow('A', `${first.label}: ${heightWords(figuresOf(study), own)}`),
    ...study.setups.slice(1).flatMap((_, i) => verdict(study, i + 1, tub)),
    ...(study.setups.length === 2 ? [BLANK, tubsTable(study, 1)] : []),
    BLANK,
    ...ending(study),
  ];
}
