import { type CheckedValue, checkedPlaceText, countLeftOut } from '@tubgap/evidence';
import { chanceCell, figuresIn, type LengthUnits } from '@tubgap/units';
import { columnsOf, type SheetTable } from '@tubgap/wording';
import type { AssessedCase } from './assessed-case.ts';
import type { Learning } from './learning.ts';
import type { Outcome } from './outcome.ts';

/** Cells of one case's tables as plain numbers. */
function numbersIn(units: LengthUnits) {
  const { cell, speedNumber } = figuresIn(units);
  return {
    unit: units === 'mm' ? 'mm' : 'in',
    length: (metres: number): number => Number(cell(metres)),
    speed: (speed: number): number => Number(speedNumber(speed).toFixed(2)),
  };
}

const heightOf = (
  { picks }: AssessedCase,
  tub: number,
  { length }: ReturnType<typeof numbersIn>,
): number | '' => {
  const height = picks[tub]?.height?.topHeight;
  return height === undefined ? '' : length(height);
};

/** Pick and risks of every tub, before and after, and the inputs and shares that changed. */
export function beforeAfterSheet({ source, learned, before, after, shares }: Learning): SheetTable {
  const rows: (string | number)[][] = [];
  const numbers = numbersIn(source.units);
  const { unit, length } = numbers;
  source.tubs.forEach(({ name }, t) => {
    rows.push([
      'pick',
      name,
      `lowest top height, ${unit}`,
      heightOf(before, t, numbers),
      heightOf(after, t, numbers),
    ]);
    const height = before.picks[t]?.height?.topHeight;
    if (height === undefined) return;
    source.tyres.forEach((tyre, i) => {
      const risk = (of: AssessedCase, which: 'touch' | 'contact'): string =>
        chanceCell(of.risks[t]![which][i]!.estimate);
      const at = `at ${length(height)} ${unit}`;
      rows.push([
        'run risk',
        name,
        `${tyre.name} too close ${at}`,
        risk(before, 'touch'),
        risk(after, 'touch'),
      ]);
      rows.push([
        'run risk',
        name,
        `${tyre.name} in contact ${at}`,
        risk(before, 'contact'),
        risk(after, 'contact'),
      ]);
    });
    const season = (of: AssessedCase): string => chanceCell(of.risks[t]!.season.estimate);
    rows.push(['season risk', name, `at ${length(height)} ${unit}`, season(before), season(after)]);
  });
  for (const { tyre, label, before: was, after: is } of learned.inputs) {
    rows.push(['input', tyre ?? '', `${label}: median (nine in ten)`, was, is]);
  }
  shares?.before.forEach((row, k) => {
    const now = shares.after[k]!;
    rows.push(['share', row.moment, `${row.share}, middle, ${unit}`, length(row.p50), length(now.p50)]);
    rows.push(['share', row.moment, `${row.share}, 99 %, ${unit}`, length(row.p99), length(now.p99)]);
  });
  return { columns: columnsOf('inch', 'what', 'of', 'quantity', 'before', 'after'), rows };
}

export function contributionSheet({ source, contributions, measured, quickHolds }: Learning): SheetTable {
  const { length } = numbersIn(source.units);
  return {
    columns: columnsOf(
      source.units,
      'measurement',
      'files',
      'readings',
      'rows_left_out',
      'moved_most',
      'tyre',
      'spread_left',
      'car_to_car_height_spread_taken_away',
      'height_change_alone',
    ),
    rows: [
      ...contributions.parts.map((part) => [
        part.kind,
        part.file,
        part.readings,
        countLeftOut(measured.rejected.filter(({ file }) => part.file.split(', ').includes(file))),
        part.label,
        part.tyre,
        Number(part.spreadLeft.toFixed(3)),
        Number(part.narrowed.toFixed(3)),
        quickHolds ? length(part.heightChange) : '',
      ]),
      [
        'all together',
        '',
        contributions.parts.reduce((sum, part) => sum + part.readings, 0),
        countLeftOut(measured.rejected),
        '',
        '',
        '',
        Number(contributions.all.narrowed.toFixed(3)),
        quickHolds ? length(contributions.all.heightChange) : '',
      ],
    ],
  };
}

export function growthSheet({ source, growth }: Learning): SheetTable {
  const { length, speed: speedNumber } = numbersIn(source.units);
  return {
    columns: columnsOf(
      source.units,
      'tyre',
      'what',
      'speed',
      'before_p05',
      'before_p50',
      'before_p95',
      'after_p05',
      'after_p50',
      'after_p95',
      'measured',
      'measured_sd',
    ),
    rows: growth.flatMap(({ tyre, speeds, before, after, points }) => [
      ...speeds.map((speed, k) => [
        tyre,
        'curve',
        speedNumber(speed),
        ...[before, after].flatMap(({ low, middle, high }) => [low, middle, high].map((x) => length(x[k]!))),
        '',
        '',
      ]),
      ...points.map((point) => [
        tyre,
        `${point.file}, ${point.phase}`,
        speedNumber(point.speed),
        '',
        '',
        '',
        '',
        '',
        '',
        length(point.growth),
        length(point.sd),
      ]),
    ]),
  };
}

export const rejectedSheet = ({ measured }: Pick<Outcome, 'measured'>): SheetTable => ({
  columns: columnsOf('inch', 'file', 'line', 'column', 'reason'),
  rows: [
    ...measured.rejected.map(({ file, line, column, reason }) => [
      file,
      line === 0 ? '' : line,
      column ?? '',
      reason,
    ]),
    ...measured.unknown.map((file) => [file, '', '', 'not read: no measurement is known by this name']),
  ],
});

export function worthSheet({ source, worths, quickHolds }: Learning): SheetTable {
  const { length } = numbersIn(source.units);
  return {
    columns: columnsOf(source.units, 'measurement', 'expected_height_saved', 'outcome_p10', 'outcome_p90'),
    // Blank where the quick heights do not follow the simulated ones.
    rows: (quickHolds ? worths : []).map(({ label, expected, low, high }) => [
      label,
      length(expected),
      length(low),
      length(high),
    ]),
  };
}

/** Every value of the check sheet with its limits and what became of it. */
export function checkedSheet(values: readonly CheckedValue[], units: LengthUnits): SheetTable {
  const numbers = numbersIn(units);
  return {
    columns: columnsOf(
      units,
      'side',
      'what',
      'file',
      'line',
      'measured',
      'least',
      'most',
      'judgement',
      'outside',
    ),
    rows: values.map((value) => {
      const length = (metres: number | undefined): number | '' =>
        metres === undefined ? '' : numbers.length(metres);
      const { side, file, line, measured, least, most, judgement, outside } = value;
      return [
        side,
        checkedPlaceText(value),
        file,
        line === 0 ? '' : line,
        length(measured),
        length(least),
        length(most),
        judgement === 'pass' || judgement === 'fail' ? judgement.toUpperCase() : judgement,
        numbers.length(outside),
      ];
    }),
  };
}
