import {
  copyFileSync,
  cpSync,
  existsSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { type Finished, tubgap } from './command.ts';
import { demoFolder, filesBelow, NAME, SHARDS, SWEEP, startApp } from './small-sweep.ts';

let folder: string;
beforeAll(() => {
  folder = demoFolder('shards');
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Through the front door, which prints what was found. */
const run = (...words: string[]): Finished => tubgap(folder, ...words);
const app = (...words: string[]): Promise<Finished> => startApp(folder, words).end;
const SHARD_FOLDER = `array/${NAME}-shards`;
const shard = (number: number): string => join(folder, SHARD_FOLDER, `shard-000${number}-of-0004.json`);
const found = (results: string): Record<string, string> => filesBelow(join(folder, results, NAME));

it('shards of an array job, worked out in any order, merge to the bytes of one run', async () => {
  expect((await app(...SWEEP, '--results', 'one')).code).toBe(0);
  for (const i of [3, 1, 4]) {
    expect((await app(...SWEEP, '--results', 'array', '--shard', `${i}/${SHARDS}`)).code).toBe(0);
  }
  const early = await app('merge', SHARD_FOLDER);
  expect([early.code, early.err]).toEqual([
    2,
    expect.stringMatching(/Missing of 4 shards: 2\. .*--shard 2\/4/),
  ]);
  expect(existsSync(join(folder, 'array', NAME))).toBe(false);
  expect(run(...SWEEP, '--results', 'array', '--shard', '2/4').out).toContain('shard-0002-of-0004.json');
  expect(run(...SWEEP, '--results', 'array', '--shard', '2/4').out).toContain('done already');
  const merged = run('merge', SHARD_FOLDER);
  expect(merged.code).toBe(0);
  expect(merged.out).toMatch(/MOVES IT\s+speed at the finish/);
  // Its pictures are listed beside what one run without them wrote.
  const { 'written.json': list, ...written } = found('one');
  expect(found('array')).toMatchObject(written);
  expect(JSON.parse(found('array')['written.json']!)).toMatchObject(JSON.parse(list!));

  // The same from machines that share no disk, each with a folder of its own.
  for (const [own, other] of [
    ['left', [1, 2]],
    ['right', [3, 4]],
  ] as const) {
    cpSync(join(folder, SHARD_FOLDER), join(folder, own), { recursive: true });
    for (const i of [1, 2, 3, 4]) {
      if (!(other as readonly number[]).includes(i)) rmSync(join(folder, own, `shard-000${i}-of-0004.json`));
    }
  }
  expect((await app('merge', 'left', 'right', '--results', 'apart')).code).toBe(0);
  expect(found('apart')).toEqual(found('one'));
});

it('merge names what is doubled, foreign, damaged or missing, and writes nothing', async () => {
  const refused = async (told: RegExp): Promise<void> => {
    const done = await app('merge', SHARD_FOLDER, '--results', 'refused');
    expect(done.err).toMatch(told);
    expect(done.code).toBe(2);
    expect(existsSync(join(folder, 'refused', NAME))).toBe(false);
  };
  const whole = readFileSync(shard(3), 'utf8');
  copyFileSync(shard(3), join(folder, SHARD_FOLDER, 'shard-copy.json'));
  await refused(/Shard 3 is there 2 times: .*shard-0003-of-0004\.json, .*shard-copy\.json/);
  rmSync(join(folder, SHARD_FOLDER, 'shard-copy.json'));

  for (const [text, told] of [
    [whole.slice(0, whole.length / 2), /shard-0003-of-0004\.json: was cut off[\s\S]*Missing of 4 shards: 3/],
    ['\0'.repeat(5000), /shard-0003-of-0004\.json: was cut off/],
    [whole.replace(/"p50":[\d.]+/, '"p50":1'), /do not match their digest/],
    [whole.replace(/"key":"\w{4}/, '"key":"0000'), /belongs to another sweep. Take it out/],
  ] as const) {
    writeFileSync(shard(3), text);
    await refused(told);
  }
  writeFileSync(shard(3), whole);
  renameSync(join(folder, SHARD_FOLDER, 'manifest.json'), join(folder, 'kept.json'));
  await refused(/manifest\.json: cannot be read/);
  renameSync(join(folder, 'kept.json'), join(folder, SHARD_FOLDER, 'manifest.json'));

  const other = await app(...SWEEP, '--results', 'array', '--seed', '4', '--shard', '1/4');
  expect(other.err).toMatch(/holds shards of another sweep: the seed \(4 and 3\) is not the same/);
  for (const bad of ['0/4', '5/4']) {
    expect((await app(...SWEEP, '--shard', bad)).err).toMatch(
      /the number of the shard and of all shards are needed/,
    );
  }
  expect((await app(...SWEEP, '--shards', '6')).err).toMatch(/6 shards for 5 points.*5 are the most/);
});

it('without a queue the same shards run on this machine, and go on from those that are done', async () => {
  cpSync(join(folder, SHARD_FOLDER), join(folder, 'local', `${NAME}-shards`), { recursive: true });
  rmSync(join(folder, 'local', `${NAME}-shards`, 'shard-0001-of-0004.json'));
  const done = await app(...SWEEP, '--results', 'local', '--shards', '4', '--workers', '2');
  expect(done.err).toContain('Went on from 3 of 4 shards that were done.');
  expect(found('local')).toEqual(found('one'));
  expect(readdirSync(join(folder, 'local'))).toEqual([NAME]);
});
