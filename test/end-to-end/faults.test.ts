import { execFileSync } from 'node:child_process';
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { tubgap } from './command.ts';
import { fakeTime, hasRedis, ownRedis } from './redis.ts';
import { demoFolder, filesBelow, NAME, SWEEP, startApp, until } from './small-sweep.ts';

let folder: string;
let whole: Record<string, string>;
let small: string;

/** A small disk, where this test may mount one, or the same with another size. */
function mountSmall(size: string): boolean {
  try {
    const again = existsSync(small);
    mkdirSync(small, { recursive: true });
    execFileSync('mount', ['-t', 'tmpfs', '-o', `${again ? 'remount,' : ''}size=${size}`, 'tmpfs', small], {
      stdio: 'ignore',
    });
    return true;
  } catch {
    process.stderr.write('\nSKIPPED: the test of a full disk may not mount a small one here.\n\n');
    return false;
  }
}

const found = (results: string): Record<string, string> => filesBelow(join(folder, results, NAME));

beforeAll(async () => {
  folder = demoFolder('faults');
  small = join(folder, 'small');
  expect((await startApp(folder, [...SWEEP, '--results', 'whole']).end).code).toBe(0);
  whole = found('whole');
});

afterAll(() => {
  try {
    execFileSync('umount', [small], { stdio: 'ignore' });
  } catch {
    // It was not mounted.
  }
  rmSync(folder, { recursive: true, force: true });
});

it('a full disk ends a run in words, leaves no half results, and the run goes on when there is room', async ({
  skip,
}) => {
  if (!mountSmall('300k')) return skip();
  const filler = join(small, 'filler');
  writeFileSync(filler, Buffer.alloc(270 * 1024));
  const words = [...SWEEP, '--results', 'small', '--shards', '4', '--workers', '1'];
  const full = await startApp(folder, words).end;
  expect(full.err).toMatch(/could not be written|cannot be written to/);
  expect(full.err).toMatch(/ENOSPC.*Free some space/);
  expect(full.code).toBe(1);
  expect(existsSync(join(small, NAME))).toBe(false);
  rmSync(filler);
  const done = await startApp(folder, words).end;
  expect(done.code).toBe(0);
  expect(found('small')).toEqual(whole);
});

it('a full disk ends a pick in words, its finished parts stay, and the next one goes on from them', async ({
  skip,
}) => {
  if (!mountSmall('1m')) return skip();
  rmSync(join(small, NAME), { recursive: true, force: true });
  const words = ['pick', 'demo/case.yaml', '--draws', '4096', '--cars', '64', '--seed', '3'];
  const full = tubgap(folder, ...words, '--results', 'small');
  expect(full.err).toMatch(
    /^small\/\.winged-door-car\.parts: finished parts could not be kept \(ENOSPC.*\)\. No results were changed\. Free some space .* it goes on from the parts that are there\.\n$/,
  );
  expect(full.code).toBe(1);
  expect(full.out).toBe('');
  expect(readdirSync(small)).toEqual(['.winged-door-car.parts']);
  expect(
    Object.keys(filesBelow(join(small, '.winged-door-car.parts'))).filter((name) => name.includes('writing')),
  ).toEqual([]);
  // Enough for the parts, those of places along the car among them, and for the results.
  expect(mountSmall('128m')).toBe(true);
  const done = await startApp(folder, [...words, '--results', 'small']).end;
  expect(done.err).toMatch(/^Went on from \d+ finished parts of a run that was cut\.$/m);
  // 3: so few runs do not support the accepted season risk.
  expect(done.code).toBe(3);
  expect(readdirSync(small)).toEqual(['winged-door-car']);
  expect((await startApp(folder, [...words, '--results', 'roomy']).end).code).toBe(3);
  const resultIn = (results: string): string =>
    readFileSync(join(folder, results, 'winged-door-car', 'result.json'), 'utf8');
  expect(resultIn('small')).toBe(resultIn('roomy'));
});

