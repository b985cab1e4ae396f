import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { otherBuild } from './other-build.ts';
import { hasRedis, ownRedis } from './redis.ts';
import { APP, demoFolder, filesBelow, NAME, type Running, SWEEP, startApp, until } from './small-sweep.ts';

let folder: string;
let elsewhere: string;
let other: string;

beforeAll(() => {
  folder = demoFolder('builds');
  elsewhere = mkdtempSync(join(tmpdir(), 'tubgap-other-build-'));
  other = otherBuild(elsewhere);
});

afterAll(() => {
  for (const place of [folder, elsewhere]) rmSync(place, { recursive: true, force: true });
});

const run = (main: string, words: readonly string[], env: NodeJS.ProcessEnv = {}): Running =>
  startApp(folder, words, env, [], main);

describe('another build under the same version', () => {
  it('takes no finished parts of this one, says so, and finds what it finds alone', async () => {
    const words = ['pick', 'demo/case.yaml', '--draws', '40960', '--cars', '32', '--workers', '1'];
    const cut = run(APP, [...words, '--results', 'cut']);
    const parts = join(folder, 'cut', '.winged-door-car.parts');
    const finished = (): string[] =>
      existsSync(parts) ? readdirSync(parts, { recursive: true }).map(String) : [];
    await until('finished parts', () => finished().length > 6);
    cut.child.kill('SIGKILL');
    await cut.end;
    const [mixed, alone] = await Promise.all([
      run(other, [...words, '--results', 'cut']).end,
      run(other, [...words, '--results', 'alone']).end,
    ]);
    expect(mixed.err).toMatch(
      /\d+ finished parts .* are of another build \(tubgap 0\.1\.0, build [0-9a-f]{12}; this is tubgap 0\.1\.0, build [0-9a-f]{12}\) and are not taken/,
    );
    expect(mixed.err).not.toContain('Went on from');
    expect(mixed.code).toBe(alone.code);
    const found = (results: string): string =>
      readFileSync(join(folder, results, 'winged-door-car', 'result.json'), 'utf8');
    expect(found('cut')).toBe(found('alone'));
  });

  it('refuses to go on with shards of this one, and leaves them', async () => {
    const words = [...SWEEP, '--results', 'shards'];
    expect((await run(APP, [...words, '--shard', '1/4']).end).code).toBe(0);
    const place = join(folder, 'shards', `${NAME}-shards`);
    const before = filesBelow(place);
    for (const more of [
      ['--shard', '2/4'],
      ['--shards', '4'],
    ]) {
      const done = await run(other, [...words, ...more]).end;
      expect(done.err).toMatch(
        /the build of this program \(tubgap .* build [0-9a-f]{12} and tubgap .* build [0-9a-f]{12}\)/,
      );
      expect(done.code).toBe(2);
    }
    expect(filesBelow(place)).toEqual(before);
  });

  it.skipIf(!hasRedis())('gets nothing of a sweep at the same Redis, and both sides are told', async () => {
    const redis = await ownRedis();
    const started: Running[] = [];
    const start = (main: string, words: readonly string[]): Running => {
      const one = run(main, words, redis.env);
      started.push(one);
      return one;
    };
    try {
      const stranger = start(other, ['work', '--workers', '1']);
      await until('the worker of the other build', () => stranger.said().includes('At redis'));
      const sweep = start(APP, [...SWEEP, '--results', 'queue', '--queue', '--shards', '4']);
      await until('the word of the other build', () => sweep.said().includes('get nothing of this sweep'));
      expect(sweep.said()).toMatch(
        /Also at redis:\S+: 1 worker of build [0-9a-f]{12}; this is tubgap 0\.1\.0, build/,
      );
      const late = start(other, ['work', '--workers', '1']);
      await until('the word of the sweep', () => late.said().includes('waits for workers of'));
      expect((await start(APP, ['queue']).end).out).toMatch(
        /^0 workers; 2 workers of build [0-9a-f]{12}\n[0-9a-f]{16} {2}winged-door-car, 4 shards: 4 waiting\n$/,
      );
      start(APP, ['work', '--workers', '1']);
      expect((await sweep.end).code).toBe(0);
      const { code } = await run(APP, [...SWEEP, '--results', 'whole']).end;
      expect(code).toBe(0);
      const found = (results: string): Record<string, string> => filesBelow(join(folder, results, NAME));
      expect(found('queue')).toEqual(found('whole'));
      expect(stranger.said() + late.said()).not.toMatch(/shard/);
    } finally {
      for (const { child } of started) child.kill('SIGKILL');
      await redis.remove();
    }
  });
});
