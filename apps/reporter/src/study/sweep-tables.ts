import type { StudyCell, StudyOf } from '@tubgap/results';
import { type Column, columnsOf, type SheetTable, yesNo } from '@tubgap/wording';
import { figuresOf } from '../figures-of.ts';
import {
  comparedAt,
  gapColumns,
  gapValues,
  heightColumns,
  heightValues,
  plainName,
  riskColumns,
  riskValues,
  rowNames,
  unitName,
} from './study-cells.ts';
import { decidedText } from './study-words.ts';

export type Sweep = StudyOf<'sweep'>;
type Point = Sweep['points'][number];

/** Value of one varied input at a point, in its unit; the case's own where the point has none of its own. */
export function valueAt(study: Sweep, point: Point, input: number): string | number {
  const { values, texts, own } = study.varied[input]!;
  const index = point.at[input];
  if (index === null || index === undefined) return own ?? 'as in the case';
  return values?.[index] ?? writtenValue(texts[index]!);
}

/** A value as it was written; '~' is the case's own. */
const writtenValue = (text: string): string => (text === '~' ? 'as in the case' : text);

/** Column of a varied input: 'run_trapSpeed_mph'. */
export const columnOf = ({
  path,
  label,
  unit,
}: Pick<Sweep['varied'][number], 'path' | 'label' | 'unit'>): Column => ({
  name: [plainName(path), unitName(unit)].filter(Boolean).join('_'),
  unit,
  about: `${label}, varied (${path})`,
});

/** Row of the figures that summary, pictures and words are about: the one tyre asked for, else all of the car's together. */
export const reportedRow = ({ shown, tyres }: Sweep): number =>
  shown.tyres.length === 1 ? shown.tyres[0]! : tyres.length;

/** What is found at a point in a tub for that row. */
export const reportedCell = (study: Sweep, point: Point, tub: number): StudyCell =>
  point.figures[reportedRow(study)]![tub]!;

/** The height that the case itself asks for in a tub, m. */
export const ownHeight = (study: Sweep, tub: number): number | null =>
  study.points[0]!.figures.at(-1)![tub]!.topHeight;

/** Every point with every tyre asked for, and all together, in every tub, at every height that is compared. */
export function sweepTable(study: Sweep): SheetTable {
  const { units, cell } = figuresOf(study);
  const shown = [...study.shown.tyres, study.tyres.length];
  const rows = study.points.flatMap((point, p) =>
    shown.flatMap((i) =>
      study.tubs.flatMap((tub, t) => {
        const found = point.figures[i]![t]!;
        const risks = found.compared.length === 0 ? [undefined] : found.compared;
        return risks.map((risk) => [
          study.case.name,
          p,
          yesNo(p === 0),
          ...study.varied.map((_, v) => valueAt(study, point, v)),
          rowNames(point.tyres ?? study.tyres)[i]!,
          tub.name,
          cell(tub.diameter),
          ...heightValues(study, found),
          cell(found.p50),
          cell(found.p99),
          decidedText(found),
          ...riskValues(study, risk),
          ...gapValues(study, risk),
          study.draws,
        ]);
      }),
    ),
  );
  return {
    columns: columnsOf(
      units,
      'case',
      'point',
      'as_in_case',
      ...study.varied.map(columnOf),
      'tyre',
      'tub',
      'tub_diameter',
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

/** One value of one varied input, all others held. */
export interface SeriesPoint {
  point: Point;
  value: string | number;
  /** Which of the input's values; undefined for the case as it stands. */
  index: number | undefined;
}

/** The points along one varied input, the others held at what the name says; by their order in the sweep. */
export interface Series {
  name: string;
  points: SeriesPoint[];
}

/** The lines along one input of a sweep. The case as it stands is a point of the one line where nothing else varies. */
export function seriesOf(study: Sweep, input: number): Series[] {
  const found = new Map<string, Series>();
  study.points.forEach((point, p) => {
    const index = point.at[input] ?? undefined;
    const alone = study.varied.length === 1 || study.mode === 'one at a time';
    if (p === 0 ? !alone || study.varied[input]!.own === null : index === undefined) return;
    const name = alone
      ? ''
      : study.varied
          .flatMap(({ label, texts }, v) => {
            const at = point.at[v];
            return v === input || at === null || at === undefined
              ? []
              : [`${label} ${writtenValue(texts[at]!)}`];
          })
          .join(', ');
    const series = found.get(name) ?? { name, points: [] };
    series.points.push({ point, value: valueAt(study, point, input), index });
    found.set(name, series);
  });
  return [...found.values()].map(({ name, points }) => ({ name, points: byValue(points) }));
}

/** By rising value where all are numbers; as they were asked for otherwise. */
const byValue = (points: readonly SeriesPoint[]): SeriesPoint[] =>
  points.every(({ value }) => typeof value === 'number')
    ? points.toSorted((a, b) => (a.value as number) - (b.value as number))
    : [...points];

/** Ready to plot: for each varied input and each of its values height and risk in every tub, of the whole car or of the one tyre asked for. */
export function summaryTable(study: Sweep): SheetTable {
  const rows = study.varied.flatMap(({ path, unit }, v) =>
    seriesOf(study, v).flatMap(({ name, points }) =>
      study.tubs.flatMap((tub, t) =>
        points.map(({ point, value, index }) => [
          path,
          name,
          value,
          unit,
          yesNo(index === undefined),
          rowNames(point.tyres ?? study.tyres)[reportedRow(study)]!,
          tub.name,
          ...heightValues(study, reportedCell(study, point, t)),
          ...riskValues(study, comparedAt(reportedCell(study, point, t), ownHeight(study, t))),
          point.chosen === null ? '' : study.tubs[point.chosen]!.name,
        ]),
      ),
    ),
  );
  return {
    columns: columnsOf(
      figuresOf(study).units,
      'varied',
      'others_at',
      'value',
      'unit',
      'as_in_case',
      'tyre',
      'tub',
      ...heightColumns(study),
      ...riskColumns(study),
      'tub_to_build',
    ),
    rows,
  };
}
