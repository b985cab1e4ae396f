import { type ChildProcess, spawn } from 'node:child_process';
import { existsSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { FRONT_DOOR, tubgap } from './command.ts';
import { demoFolder, filesBelow, until } from './small-sweep.ts';

let folder: string;
beforeAll(() => {
  folder = demoFolder('stops');
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** The front door, as a user or a batch system starts it. */
function frontDoor(...words: string[]): {
  child: ChildProcess;
  end: Promise<number | null>;
  said: () => string;
  printed: () => string;
} {
  const child = spawn(process.execPath, [FRONT_DOOR, ...words], {
    cwd: folder,
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  let err = '';
  let out = '';
  child.stdout.setEncoding('utf8').on('data', (text: string) => {
    out += text;
  });
  child.stderr.setEncoding('utf8').on('data', (text: string) => {
    err += text;
  });
  const end = new Promise<number | null>((resolve) => child.on('close', resolve));
  return { child, end, said: () => err, printed: () => out };
}

/** Processes that a process has started. */
function childrenOf(pid: number): number[] {
  const text = readFileSync(`/proc/${pid}/task/${pid}/children`, 'utf8').trim();
  return text === '' ? [] : text.split(' ').map(Number);
}

const PICK = ['pick', 'demo/case.yaml', '--draws', '32768', '--cars', '128', '--seed', '5'];
const SWEEP = ['sweep', 'demo/case.yaml', '--vary', 'run.trapSpeed = 200 mph to 240 mph by 1 mph'];
const NUMBERS = { SIGINT: 2, SIGTERM: 15 } as const;
const hidden = (results: string): string[] => {
  const place = join(folder, results);
  return existsSync(place) ? readdirSync(place).filter((name) => name.startsWith('.')) : [];
};
const parts = (results: string): number => {
  const place = join(folder, results, '.winged-door-car.parts');
  return existsSync(place) ? Object.keys(filesBelow(place)).length : 0;
};

it.skipIf(process.platform !== 'linux').each([
  ['pick', 'SIGTERM', '2'],
  ['pick', 'SIGINT', '1'],
] as const)(
  '%s stopped by %s with %s workers gives the folder free and keeps what is done',
  async (_, signal, workers) => {
    const results = `pick-${signal}`;
    const words = [...PICK, '--workers', workers, '--results', results];
    const { child, end, said } = frontDoor(...words);
    await until('some finished parts', () => parts(results) > 5);
    expect(childrenOf(child.pid!)).toEqual([]);
    expect(hidden(results)).toContain('.winged-door-car.lock');
    child.kill(signal);
    expect(await end).toBe(128 + NUMBERS[signal]);
    expect(said()).toBe('Stopped: finished parts are kept. The same command goes on from there.\n');
    expect(readdirSync(join(folder, results))).toEqual(['.winged-door-car.parts']);
    expect(Object.keys(filesBelow(join(folder, results, '.winged-door-car.parts'))).join()).not.toContain(
      '.writing',
    );
    if (signal === 'SIGTERM') {
      const again = tubgap(folder, ...words);
      expect(again.err).toMatch(/Went on from \d+ finished parts of a run that was cut/);
      expect(again.code).toBe(0);
      expect(readdirSync(join(folder, results))).toEqual(['winged-door-car']);
    }
  },
);

it('a pick stopped after its decision says that its papers were not made, and prints no row twice when it goes on', async () => {
  const words = [...PICK, '--workers', '2', '--results', 'decided'];
  const { child, end, said, printed } = frontDoor(...words);
  await until('the decision', () => printed().includes('BUILD'));
  child.kill('SIGTERM');
  expect(await end).toBe(128 + NUMBERS.SIGTERM);
  expect(said()).toMatch(/^Stopped: the decision stands, its papers were not made\. Finished parts are kept/);
  expect(printed()).not.toContain('Would change');
  const again = tubgap(folder, ...words);
  expect(again.code).toBe(0);
  expect(again.out.startsWith(printed())).toBe(true);
  for (const row of ['BUILD', 'a season', 'Tight', 'Hard points', 'Would change', 'Measure first'])
    expect([row, again.out.split(`\n  ${row} `).length - 1]).toEqual([row, 1]);
  expect(again.out).toContain(
    tubgap(folder, 'report', 'decided/winged-door-car').out.split('\n').slice(0, 12).join('\n'),
  );
});

it.skipIf(process.platform !== 'linux').each([
  ['SIGTERM', []],
  ['SIGINT', ['--shards', '20']],
] as const)('a sweep stopped by %s leaves no results and nothing half written', async (signal, more) => {
  const results = `sweep-${signal}`;
  const { child, end } = frontDoor(...SWEEP, ...more, '--draws', '4096', '--results', results);
  const place = join(folder, results, 'winged-door-car-sweep-shards');
  if (more.length > 0) await until('a shard', () => existsSync(place) && readdirSync(place).length > 2);
  else await until('the hold', () => hidden(results).includes('.winged-door-car-sweep.lock'));
  child.kill(signal);
  expect(await end).toBe(128 + NUMBERS[signal]);
  expect(hidden(results)).toEqual([]);
  expect(existsSync(join(folder, results, 'winged-door-car-sweep'))).toBe(false);
  const kept = more.length > 0 ? Object.keys(filesBelow(place)) : [];
  expect(kept.filter((name) => !/^(manifest|shard-\d{4}-of-0020)\.json$/.test(name))).toEqual([]);
});
