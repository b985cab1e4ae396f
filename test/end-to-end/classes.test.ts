import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { tubgap } from './command.ts';
import { demoFolder } from './small-sweep.ts';

/**
 * The demo's invented car with its slick in a second class, on the real command: another car on the same tyre, with its own
 * track, gap to be kept and accepted risk.
 */
const GUESTS = 'tall-slick (guests)';
const ENTRY = `  - tyre: tall-slick
    runsPerSeason: 12
    class:
      name: guests
      run: { distance: 1000 ft, gripLost: { chance: 4 % } }
      build: { reserve: 1 in }
      accept: { runRisk: 1 in 500 }
`;
const FEW = ['--set', 'simulation.draws=8192', '--set', 'simulation.cars=150'];

let folder: string;
const run = (...words: string[]) => tubgap(folder, ...words);
const write = (name: string, change: (text: string) => string): void =>
  writeFileSync(join(folder, 'demo', name), change(readFileSync(join(folder, 'demo', 'case.yaml'), 'utf8')));
interface Told {
  standing: string;
  accepted: { runRisk: number };
  limitingTyre: string;
  runRisk: unknown;
  tyres: { tyre: string; accepted?: number; runRisk: unknown }[];
}
const verdictOf = (file: string, ...words: string[]): Told => {
  const { out } = run('judge', file, '--height', '39 1/4 in', '--json', ...FEW, ...words);
  return (JSON.parse(out) as { verdict: Told }).verdict;
};
const tableOf = (text: string): Record<string, string>[] => {
  const [head, ...lines] = text.trimEnd().split('\n');
  return lines.map((line) => {
    const cells = line.split(',');
    return Object.fromEntries(head!.split(',').map((name, c) => [name, cells[c]!]));
  });
};

beforeAll(() => {
  folder = demoFolder('classes');
  write('classes.yaml', (text) => text.replace(/^tubs: /m, `${ENTRY}tubs: `));
  // The same class written as a case of its own, with the slick alone in it.
  write('alone.yaml', (text) =>
    text
      .replace('distance: 1320 ft', 'distance: 1000 ft')
      .replace('chance: 8 %', 'chance: 4 %')
      .replace('reserve: 1/2 in', 'reserve: 1 in')
      .replace('runRisk: 1 in 100', 'runRisk: 1 in 500')
      .replace(/ {2}- tyre: class-radial[\s\S]*?(?=^tubs:)/m, ''),
  );
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('a tyre in two classes', () => {
  it('is picked for the class that binds, by that class’s own gap and risk, and every paper says so', () => {
    const { code, out } = run('pick', 'demo/classes.yaml', ...FEW);
    expect(code).toBe(0);
    expect(out).toMatch(
      /TOO CLOSE +a run comes closer than the 1 in to be kept: surely no more often than 1 in/,
    );
    expect(out).toMatch(/\(accepted: 1\s+in 500\)/);
    expect(out).toMatch(/Tight +tall-slick \(guests\), /);
    // A number and its unit stand on one line in a paper.
    const of = (name: string): string =>
      readFileSync(join(folder, 'results', 'winged-door-car', name), 'utf8').replaceAll('\u00a0', ' ');
    const result = JSON.parse(of('result.json')) as {
      tyres: { name: string; inClass?: object }[];
      picks: { alone: number[]; height: { topHeight: number; limitingTyre: string } }[];
      inputs: { tyre: string; path: string }[];
    };
    const [pick] = result.picks;
    expect(result.tyres.at(-1)).toMatchObject({
      name: GUESTS,
      inClass: {
        tyre: 'tall-slick',
        distance: 304.8,
        gripLostChance: 0.04,
        reserve: 0.0254,
        acceptedRunRisk: 1 / 500,
      },
    });
    expect(pick!.height).toMatchObject({ limitingTyre: GUESTS, topHeight: Math.max(...pick!.alone) });
    // What is told of the tyre in its first class is not told again.
    expect(result.inputs.filter(({ tyre }) => tyre === GUESTS)).toEqual([]);
    expect(of('pick.csv')).toContain(GUESTS);
    expect(of('report.html')).toContain('in its class the tyre is tall-slick, track 1,000 ft');
    for (const words of ['comes closer than the 1 in to be kept', 'accepted: 1 in 500']) {
      expect(of('build-sheet.html')).toContain(words);
    }
  });

  it('has in each class the very risk of the case that is written so', () => {
    const both = verdictOf('demo/classes.yaml');
    const alone = verdictOf('demo/alone.yaml');
    const own = both.tyres.find(({ tyre }) => tyre === GUESTS)!;
    const { touches, events } = own.runRisk as { touches: number; events: number };
    expect(alone.runRisk).toMatchObject({ touches, events });
    expect(own.accepted).toBe(1 / 500);
    expect(alone.accepted.runRisk).toBe(1 / 500);
  });

  it('is a row of its own among the draws, and gives the same bits when they are evaluated', () => {
    expect(run('draws', 'demo/classes.yaml', '--draws', '256', '--to', 'rows').code).toBe(0);
    const file = join('rows', 'draws-0001-of-0001.csv');
    expect(run('evaluate', 'demo/classes.yaml', '--points', file, '--to', 'answers.csv').code).toBe(0);
    const [drawn, asked] = [file, 'answers.csv'].map((name) =>
      tableOf(readFileSync(join(folder, name), 'utf8')),
    );
    const height = 'street-42.required_height_m';
    expect(asked!.map((row) => row[height])).toEqual(drawn!.map((row) => row[height]));
    const of = (tyre: string) => drawn!.filter((row) => row.tyre === tyre);
    const [first, second] = [of('tall-slick'), of(GUESTS)];
    expect(second).toHaveLength(256);
    for (const column of ['tyres[].growthScale', 'tyres[].coldPressure_Pa', 'run.trapSpeed_m_s']) {
      expect(second.map((row) => row[column])).toEqual(first.map((row) => row[column]));
    }
    expect(second.map((row) => row[height])).not.toEqual(first.map((row) => row[height]));
    const { classes } = JSON.parse(readFileSync(join(folder, 'rows', 'draws.json'), 'utf8')) as {
      classes: object;
    };
    expect(classes).toEqual({
      [GUESTS]: {
        tyre: 'tall-slick',
        distance: 304.8,
        gripLostChance: 0.04,
        reserve: 0.0254,
        runRisk: 1 / 500,
      },
    });
  });

  it('is told by line and field what is wrong with it', () => {
    write('twice.yaml', (text) =>
      text.replace(/^tubs: /m, `${ENTRY.replace(/ {6}name: guests\n/, '')}tubs: `),
    );
    const { code, err } = run('pick', 'demo/twice.yaml');
    expect(code).toBe(2);
    expect(err).toMatch(
      /twice\.yaml:\d+:\d+ +tyres\[2\]\.tyre: read "tall-slick"; this tyre is listed twice, as tyres\[0\] in the same class\. Give each class of it a name/,
    );
  });
});
