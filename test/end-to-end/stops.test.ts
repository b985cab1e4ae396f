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
} {
  const child = spawn(process.execPath, [FRONT_DOOR, ...words], {
    cwd: folder,
    stdio: ['ignore', 'ignore', 'pipe'],
  });
  let err = '';
  child.stderr.setEncoding('utf8').on('data', (text: string) => {
    err += text;
  });
  return { child, end: new Promise((resolve) => child.on('close', resolve)), said: () => err };
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
