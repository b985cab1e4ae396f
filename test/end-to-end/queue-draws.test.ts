import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { hasRedis, type OwnRedis, ownRedis } from './redis.ts';
import { demoFolder, type Running, startApp, until } from './small-sweep.ts';

/** Draws of a case through the queue: files of 16,384 runs, two of them whole and one that is short. */
const DRAWS = ['draws', 'demo/case.yaml', '--draws', '33000', '--set', 'run.trapSpeed=~226 mph'];
let folder: string;
let redis: OwnRedis;
const started: Running[] = [];

const app = (...words: string[]): Running => {
  const running = startApp(folder, words, redis.env);
  started.push(running);
  return running;
};
const worker = (): Running => app('work', '--workers', '1');
/** Every file of a folder by its digest. */
const found = (to: string): Record<string, string> =>
  Object.fromEntries(
    readdirSync(join(folder, to), { withFileTypes: true })
      .filter((entry) => entry.isFile())
      .map(({ name }) => [
        name,
        createHash('sha256')
          .update(readFileSync(join(folder, to, name)))
          .digest('hex'),
      ]),
  );
const filesDone = (to: string): number =>
  existsSync(join(folder, to))
    ? readdirSync(join(folder, to)).filter((name) => name.endsWith('.sha256')).length
    : 0;

describe.skipIf(!hasRedis())('draws through the queue', () => {
  beforeAll(async () => {
    folder = demoFolder('queue-draws');
    redis = await ownRedis();
    expect((await startApp(folder, [...DRAWS, '--to', 'alone']).end).code).toBe(0);
  });

  afterEach(() => {
    for (const { child } of started.splice(0)) child.kill('SIGKILL');
  });

  afterAll(async () => {
    await redis.remove();
    rmSync(folder, { recursive: true, force: true });
  });

  it('are the bytes of one machine although worker and coordinator are killed, and leave nothing in it', async () => {
    const first = worker();
    const cut = app(...DRAWS, '--to', 'shared', '--queue');
    await until('the first file', () => filesDone('shared') >= 1);
    const listed = await app('queue').end;
    expect(listed.out).toMatch(/^[0-9a-f]{16} {2}winged-door-car, 3 files of draws: /m);
    first.child.kill('SIGKILL');
    cut.child.kill('SIGKILL');
    await cut.end;
    worker();
    worker();
    const done = await app(...DRAWS, '--to', 'shared', '--queue').end;
    expect([done.code, done.err]).toEqual([0, expect.stringMatching(/[1-3] of 3 files are there already/)]);
    expect(Object.keys(found('shared'))).toHaveLength(2 * 3 + 2);
    expect(found('shared')).toEqual(found('alone'));
    expect((await app('queue').end).out).not.toContain('winged-door-car');
  });

  it('are so as Parquet, weighted, with gaps, and of one machine’s share of several', async () => {
    const asked = [
      ...['draws', 'demo/case.yaml', '--draws', '17000', '--weighted', '--format', 'parquet'],
      ...['--gaps', '0,30', '--tub', 'street-42', '--height', '39 1/4 in'],
    ];
    expect((await startApp(folder, [...asked, '--to', 'weighted']).end).code).toBe(0);
    worker();
    for (const share of ['2/2', '1/2']) {
      const done = await app(...asked, '--to', 'queued', '--queue', '--shard', share).end;
      expect([share, done.code]).toEqual([share, 0]);
    }
    expect(found('queued')).toEqual(found('weighted'));
  });
});
