import { cpSync, existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readTable } from '../written-table.ts';
import { DEMO, type Finished, tubgap } from './command.ts';
import { holdDescribed } from './described.ts';

const FEW = ['--draws', '16384', '--set', 'simulation.cars=128'];
const CARS = ['--draws', '16384', '--cars', '128'];
let folder: string;
let pick: { topHeight: number; height: Record<string, unknown>; setOut: Record<string, unknown> };

/** Inches and sixteenths as they are typed. */
const inches = (metres: number): string => `${(metres / 0.0254).toFixed(4)} in`;

/** What the file of a case says of the plan's own folder. */
const planFile = (name: string): string => join(folder, 'results', 'winged-door-car-first-test', name);

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'tubgap-judge-'));
  cpSync(DEMO, join(folder, 'demo'), { recursive: true });
  const picked = tubgap(folder, 'pick', 'demo/case.yaml', ...CARS, '--json', '--results', 'picks');
  expect(picked.err).toBe('');
  const result = JSON.parse(readFileSync(join(folder, 'picks/winged-door-car/result.json'), 'utf8'));
  const { height } = result.picks[result.chosen];
  const setOut = { ...result.asSetOut, topHeight: result.tolerances.setOut.topHeight };
  pick = { topHeight: height.topHeight, height, setOut };
});

afterAll(async () => {
  await holdDescribed(folder);
  rmSync(folder, { recursive: true, force: true });
});

const judge = (...words: string[]): Finished => tubgap(folder, 'judge', 'demo/case.yaml', ...CARS, ...words);

describe('tubgap judge', () => {
  it('gives the tub of the pick at its height the very figures of the pick, and ends in 0', () => {
    const { code, out } = judge('--tub', 'street-42', '--height', inches(pick.topHeight), '--json');
    expect(code).toBe(0);
    const { verdict } = JSON.parse(out);
    expect(verdict).toMatchObject({ tub: 'street-42', standing: 'within' });
    for (const name of ['runRisk', 'contactRisk', 'seasonRisk', 'limitingTyre'])
      expect(verdict[name]).toEqual(pick.height[name]);
  });

  it('without a tub or a height judges what the pick sets out, and gives its figures there and at the least height', () => {
    const { code, out } = judge('--json');
    expect(code).toBe(0);
    const { verdict, least } = JSON.parse(out);
    expect(verdict).toMatchObject({ tub: 'street-42', standing: 'within', ...pick.setOut });
    expect(pick.height).toMatchObject(least);
    expect(judge('--tub', 'street-42').out).toMatch(
      /Height\s+none was given: this is the one that every paper of a pick sets out/,
    );
  });

  it('says of a standing tub that is too low what would mend it, by the as-built table, and ends in 4', () => {
    mkdirSync(join(folder, 'measured'));
    const low = pick.topHeight / 0.0254 - 0.625;
    writeFileSync(join(folder, 'measured/as-built.csv'), `tub,top_height_in\nstreet-42,${low.toFixed(4)}\n`);
    const { code, out, err } = judge('--measured', 'measured');
    expect(err).toBe('');
    expect(code).toBe(4);
    expect(out).toMatch(/NOT WITHIN\s+street-42 tub, top 38 .*: NOT\s+within what is accepted/);
    expect(out).toMatch(
      /Risk, a run\s+tall-slick comes closer than the 1\/2 in to be kept in about 1 in \d\d\d? runs/,
    );
    expect(out).toMatch(/cars like it\s+the tightest 1 car in 49 like this has/);
    expect(out).toMatch(/a season\s+68 runs/);
    expect(out).toMatch(/Tight\s+tall-slick, finish, \d+° ahead of the top/);
    expect(out).toMatch(/TOO CLOSE\s+a run [\s\S]*?: surely[\s\S]*TO MEND\s+raise it by 5\/8 in, to 39 /);
    expect(out).toMatch(/can kill/);
  });

  it('does not know with too few runs, and ends in 3', () => {
    const words = ['--tub', 'street-42', '--height', '42 in', '--draws', '64', '--cars', '8'];
    const { code, out } = tubgap(folder, 'judge', 'demo/case.yaml', ...words);
    expect(code).toBe(3);
    expect(out).toMatch(/NOT KNOWN[\s\S]*too few draws/);
  });

  it('refuses what it cannot read, in words, before anything is run', () => {
    for (const [words, said] of [
      [['--tub', 'other', '--height', '39 in'], /the case has no such tub; it has short-39/],
      [['--height', '39 in'], /Say which tub stands how high/],
      [['--tub', 'street-42', '--height', '39 1/0 in'], /read "39 1\/0 in"/],
      [['--measured', 'nowhere'], /as-built\.csv: cannot be read/],
    ] as const) {
      const { code, out, err } = tubgap(folder, 'judge', 'demo/case.yaml', ...words);
      expect(err).toMatch(said);
      expect(out).toBe('');
      expect(code).toBe(2);
    }
  });
});

