import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readTable } from '../written-table.ts';
import { tubgap } from './command.ts';
import { holdDescribed } from './described.ts';

import { demoFolder, filesBelow } from './small-sweep.ts';

/** Runs as many as the case's pick takes: so the base is the pick. */
const SEED = ['--seed', '3', '--set', 'simulation.cars=64', '--set', 'accept.seasonRisk=0.2'];
const VARIED = ['--vary', 'run.trapSpeed = 220 mph, 232 mph', '--vary', 'topHeight = 39 in', '--seasons'];
const NAME = 'winged-door-car';
let folder: string;

beforeAll(() => {
  folder = demoFolder('sweep-outputs');
  for (const words of [
    ['pick', 'demo/case.yaml', ...SEED, '--set', 'heights=[39 in]'],
    ['sweep', 'demo/case.yaml', ...SEED, ...VARIED],
  ]) {
    const { code, err } = tubgap(folder, ...words);
    expect([words[0], code, err]).toEqual([words[0], 0, expect.anything()]);
  }
});

afterAll(async () => {
  await holdDescribed(folder);
  rmSync(folder, { recursive: true, force: true });
});

const rowsOf = (...place: string[]) => readTable(join(folder, 'results', ...place));

describe('what a sweep gives out beside the height', () => {
  it('is, of the case as it stands, what its pick and its judgement say at the same heights', async () => {
    const swept = (await rowsOf(`${NAME}-sweep`, 'sweep.csv')).filter(({ point }) => point === '0');
    const [picked] = await rowsOf(NAME, 'pick.csv');
    const at = (tyre: string, height: string) =>
      swept.find((row) => row.tyre === tyre && row.at_height_in === height)!;
    const whole = at('any', picked!.top_height_in!);
    const SEASON = ['season_risk', 'season_risk_low', 'season_risk_high'];
    expect(SEASON.map((name) => whole[name])).toEqual(SEASON.map((name) => picked![name]));
    expect(Number(whole.season_risk)).toBeGreaterThan(0);
    expect(whole.top_height_in).toBe(picked!.top_height_in);
    expect(at(picked!.limiting_tyre!, picked!.top_height_in!)).toMatchObject({
      contact_risk: picked!.contact_risk,
      season_risk: '',
      gap_at_0deg_in: picked!.gap_at_0deg_in,
    });
    const table = await rowsOf(NAME, 'risk.csv');
    expect(table).toHaveLength(3);
    for (const { tyre, ...row } of table) {
      const names = ['contact_risk', 'contact_risk_low', 'contact_risk_high', 'gap_p01_in', 'gap_p05_in'];
      const own = [...names, 'gap_p50_in', 'tight_angle_deg', 'tight_moment', 'run_risk', 'method'];
      const there = at(tyre!, row.at_height_in!);
      expect([tyre, ...own.map((name) => there[name])]).toEqual([tyre, ...own.map((name) => row[name])]);
    }
    const judged = tubgap(
      folder,
      ...['judge', 'demo/case.yaml', '--tub', 'street-42', '--height', '39 in', ...SEED, '--json'],
    );
    const { tyres, seasonRisk } = JSON.parse(judged.out).verdict;
    for (const { tyre, contactRisk } of tyres) {
      expect(Number(at(tyre, '39.0000').contact_risk)).toBeCloseTo(contactRisk.estimate, 8);
    }
    expect(Number(at('any', '39.0000').season_risk)).toBeCloseTo(seasonRisk.estimate, 8);
  });

  it('moves with what is varied, stands in the summary and the printed table, and is the same in shards', async () => {
    const summary = (await rowsOf(`${NAME}-sweep`, 'summary.csv')).map((row) => ({
      contact: Number(row.contact_risk),
      season: Number(row.season_risk),
    }));
    expect(summary).toHaveLength(3);
    expect(summary[2]!.contact).toBeGreaterThan(1.4 * summary[0]!.contact);
    expect(summary[2]!.season).toBeGreaterThan(summary[0]!.season);
    const asked = ['sweep', 'demo/case.yaml', ...SEED, ...VARIED];
    const parts = tubgap(folder, ...asked, '--shards', '2', '--results', 'parts');
    expect(parts.out).toMatch(/season too.*real .*gap, 1/s);
    const whole = filesBelow(join(folder, 'results', `${NAME}-sweep`));
    expect(filesBelow(join(folder, 'parts', `${NAME}-sweep`))).toEqual(whole);
    expect(whole['READ-ME.txt']).toContain('--seasons');
  });

  it('stands beside setups that are compared too', async () => {
    // The same accepted risks, so that it is the same pick that they stand beside.
    const text = readFileSync(join(folder, 'demo/case.yaml'), 'utf8');
    writeFileSync(join(folder, 'demo/car.yaml'), text.replace(/seasonRisk: .*/, 'seasonRisk: 1 in 5'));
    const done = tubgap(
      folder,
      ...['compare', 'demo/car.yaml', '--set', 'run.trapSpeed=232 mph', '--seed', '3', '--cars', '64'],
    );
    expect([done.code, done.err]).toEqual([2, expect.stringContaining('give --seasons as well')]);
    const { code, out } = tubgap(
      folder,
      ...['compare', 'demo/car.yaml', '--set', 'run.trapSpeed=232 mph', '--seed', '3', '--cars', '64'],
      '--seasons',
    );
    expect([code, out]).toEqual([0, expect.stringMatching(/real contact .*a season .*gap, 1 run in 100 /s)]);
    const rows = await rowsOf(`${NAME}-compare`, 'setups.csv');
    const [base] = (await rowsOf(`${NAME}-sweep`, 'sweep.csv')).filter(
      (row) => row.point === '0' && row.tyre === 'any' && row.at_height_in !== '39.0000',
    );
    for (const name of ['at_height_in', 'contact_risk_high', 'season_risk', 'gap_p01_in']) {
      const of = (setup: string) => rows.find((row) => row.setup === setup && row.tyre === 'any')![name];
      expect([name, of('A')]).toEqual([name, base![name]]);
      // So few cars may touch alike in their seasons.
      const isOther = name.startsWith('contact') || name.startsWith('gap');
      if (isOther) expect([name, of('B')]).not.toEqual([name, of('A')]);
    }
  });
});
