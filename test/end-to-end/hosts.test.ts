import { type ChildProcess, execFileSync, spawn } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { hasRedis } from './redis.ts';
import { demoFolder, filesBelow, NAME, type Running, SWEEP, startApp, until } from './small-sweep.ts';

/** Two hosts of this machine: network namespaces, each with an address of its own and one wire between them. */
const [NEAR, FAR] = [`tubgap-near-${process.pid}`, `tubgap-far-${process.pid}`];
const ADDRESS = '10.213.77.1';
const PORT = '6390';
const PASSWORD = 'a-word-for-this-test';
const URL = `redis://:${PASSWORD}@${ADDRESS}:${PORT}`;

const ip = (words: string): void => void execFileSync('ip', words.split(' '), { stdio: 'ignore' });
const on = (host: string): string[] => ['ip', 'netns', 'exec', host];

function removeHosts(): void {
  for (const host of [NEAR, FAR]) {
    try {
      ip(`netns del ${host}`);
    } catch {
      // It was never made.
    }
  }
}

/** Whether this machine lets a test make hosts; says loudly what is left out where it does not. */
function makeHosts(): boolean {
  try {
    for (const host of [NEAR, FAR]) ip(`netns add ${host}`);
    ip(`-n ${NEAR} link add wire type veth peer name wire netns ${FAR}`);
    for (const [host, address] of [
      [NEAR, ADDRESS],
      [FAR, '10.213.77.2'],
    ]) {
      ip(`-n ${host} address add ${address}/24 dev wire`);
      ip(`-n ${host} link set wire up`);
      ip(`-n ${host} link set lo up`);
    }
    return true;
  } catch {
    removeHosts();
    process.stderr.write(
      '\nSKIPPED: the test of two hosts may not make network namespaces here (root and iproute2 are needed).\n\n',
    );
    return false;
  }
}

const possible = hasRedis() && makeHosts();
const started: Running[] = [];
let folder: string;
let elsewhere: string;
let redis: ChildProcess;

/** Starts the app on a host; it knows of the queue by its address alone. */
function app(host: string, place: string, words: readonly string[], url = URL): Running {
  const running = startApp(place, words, { REDIS_URL: url }, on(host));
  started.push(running);
  return running;
}

describe.skipIf(!possible)('two hosts', () => {
  beforeAll(async () => {
    folder = demoFolder('hosts');
    elsewhere = mkdtempSync(join(tmpdir(), 'tubgap-elsewhere-'));
    const [command, ...words] = [...on(NEAR), 'redis-server', '--bind', ADDRESS, '--port', PORT];
    redis = spawn(command!, [...words, '--requirepass', PASSWORD, '--save', '', '--dir', elsewhere], {
      stdio: 'ignore',
    });
    await until('Redis to answer', () => {
      try {
        const ask = ['redis-cli', '-h', ADDRESS, '-p', PORT, '-a', PASSWORD, '--no-auth-warning', 'ping'];
        return execFileSync('ip', [...on(NEAR).slice(1), ...ask])
          .toString()
          .startsWith('PONG');
      } catch {
        return false;
      }
    });
  });

  afterAll(() => {
    for (const { child } of started) child.kill('SIGKILL');
    redis.kill('SIGKILL');
    removeHosts();
    for (const place of [folder, elsewhere]) rmSync(place, { recursive: true, force: true });
  });

  it('share a sweep: the worker has neither case nor folder, and the bytes are those of one machine', async () => {
    const alone = await startApp(folder, [...SWEEP, '--results', 'alone']).end;
    expect(alone.code).toBe(0);
    const worker = app(FAR, elsewhere, ['work', '--workers', '1']);
    await until('the worker', () => worker.said().includes(`At redis://${ADDRESS}:${PORT} with 1 thread`));
    const before = readdirSync(elsewhere);
    const run = await app(NEAR, folder, [...SWEEP, '--results', 'hosts', '--queue', '--shards', '4']).end;
    expect([run.code, run.err]).toEqual([0, expect.not.stringContaining('No worker')]);
    expect(filesBelow(join(folder, 'hosts', NAME))).toEqual(filesBelow(join(folder, 'alone', NAME)));
    expect(worker.said().match(/shard \d of 4 in/g)).toHaveLength(4);
    expect(readdirSync(elsewhere)).toEqual(before);
    worker.child.kill('SIGTERM');
    expect((await worker.end).code).toBe(0);
  });

  it('an address of another host is refused without a password, and a wrong one is not shown', async () => {
    const open = await app(FAR, elsewhere, ['work'], `redis://${ADDRESS}:${PORT}`).end;
    expect([open.code, open.err]).toEqual([
      2,
      expect.stringMatching(
        /^REDIS_URL leads to another machine \(redis:\/\/10\.213\.77\.1:6390\) and has no password/,
      ),
    ]);
    const wrong = await app(FAR, elsewhere, ['work'], `redis://:not-the-word@${ADDRESS}:${PORT}`).end;
    expect([wrong.code, wrong.err]).toEqual([2, expect.stringMatching(/^No Redis answers at .*WRONGPASS/)]);
    expect(wrong.err).not.toContain('not-the-word');
    expect(existsSync(join(elsewhere, NAME))).toBe(false);
  });
});