describe('tubgap plan', () => {
  it('opens with the verdict, and at the height that the pick sets out steps to the whole track with both risks', async () => {
    const { code, out, err } = tubgap(folder, 'plan', 'demo/case.yaml', ...FEW);
    expect(err).toBe('');
    expect(code).toBe(0);
    expect(out).toMatch(/first\s+test\n\n {2}WITHIN\s+street-42 tub, top 39/);
    // Of each step once, and of the first among what is read out first.
    expect(out.match(/go on if/g)).toHaveLength(5 + 1);
    expect(out).toMatch(
      /the whole track\)[\s\S]*risk\s+closer\s+than\s+the\s+1\/2\s+in\s+to\s+be\s+kept:\s+about\s+1\s+in\s+\d,\d{3}\s+runs,[\s\S]*that\s+came\s+clean\s+through\s+every\s+step\s+before/,
    );
    expect(out).toMatch(/Stop\s+at any rub/);
    expect(out).toMatch(/can kill/);
    const steps = await readTable(planFile('first-test.csv'));
    expect(steps).toHaveLength(5);
    const stops = steps.reduce((sum, step) => sum + Number(step.stops), 0);
    expect(stops).toBeLessThan(0.1);
    steps.slice(1).forEach((step, k) => {
      const before = steps[k]!;
      expect(Number(step.speed_mph)).toBeGreaterThan(Number(before.speed_mph));
      expect(Number(step.all_cars_gap_p50_in)).toBeLessThan(Number(before.all_cars_gap_p50_in));
      const risk = Number(step.all_cars_run_risk);
      expect(risk).toBeGreaterThanOrEqual(Number(before.all_cars_run_risk));
    });
    const { runRisk } = pick.setOut as { runRisk: { high: number } };
    expect(Number(steps.at(-1)!.all_cars_run_risk_high)).toBeCloseTo(runRisk.high, 6);
    const page = readFileSync(planFile('first-test.html'), 'utf8');
    expect(page).toMatch(/within what is accepted[\s\S]*that came clean through every step before/);
    // Wherever a figure of the cars that are left is printed, that of all cars stands before it.
    const heads = Object.keys(steps[0]!);
    const ofLeft = heads.filter((head) => head.startsWith('cars_clean_so_far_'));
    expect(ofLeft.length).toBeGreaterThan(5);
    for (const head of ofLeft) {
      const ofAll = heads.indexOf(head.replace('cars_clean_so_far_', 'all_cars_'));
      expect(ofAll).toBeGreaterThan(0);
      expect(ofAll).toBeLessThan(heads.indexOf(head));
    }
    expect(page).toMatch(/none was given: this is the one that every paper of a pick sets out/);
    expect(page).not.toMatch(/OVERRULED/);
  });

  const low = ['--tub', 'street-42', '--tyre', 'tall-slick', '--height', '37 1/2 in', ...FEW];

  it('refuses a tub that is far too low: the verdict, how far to raise it, and nothing written', () => {
    const { code, out, err } = tubgap(folder, 'plan', 'demo/case.yaml', ...low, '--results', 'refused');
    expect(code).toBe(2);
    expect(out).toBe('');
    expect(err).toMatch(/NOT WITHIN\s+street-42 tub, top 37 1\/2 in/);
    expect(err).toMatch(/TO MEND\s+raise it by 1 \d+\/\d+ in, to 39/);
    expect(err).toMatch(/--overrule/);
    expect(existsSync(join(folder, 'refused'))).toBe(false);
  });

  it('prints on every paper who overruled that, and gives no step after the one that stops', async () => {
    const who = ['--overrule', 'A. Builder: dyno only', '--results', 'results'];
    const { code, out } = tubgap(folder, 'plan', 'demo/case.yaml', ...low, ...who);
    expect(code).toBe(0);
    expect(out).toMatch(/OVERRULED\s+planned although the tub is not within[\s\S]*A\. Builder: dyno only/);
    // At its step, and among what is read out first.
    expect(out.match(/STOP here/g)).toHaveLength(2);
    expect(out).not.toMatch(/the whole track\)/);
    expect(readFileSync(planFile('first-test.html'), 'utf8')).toMatch(
      /OVERRULED[\s\S]*A\. Builder: dyno only/,
    );
    const steps = await readTable(planFile('first-test.csv'));
    expect(steps.length).toBeLessThan(5);
    expect(steps.at(-1)).toMatchObject({ witness_in: '', overruled: 'A. Builder: dyno only' });
    expect(steps.reduce((sum, step) => sum + Number(step.stops), 0)).toBeCloseTo(1, 3);
  });

  it('names what the case has when asked for something else', () => {
    const { code, err } = tubgap(folder, 'plan', 'demo/case.yaml', '--tub', 'other');
    expect(code).toBe(2);
    expect(err).toMatch(/no such tub; it has short-39/);
  });
});
