import { caseSetup } from '@tubgap/simulation';
import { expect, test } from 'vitest';
import { HAND_TABLES, noReadings, readHandTable, removeImplausible } from '../src/index.ts';
import { demoCase } from './demo.ts';

/** What is said of one row of a table for the demo's slick; empty when it is believed. */
function said(file: string, header: string, row: string): string {
  const readings = noReadings();
  const table = HAND_TABLES.find((one) => one.file === file)!;
  const context = {
    tyres: ['tall-slick', 'class-radial'].map((tyre) => ({ name: tyre, tyre })),
    tubs: [],
    built: undefined,
  };
  const read = readHandTable(table, `${header}\n${row}\n`, context, readings);
  expect(read).toEqual([]);
  return removeImplausible(caseSetup(demoCase()), readings)
    .map(({ line, reason }) => `${line}: ${reason}`)
    .join();
}

const ROLLOUT = 'tyre,pressure_psi,rollout_in';
const LOADED = 'tyre,load_lbf,pressure_psi,loaded_radius_in';

// The demo's slick: 33.7 in, 6 psi, 43 lb, about 645 lbf on each rear tyre at rest.
const rows = [
  ['rollout.csv', ROLLOUT, 'tall-slick,6,105.9', ''],
  ['rollout.csv', ROLLOUT, 'tall-slick,12,106.8', ''],
  ['rollout.csv', ROLLOUT, 'tall-slick,41,105.9', 'kPa read as psi'],
  ['rollout.csv', ROLLOUT, 'tall-slick,6,93', 'check unit, tyre and reading'],
  ['rollout.csv', 'tyre,pressure_kPa,rollout_in', 'tall-slick,12,105.9', 'psi read as kPa|check unit'],
  ['tyre-mass.csv', 'tyre,mass_lb', 'tall-slick,19.5', 'kg read as lb'],
  ['tyre-mass.csv', 'tyre,mass_kg', 'tall-slick,43', 'lb read as kg'],
  ['loaded-radius.csv', LOADED, 'tall-slick,1350,6,15.9', ''],
  [
    'loaded-radius.csv',
    'tyre,load_N,pressure_psi,loaded_radius_in',
    'tall-slick,650,6,16.3',
    'lbf read as N',
  ],
  ['loaded-radius.csv', LOADED, 'tall-slick,1350,41,15.9', 'kPa read as psi'],
] as const;

test.each(rows)('%s: %s / %s → "%s"', (file, header, row, words) => {
  const found = said(file, header, row);
  if (words === '') expect(found).toBe('');
  else {
    expect(found).toMatch(/^2: /);
    expect(found).toMatch(new RegExp(words));
  }
});

test('ten rows stand in the table', () => expect(rows).toHaveLength(10));
