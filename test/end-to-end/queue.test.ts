import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { buildOf } from '@tubgap/results';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { hasRedis, type OwnRedis, ownRedis } from './redis.ts';
import { APP, demoFolder, filesBelow, NAME, type Running, SWEEP, startApp, until } from './small-sweep.ts';

/** What one machine without a queue gives. */
let whole: Record<string, string>;
let folder: string;
let redis: OwnRedis;
const started: Running[] = [];

const found = (results: string): Record<string, string> => filesBelow(join(folder, results, NAME));
const app = (...words: string[]): Running => {
  const running = startApp(folder, words, redis.env);
  started.push(running);
  return running;
};
const worker = (): Running => app('work', '--workers', '1');
const sweep = (results: string, ...more: string[]): Running =>
  app(...SWEEP, '--results', results, '--queue', '--shards', '4', ...more);
const shardsDone = (results: string): number => {
  const place = join(folder, results, `${NAME}-shards`);
  return existsSync(place) ? readdirSync(place).filter((name) => /^shard-.*\.json$/.test(name)).length : 0;
};

/** The queue of this build. */
const QUEUE = `shards-${buildOf(pathToFileURL(APP)).build}`;

/** Puts something into the queue as anybody might who reaches it. */
const put = (id: string, data: string): void => {
  const fields = { name: 'shard', data, opts: '{}', timestamp: '1', delay: '0', priority: '0' };
  redis.ask('hset', `tubgap:${QUEUE}:${id}`, ...Object.entries(fields).flat());
  redis.ask('lpush', `tubgap:${QUEUE}:wait`, id);
};