it('of two runs that write the same results one is refused, and a killed run’s hold is taken over', async () => {
  const words = [...SWEEP, '--results', 'both', '--shards', '4', '--workers', '1'];
  const first = startApp(folder, words);
  await until('the first run’s hold', () => existsSync(join(folder, 'both', `.${NAME}.lock`)));
  const second = await startApp(folder, words).end;
  expect(second.err).toMatch(/another run is writing it \(process \d+ on .*\)\. Wait for it/);
  expect(second.code).toBe(2);
  first.child.kill('SIGKILL');
  await first.end;
  expect(existsSync(join(folder, 'both', `.${NAME}.lock`))).toBe(true);
  expect((await startApp(folder, words).end).code).toBe(0);
  expect(found('both')).toEqual(whole);
  expect(readdirSync(join(folder, 'both'))).toEqual([NAME]);
});

it('half-written and damaged shards are worked out again, not taken in', async () => {
  for (const i of [1, 2, 3]) {
    const { code } = await startApp(folder, [...SWEEP, '--results', 'half', '--shard', `${i}/4`]).end;
    expect(code).toBe(0);
  }
  const place = join(folder, 'half', `${NAME}-shards`);
  truncateSync(join(place, 'shard-0001-of-0004.json'), 700);
  const second = join(place, 'shard-0002-of-0004.json');
  writeFileSync(second, readFileSync(second, 'utf8').replace(/"p99":\d/, '"p99":7'));
  writeFileSync(join(place, 'shard-0004-of-0004.json.1-x.writing'), '{"format":');
  const done = await startApp(folder, [...SWEEP, '--results', 'half', '--shards', '4']).end;
  expect(done.err).toContain('Went on from 1 of 4 shards');
  expect(done.code).toBe(0);
  expect(found('half')).toEqual(whole);
});

/** A clock that jumps by years, back and forth, for every program that is started with its settings. */
function jumpingClock(library: string): { env: NodeJS.ProcessEnv; jumps: () => number; stop: () => void } {
  const clock = join(mkdtempSync(join(folder, 'clock-')), 'shift');
  writeFileSync(clock, '+0');
  let jumps = 0;
  const jumping = setInterval(() => {
    writeFileSync(`${clock}.next`, ['-9y', '+9y', '-1h', '+1d'][jumps++ % 4]!);
    renameSync(`${clock}.next`, clock);
  });
  return {
    env: {
      LD_PRELOAD: library,
      FAKETIME_TIMESTAMP_FILE: clock,
      FAKETIME_NO_CACHE: '1',
      FAKETIME_DONT_FAKE_MONOTONIC: '1',
    },
    jumps: () => jumps,
    stop: () => clearInterval(jumping),
  };
}

it('clock jumps of years, back and forth, change no byte', async ({ skip }) => {
  const library = fakeTime();
  if (library === undefined) return skip();
  const { env, jumps, stop } = jumpingClock(library);
  const run = startApp(folder, [...SWEEP, '--results', 'clock', '--shards', '4', '--workers', '1'], env);
  const done = await run.end;
  stop();
  expect([done.code, done.err]).toEqual([0, expect.not.stringContaining('failed')]);
  expect(jumps()).toBeGreaterThan(3);
  expect(found('clock')).toEqual(whole);
});

it('nor do they through the queue, where the clocks of coordinator, worker and Redis disagree', async ({
  skip,
}) => {
  const library = hasRedis() ? fakeTime() : undefined;
  if (library === undefined) return skip();
  const [here, there] = [jumpingClock(library), jumpingClock(library)];
  const redis = await ownRedis();
  const worker = startApp(folder, ['work', '--workers', '1'], { ...redis.env, ...there.env });
  try {
    const words = [...SWEEP, '--results', 'clocks', '--shards', '4', '--queue'];
    const done = await startApp(folder, words, { ...redis.env, ...here.env }).end;
    expect([done.code, done.err]).toEqual([0, expect.not.stringContaining('failed')]);
    expect(here.jumps()).toBeGreaterThan(3);
    expect(found('clocks')).toEqual(whole);
    expect(worker.said().match(/shard \d of 4 in/g)!.length).toBeGreaterThanOrEqual(4);
  } finally {
    here.stop();
    there.stop();
    worker.child.kill('SIGKILL');
    await redis.remove();
  }
});
