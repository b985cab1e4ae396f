import { describe, expect, it, test } from 'vitest';
import { HAND_TABLES, noReadings, readAsBuilt, readHandTable } from '../src/index.ts';

const context = {
  tyres: ['tall-slick', 'class-radial'].map((tyre) => ({ name: tyre, tyre })),
  tubs: ['street-42'],
  built: { tub: 'street-42', topHeight: 1, centreForward: undefined },
};

function readTable(
  file: string,
  text: string,
  own:
    | typeof context
    | { tyres: { name: string; tyre: string }[]; tubs: string[]; built: undefined } = context,
) {
  const readings = noReadings();
  const table = HAND_TABLES.find((one) => one.file === file)!;
  return { rejected: readHandTable(table, text, own, readings), readings };
}

describe('a table of measurements', () => {
  it('reads units from its heads, fractions as on a tape, and columns in any order', () => {
    const { readings, rejected } = readTable(
      'rollout.csv',
      'date,rollout (mm),tyre,Pressure [kPa],note\n2026-03-07,2690.5,tall-slick,41.4,left\n',
    );
    expect(rejected).toEqual([]);
    expect(readings.rollouts).toHaveLength(1);
    expect(readings.rollouts[0]!.rollout).toBeCloseTo(2.6905, 12);
    expect(readings.rollouts[0]!.pressure).toBeCloseTo(41400, 9);
    const inches = readTable('rollout.csv', 'tyre,pressure_psi,rollout_in\ntall-slick,6,105 15/16\n');
    expect(inches.readings.rollouts[0]!.rollout).toBeCloseTo(105.9375 * 0.0254, 12);
  });

  it('leaves bad rows out with their line and the reason, and keeps the good ones', () => {
    const { readings, rejected } = readTable(
      'rollout.csv',
      [
        'tyre,pressure_psi,rollout_in',
        'tall-slick,6,105 3/4',
        'tall-slick,60.5,106',
        'tall-slick,6,16.85',
        'other,6,105',
        'tall-slick,6',
        'tall-slick,six,105',
        'tall-slick,7,106',
      ].join('\n'),
    );
    expect(readings.rollouts.map(({ line }) => line)).toEqual([2, 8]);
    expect(rejected.map(({ line }) => line)).toEqual([3, 4, 5, 6, 7]);
    expect(rejected[0]!.reason).toMatch(/out of range.*As kPa it would fit/);
    expect(rejected[2]!.reason).toMatch(/no tyre "other"/);
    expect(rejected[3]!.reason).toMatch(/2 cells/);
    expect(rejected[4]!.reason).toMatch(/"six" is no number/);
  });

  it('without a column or a unit is left out whole, and says what is needed', () => {
    const bare = readTable('rollout.csv', 'tyre,pressure,rollout_in\ntall-slick,6,105\n');
    expect(bare.readings.rollouts).toEqual([]);
    expect(bare.rejected[0]).toMatchObject({ line: 0 });
    expect(bare.rejected[0]!.reason).toMatch(/lacks pressure_psi/);
    expect(readTable('marks.csv', '').rejected[0]!.reason).toMatch(/empty/);
  });

  it('takes marks and gaps only when the tub that is in the car is known', () => {
    const text = 'tyre,angle_deg,mark,runs\ntall-slick,35,touched,3\ntall-slick,15,scuffed,3\n';
    const { readings, rejected } = readTable('marks.csv', text);
    expect(readings.marks).toHaveLength(1);
    expect(readings.marks[0]).toMatchObject({ touched: true, thickness: 0, runs: 3 });
    expect(rejected[0]!.reason).toMatch(/write touched or not touched/);
    const without = readTable('marks.csv', text, { ...context, built: undefined });
    expect(without.readings.marks).toEqual([]);
    expect(without.rejected[0]!.reason).toMatch(/as-built.csv is missing/);
  });

  it('counts the absence of a mark only where a witness was stuck on that place, and says so of the rest', () => {
    const bare = readTable('marks.csv', 'tyre,angle_deg,mark,runs\ntall-slick,0,not touched,6\n');
    expect(bare.readings.marks).toEqual([]);
    expect(bare.rejected).toHaveLength(1);
    expect(bare.rejected[0]).toMatchObject({ file: 'marks.csv', line: 2 });
    expect(bare.rejected[0]!.reason).toMatch(/no mark says nothing where nothing was stuck/);
    const rows = ['no', '', 'chalk', 'Tape', 'clay', 'yes', 'perhaps'].map(
      (witness) => `tall-slick,0,not touched,${witness},6`,
    );
    const asked = readTable('marks.csv', ['tyre,angle_deg,mark,witness,runs', ...rows].join('\n'));
    expect(asked.readings.marks.map(({ line }) => line)).toEqual([4, 5, 6, 7]);
    expect(asked.rejected.map(({ line }) => line)).toEqual([2, 3, 8]);
    expect(asked.rejected[2]!.reason).toMatch(/"perhaps" is not known; write yes/);
    const touched = readTable('marks.csv', 'tyre,angle_deg,mark,runs\ntall-slick,0,touched,6\n');
    expect(touched.readings.marks).toHaveLength(1);
  });

  it('reads the check sheet as it was printed, blanks left out', () => {
    const text =
      'case,side,angle_deg,static_gap_in,limit_in,measured_in\ndemo,left,0,5.1000,4.9000,5 1/16\ndemo,right,15,6.1000,5.9000,\n';
    const { readings, rejected } = readTable('check-sheet.csv', text);
    expect(readings.gaps).toHaveLength(1);
    expect(readings.gaps[0]!.gap).toBeCloseTo(5.0625 * 0.0254, 12);
    expect(rejected).toEqual([]);
  });
});

test('the last tub that is in the car counts; one that the case does not have is named', () => {
  const tubs = ['street-42', 'tall-46'];
  const read = readAsBuilt('tub,top_height_in\nstreet-42,39\ntall-46,40 1/2\nother,41\n', tubs);
  expect(read.built).toMatchObject({ tub: 'tall-46', topHeight: 40.5 * 0.0254 });
  expect(read.rejected[0]!.reason).toMatch(/no tub "other"/);
});