describe.skipIf(!hasRedis())('a sweep through the queue', () => {
  beforeAll(async () => {
    folder = demoFolder('queue');
    redis = await ownRedis();
    const { code, err } = await startApp(folder, [...SWEEP, '--results', 'whole']).end;
    expect([code, err.includes('failed')]).toEqual([0, false]);
    whole = found('whole');
  });

  afterEach(() => {
    for (const { child } of started.splice(0)) child.kill('SIGKILL');
  });

  afterAll(async () => {
    await redis.remove();
    rmSync(folder, { recursive: true, force: true });
  });

  it('gives the bytes of one machine although a worker is killed in a shard and another joins', async () => {
    const first = worker();
    const run = sweep('killed');
    await until('the first shard', () => shardsDone('killed') >= 1);
    first.child.kill('SIGKILL');
    worker();
    expect((await run.end).code).toBe(0);
    expect(found('killed')).toEqual(whole);
    expect(readdirSync(join(folder, 'killed'))).toEqual([NAME]);
  });

  it('goes on after the coordinator is killed, and counts nothing twice', async () => {
    worker();
    const first = sweep('again');
    await until('a shard', () => shardsDone('again') >= 1);
    first.child.kill('SIGKILL');
    await first.end;
    expect(existsSync(join(folder, 'again', NAME))).toBe(false);
    const second = await sweep('again').end;
    expect(second.err).toMatch(/Went on from \d of 4 shards that were done/);
    expect(second.code).toBe(0);
    expect(found('again')).toEqual(whole);
  });

  it('outlives Redis killed in mid-run, and one that comes back having lost every job', async () => {
    worker();
    const run = sweep('redis');
    await until('a shard', () => shardsDone('redis') >= 1);
    await redis.kill();
    await until('the word that Redis is away', () => run.said().includes('is away'));
    await redis.start();
    redis.ask('flushall');
    expect((await run.end).code).toBe(0);
    expect(run.said()).toContain('is back');
    expect(found('redis')).toEqual(whole);
  });

  it('refuses what is no job of its own, and goes on with the rest', async () => {
    const hand = worker();
    await until('the worker', () => hand.said().includes('At redis'));
    put('strange-1', '{"format":"tubgap shard job","version":9,"key":"x","shard":1}');
    put('strange-2', '{"__proto__":{"shard":1},"path":"../../etc/passwd"}');
    put('strange-3', 'this is no JSON {');
    const run = sweep('strange');
    expect((await run.end).code).toBe(0);
    expect(found('strange')).toEqual(whole);
    expect(hand.said()).toMatch(/shard strange-\d: the job is of another layout or version; nothing was run/);
    expect(hand.said()).toMatch(/shard strange-3: the job is of another layout/);
  });

  it('lists a shard that cannot be worked out with its reason, does the others, and mends it when asked again', async () => {
    expect((await startApp(folder, [...SWEEP, '--results', 'poison', '--shard', '1/4']).end).code).toBe(0);
    const manifest = readFileSync(join(folder, 'poison', `${NAME}-shards`, 'manifest.json'), 'utf8');
    // The key is the digest of the order, which the folder keeps with its own digest as the first field.
    const order = manifest.replace(/ "digest": .*\n/, '');
    const key = createHash('sha256').update(order).digest('hex').slice(0, 16);
    // A job that no worker can do lies in the place of the second shard's.
    put(`${key}-2`, '{"format":"tubgap shard job","version":9}');
    worker();
    const run = await sweep('poison').end;
    expect(run.err).toMatch(/1 of 4 shards failed:\s+shard 2 \(point 1\): the job is of another layout/);
    expect(run.err).toContain('No results were written. The other shards are kept');
    expect(run.code).toBe(1);
    expect(existsSync(join(folder, 'poison', NAME))).toBe(false);
    expect(shardsDone('poison')).toBe(3);
    expect((await sweep('poison').end).code).toBe(0);
    expect(found('poison')).toEqual(whole);
  });

  it('is cancelled from anywhere, keeps what is done, and goes on when asked again', async () => {
    const first = worker();
    const run = sweep('cancel');
    await until('a shard', () => shardsDone('cancel') >= 1);
    first.child.kill('SIGKILL');
    const listed = (await app('queue').end).out;
    const [, key] = /^([0-9a-f]{16}) {2}winged-door-car, 4 shards: /m.exec(listed)!;
    expect((await app('queue', '--cancel', key!).end).out).toMatch(/\d shards taken out/);
    const ended = await run.end;
    expect(ended.err).toMatch(/Stopped: \d of 4 shards are done and kept/);
    expect(ended.code).toBe(130);
    worker();
    expect((await sweep('cancel').end).code).toBe(0);
    expect(found('cancel')).toEqual(whole);
  });

  it('is shown and cancelled whatever else lies in the queue', async () => {
    const run = sweep('junk');
    await until('the sweep in the queue', () => redis.ask('llen', `tubgap:${QUEUE}:wait`).trim() === '4');
    put('junk-1', 'this is no JSON {');
    put('junk-2', '');
    const listed = await app('queue').end;
    expect([listed.code, listed.err]).toEqual([0, '']);
    const [, key] = /^([0-9a-f]{16}) {2}winged-door-car, 4 shards: 4 waiting$/m.exec(listed.out)!;
    // One of its own jobs too is written over by something else.
    redis.ask('hset', `tubgap:${QUEUE}:${key}-2`, 'data', '{"half":');
    expect((await app('queue').end).out).toContain('4 shards: 4 waiting');
    const cancelled = await app('queue', '--cancel', key!).end;
    expect([cancelled.code, cancelled.out]).toEqual([0, expect.stringContaining('4 shards taken out')]);
    expect((await run.end).code).toBe(130);
  });

  it('takes no address of another machine without a password, and shows none', async () => {
    const to = (url: string, i: number): Promise<{ code: number | null; err: string }> =>
      startApp(folder, [...SWEEP, '--results', `no-${i}`, '--queue'], { REDIS_URL: url }).end;
    const [open, bad, none] = await Promise.all(
      ['redis://10.0.0.7:6379', 'http://:secret-word@10.0.0.7', 'redis://:secret-word@127.0.0.1:1'].map(to),
    );
    expect([open!.code, open!.err]).toEqual([2, expect.stringContaining('leads to another machine')]);
    expect([bad!.code, bad!.err.includes('secret-word')]).toEqual([2, false]);
    expect(none!.err).toMatch(/No Redis answers at redis:\/\/127\.0\.0\.1:1 /);
    expect(none!.err).not.toContain('secret-word');
    const [odd, far] = await Promise.all(
      ['redis://:secret%zzword@127.0.0.1:1', `${redis.env.REDIS_URL}/99`].map(to),
    );
    expect(odd!.err).toMatch(/REDIS_URL has a % in its name or password .* write a % itself as %25/);
    expect([odd!.code, odd!.err.includes('secret')]).toEqual([2, false]);
    expect(far!.err).toMatch(/has no database 99 .*\. End REDIS_URL with the number of one that it has/);
    expect(far!.code).toBe(2);
  });
});
