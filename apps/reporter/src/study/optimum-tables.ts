import type { StudyCell, StudyOf } from '@tubgap/results';
import type { SheetTable } from '@tubgap/wording';
import { figuresOf } from '../figures-of.ts';
import {
  heightColumns,
  heightValues,
  plainName,
  riskColumns,
  riskValues,
  rowNames,
  unitName,
} from './study-cells.ts';
import { decidedText } from './study-words.ts';

export type Optimum = StudyOf<'optimum'>;
export type OptimumRange = Optimum['ranges'][number];

/** What stands in a column for a value of an input. */
const valueIn = ({ values, texts }: OptimumRange, index: number): string | number =>
  values?.[index] ?? texts[index]!;

/** Every place that was looked at with every tyre and all together, the best first, and what lies beyond the ends that hold it. */
export function optimumTable(study: Optimum): SheetTable {
  const { column, cell } = figuresOf(study);
  const { ranges, places, tubs, tub, own } = study;
  const names = rowNames(study.tyres);
  const rowsOf = (
    place: string,
    stands: string,
    draws: string,
    count: number,
    at: readonly (string | number)[],
    cells: readonly StudyCell[],
  ) =>
    cells.map((found, i) => [
      study.case.name,
      tubs[tub]!.name,
      place,
      stands,
      ...at,
      names[i]!,
      ...heightValues(study, found),
      decidedText(found),
      ...riskValues(study, found.compared[0]),
      draws,
      count,
      place === '0' && i === names.length - 1 ? cell(study.best.topHeight) : '',
    ]);
  const best = places[0]!;
  return {
    header: [
      'case',
      'tub',
      'place',
      'stands',
      ...ranges.map(({ path, unit }) => [plainName(path), unitName(unit)].filter(Boolean).join('_')),
      'tyre',
      ...heightColumns(study),
      'decided_by',
      ...riskColumns(study),
      'draws',
      'plain_draws',
      column('top_height_with_season'),
    ],
    rows: [
      ...places.flatMap(({ at, isAgain, isApart, cells }, p) =>
        rowsOf(
          String(p),
          p === 0 ? 'best' : isApart ? 'worse' : 'as good',
          isAgain ? 'judged' : 'search',
          isAgain ? study.besideDraws : study.searchDraws,
          ranges.map((range, v) => valueIn(range, at[v]!)),
          cells,
        ),
      ),
      ...(own.cells === null
        ? []
        : rowsOf(
            'as in the case',
            '',
            'judged',
            study.besideDraws,
            ranges.map((range) => range.own ?? ''),
            own.cells,
          )),
      ...ranges.flatMap((range, axis) =>
        range.beyond === null
          ? []
          : rowsOf(
              'beyond',
              '',
              'judged',
              study.besideDraws,
              ranges.map((one, v) => (v === axis ? range.beyond!.text : valueIn(one, best.at[v]!))),
              range.beyond.cells,
            ),
      ),
    ],
  };
}
