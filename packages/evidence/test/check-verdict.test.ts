import { describe, expect, it } from 'vitest';
import {
  checkedText,
  checkSummary,
  HAND_TABLES,
  judgeChecks,
  noReadings,
  readHandTable,
} from '../src/index.ts';

const context = {
  tyres: [{ name: 'tall-slick', tyre: 'tall-slick' }],
  tubs: ['street-42'],
  built: { tub: 'street-42', topHeight: 1, centreForward: undefined },
};

const GAPS = 'case,side,angle_deg,static_gap_in,limit_in,measured_in';
const HARD = 'case,side,hard_point,static_gap_in,limit_in,measured_in';
const TUB =
  'case,side,top_set_out_in,top_least_in,top_measured_in,centre_set_out_in,centre_least_in,centre_most_in,centre_measured_in';

/** A sheet on which everything is measured and passes, by file. */
const SOUND: Readonly<Record<string, readonly string[]>> = {
  'check-sheet.csv': [GAPS, 'demo,left,0,6.1307,5.7807,5 13/16', 'demo,right,0,6.1307,5.7807,5.7807'],
  'check-hard-points.csv': [
    HARD,
    'demo,left,cage bar,9.4500,5.0000,9 1/2',
    'demo,right,cage bar,9.4500,5.0000,5',
  ],
  'check-tub.csv': [
    TUB,
    'demo,left,39.3125,39.2500,39 1/4,0.2500,0.0000,0.5000,1/2',
    'demo,right,39.3125,39.2500,39 3/8,0.2500,0.0000,0.5000,0',
  ],
};

/** The verdict on that sheet with a row in place of the one that begins alike. */
function verdict(file = '', row = '', tables = SOUND) {
  const readings = noReadings();
  const rejected = Object.entries(tables).flatMap(([name, lines]) => {
    const start = row.split(',').slice(0, 3).join(',');
    const text = lines.map((line) => (name === file && line.startsWith(start) ? row : line)).join('\n');
    return readHandTable(HAND_TABLES.find((one) => one.file === name)!, text, context, readings);
  });
  return { rejected, ...judgeChecks(readings.checks, rejected, ['cage bar'])! };
}

describe('a filled check sheet', () => {
  it('passes where every value is at its limit or within, to the last digit printed', () => {
    const { whole, values } = verdict();
    expect(values.map(({ judgement }) => judgement)).toEqual(new Array(8).fill('pass'));
    expect(whole).toBe('pass');
  });

  it.each([
    ['check-sheet.csv', 'demo,right,0,6.1307,5.7807,5.7806', 'gap at 0°, right'],
    ['check-sheet.csv', 'demo,left,0,6.1307,5.7807,0', 'gap at 0°, left'],
    ['check-hard-points.csv', 'demo,left,cage bar,9.4500,5.0000,4 15/16', 'gap to cage bar, left'],
    ['check-tub.csv', 'demo,left,39.3125,39.2500,39 3/16,0.2500,0.0000,0.5000,1/4', 'top height, left'],
    [
      'check-tub.csv',
      'demo,right,39.3125,39.2500,39 1/4,0.2500,0.0000,0.5000,9/16',
      'centre ahead of the axle, right',
    ],
    [
      'check-tub.csv',
      'demo,right,39.3125,39.2500,39 1/4,0.2500,0.0000,0.5000,-1/16',
      'centre ahead of the axle, right',
    ],
  ])('%s: one value outside fails the whole: %s', (file, row, place) => {
    const found = verdict(file, row);
    expect(found.whole).toBe('fail');
    const failed = found.values.filter(({ judgement }) => judgement === 'fail');
    expect(failed).toHaveLength(1);
    expect(checkedText(failed[0]!)).toMatch(
      new RegExp(`^${place}: .* passes .*: FAIL by [0-9.]+ in \\(${file}:[23]\\)$`),
    );
    expect(checkSummary(found)).toMatch(new RegExp(`^FAIL: ${place}\\. 7 of 8 pass`));
  });

  it('with a blank, a side without a row, or no limit has not passed', () => {
    const blank = verdict('check-sheet.csv', 'demo,right,0,6.1307,5.7807,');
    expect(blank.whole).toBe('incomplete');
    expect(checkSummary(blank)).toMatch(/^NOT PASSED YET: 7 of 8 pass; 1 not measured: gap at 0°, right\./);
    const onlyGaps = verdict('', '', { 'check-sheet.csv': SOUND['check-sheet.csv']!.slice(0, 2) });
    expect(onlyGaps.whole).toBe('incomplete');
    expect(onlyGaps.values.filter(({ judgement }) => judgement === 'not measured')).toHaveLength(7);
    const bare = verdict('', '', { 'check-sheet.csv': ['side,angle_deg,measured_in', 'left,0,6'] });
    expect(bare.values[0]).toMatchObject({ judgement: 'no limit' });
    expect(bare.whole).toBe('incomplete');
  });

  it.each([
    [
      'check-sheet.csv',
      'demo,left,0,6.1307,5.7807,600',
      27,
      'measured: "600" in is out of range: 0 in to 20 in',
    ],
    [
      'check-sheet.csv',
      'demo,left,0,6.1307,5.7807,-2',
      27,
      'measured: "-2" in is out of range: 0 in to 20 in',
    ],
    [
      'check-hard-points.csv',
      'demo,left,cage bar,9.4500,5.0000,-2',
      34,
      '"-2" in is out of range: 0 in to 60 in',
    ],
    ['check-tub.csv', 'demo,left,39.3125,39.2500,600,0.2500,0.0000,0.5000,1/4', 27, 'top_measured: "600" in'],
  ])(
    '%s: nonsense is refused with place, what was read and what is allowed: %s',
    (file, row, column, reason) => {
      const { rejected, whole, values } = verdict(file, row);
      expect(rejected).toHaveLength(1);
      expect(rejected[0]).toMatchObject({ file, line: 2, column });
      expect(rejected[0]!.reason).toContain(reason);
      expect(whole).toBe('incomplete');
      expect(values.filter(({ judgement }) => judgement === 'unread')).toHaveLength(1);
    },
  );

  it('is not there where nobody filled one', () => expect(judgeChecks([], [], ['cage bar'])).toBeUndefined());
});
