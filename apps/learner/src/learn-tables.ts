import { type CheckedValue, checkedPlaceText, countLeftOut } from '@tubgap/evidence';
import { chanceCell, inchCell, MPH } from '@tubgap/units';
import type { SheetTable } from '@tubgap/wording';
import type { AssessedCase } from './assessed-case.ts';
import type { Learning } from './learning.ts';
import type { Outcome } from './outcome.ts';

const inchNumber = (metres: number): number => Number(inchCell(metres));
const mph = (speed: number): number => Number((speed / MPH).toFixed(2));

const heightOf = ({ picks }: AssessedCase, tub: number): number | '' => {
  const height = picks[tub]?.height?.topHeight;
  return height === undefined ? '' : inchNumber(height);
};

/** Pick and risks of every tub, before and after, and the inputs and shares that changed. */
export function beforeAfterSheet({ source, learned, before, after, shares }: Learning): SheetTable {
  const rows: (string | number)[][] = [];
  source.tubs.forEach(({ name }, t) => {
    rows.push(['pick', name, 'lowest top height, in', heightOf(before, t), heightOf(after, t)]);
    const height = before.picks[t]?.height?.topHeight;
    if (height === undefined) return;
    source.tyres.forEach((tyre, i) => {
      const risk = (of: AssessedCase, which: 'touch' | 'contact'): string =>
        chanceCell(of.risks[t]![which][i]!.estimate);
      const at = `at ${inchNumber(height)} in`;
      rows.push([
        'run risk',
        name,
        `${tyre.name} under the reserve ${at}`,
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
    rows.push(['season risk', name, `at ${inchNumber(height)} in`, season(before), season(after)]);
  });
  for (const { tyre, label, before: was, after: is } of learned.inputs) {
    rows.push(['input', tyre ?? '', `${label}: median (nine in ten)`, was, is]);
  }
  shares?.before.forEach((row, k) => {
    const now = shares.after[k]!;
    rows.push(['share', row.moment, `${row.share}, middle, in`, inchNumber(row.p50), inchNumber(now.p50)]);
    rows.push(['share', row.moment, `${row.share}, 99 %, in`, inchNumber(row.p99), inchNumber(now.p99)]);
  });
  return { header: ['what', 'of', 'quantity', 'before', 'after'], rows };
}

export const contributionSheet = ({ contributions, measured, quickHolds }: Learning): SheetTable => ({
  header: [
    'measurement',
    'files',
    'readings',
    'rows_left_out',
    'moved_most',
    'tyre',
    'spread_left',
    'car_to_car_height_spread_taken_away',
    'height_change_alone_in',
  ],
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
      quickHolds ? inchNumber(part.heightChange) : '',
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
      quickHolds ? inchNumber(contributions.all.heightChange) : '',
    ],
  ],
});

export const growthSheet = ({ growth }: Learning): SheetTable => ({
  header: [
    'tyre',
    'row',
    'speed_mph',
    'before_p05_in',
    'before_p50_in',
    'before_p95_in',
    'after_p05_in',
    'after_p50_in',
    'after_p95_in',
    'measured_in',
    'measured_sd_in',
  ],
  rows: growth.flatMap(({ tyre, speeds, before, after, points }) => [
    ...speeds.map((speed, k) => [
      tyre,
      'curve',
      mph(speed),
      ...[before, after].flatMap(({ low, middle, high }) =>
        [low, middle, high].map((x) => inchNumber(x[k]!)),
      ),
      '',
      '',
    ]),
    ...points.map((point) => [
      tyre,
      `${point.file}, ${point.phase}`,
      mph(point.speed),
      '',
      '',
      '',
      '',
      '',
      '',
      inchNumber(point.growth),
      inchNumber(point.sd),
    ]),
  ]),
});

export const rejectedSheet = ({ measured }: Pick<Outcome, 'measured'>): SheetTable => ({
  header: ['file', 'line', 'column', 'reason'],
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

export const worthSheet = ({ worths, quickHolds }: Learning): SheetTable => ({
  header: ['measurement', 'expected_height_saved_in', 'outcome_p10_in', 'outcome_p90_in'],
  // Blank where the quick heights do not follow the simulated ones.
  rows: (quickHolds ? worths : []).map(({ label, expected, low, high }) => [
    label,
    inchNumber(expected),
    inchNumber(low),
    inchNumber(high),
  ]),
});

/** Every value of the check sheet with its limits and what became of it. */
export const checkedSheet = (values: readonly CheckedValue[]): SheetTable => ({
  header: ['side', 'what', 'file', 'line', 'measured_in', 'least_in', 'most_in', 'judgement', 'outside_in'],
  rows: values.map((value) => {
    const length = (metres: number | undefined): number | '' =>
      metres === undefined ? '' : inchNumber(metres);
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
      inchNumber(outside),
    ];
  }),
});
