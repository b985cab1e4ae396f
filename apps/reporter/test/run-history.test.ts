import { readFileSync } from 'node:fs';
import { parseCase } from '@tubgap/casefile';
import { caseSetup, caseState } from '@tubgap/simulation';
import { expect, it } from 'vitest';
import { runHistory } from '../src/state/run-history.ts';

it('the history of a run begins and ends with its own moments, and never slows on the way', () => {
  const load = (name: string) =>
    readFileSync(new URL(`../../../datasets/demo/${name}`, import.meta.url), 'utf8');
  const read = parseCase({ file: 'case.yaml', text: load('case.yaml'), load });
  if (!read.ok) throw new Error('the demo cannot be read');
  const setup = caseSetup(read.value);
  const place = { tyre: 0, tub: 1, topHeight: 0.997 };
  const { columns, rows } = runHistory(setup, place);
  const column = (name: string) => columns.findIndex((one) => one.name === name);
  const [moments, track] = [
    rows.filter(([moment]) => moment !== ''),
    rows.filter(([moment]) => moment === ''),
  ];
  const finish = caseState(setup, { ...place, moment: 'finish' });
  const last = track.at(-1)!;
  expect(last[column('place_m')]).toBe(setup.tyres[place.tyre]!.run.distance);
  expect(last[column('required_height_m')]).toBeCloseTo(finish.requiredHeight, 9);
  expect(moments.find(([moment]) => moment === 'finish')![column('gap_m')]).toBe(finish.gap);
  const launch = caseState(setup, { ...place, moment: 'launch' });
  expect(track[0]![column('car_speed_m_s')]).toBeCloseTo(launch.carSpeed, 9);
  const speeds = track.map((row) => Number(row[column('car_speed_m_s')]));
  expect(speeds.every((speed, k) => k === 0 || speed >= speeds[k - 1]!)).toBe(true);
});
