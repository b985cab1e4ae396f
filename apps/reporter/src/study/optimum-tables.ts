import type { StudyCell, StudyOf } from '@tubgap/results';
import { columnsOf, type SheetTable } from '@tubgap/wording';
import { figuresOf } from '../figures-of.ts';
import { heightColumns, heightValues, rowNames } from './study-cells.ts';
import { decidedText } from './study-words.ts';
import { columnOf } from './sweep-tables.ts';

export type Optimum = StudyOf<'optimum'>;
export type OptimumRange = Optimum['ranges'][number];

/** What stands in a column for a value of an input. */
const valueIn = ({ values, texts }: OptimumRange, index: number): string | number =>
  values?.[index] ?? texts[index]!;

/** Every place that was looked at with every tyre and all together, the best first, and what lies beyond the ends that hold it. */
export function optimumTable(study: Optimum): SheetTable {
  const { units, cell } = figuresOf(study);
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
      draws,
      count,
      place === '0' && i === names.length - 1 ? cell(study.best.topHeight) : '',
    ]);
  const best = places[0]!;
  return {
    columns: columnsOf(
      units,
      'case',
      'tub',
      'place',
      'stands',
      ...ranges.map(columnOf),
      'tyre',
      ...heightColumns(study),
      'decided_by',
      'drawn_by',
      'draws',
      'top_height',
    ),
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
