import { Command } from '@commander-js/extra-typings';
import { openProgram } from '@tubgap/casefile/command-line';
import type { Study } from '@tubgap/results';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { judge, pick, sweep, work } from '../src/index.ts';
import { codeOf } from '../src/study/run-study-command.ts';

const ran = vi.hoisted(() => ({ pick: vi.fn(), judge: vi.fn(), sweep: vi.fn(), work: vi.fn() }));
// Its build is that of the built files.
vi.mock('../src/options.ts', () => ({ MADE_BY: 'this build', readCase: vi.fn() }));
vi.mock('../src/pick.ts', () => ({ runPick: ran.pick }));
vi.mock('../src/judge/run-judge.ts', () => ({ runJudge: ran.judge }));
vi.mock('../src/study/run-studies.ts', () => ({ runSweepVerb: ran.sweep }));
vi.mock('../src/queue/run-queue.ts', () => ({ runWork: ran.work }));

/** Runs a command line; @returns its exit code, and what it said of words that it could not read */
async function line(...words: string[]): Promise<{ code: number; said: string }> {
  let said = '';
  let code = 0;
  vi.spyOn(process, 'exit').mockImplementation((asked) => {
    code = Number(asked);
    throw new Error('ended');
  });
  vi.spyOn(process.stderr, 'write').mockImplementation((text) => {
    said += text;
    return true;
  });
  const telling = () => 0;
  const program = openProgram('tubgap', '', [
    pick(() => ({ decided: async () => false, written: telling })),
    judge,
    sweep(telling),
    work,
  ]);
  await program.parseAsync(['node', 'tubgap', ...words]).catch((error: Error) => {
    if (error.message !== 'ended') throw error;
  });
  return { code: code || Number(process.exitCode ?? 0), said };
}

afterEach(() => {
  vi.restoreAllMocks();
  for (const mock of Object.values(ran)) mock.mockReset();
  process.exitCode = undefined;
});

describe('options of the simulating verbs', () => {
  it('are read once, into numbers, metres and settings', async () => {
    ran.pick.mockResolvedValue(0);
    ran.judge.mockResolvedValue(0);
    await line('pick', 'a.yaml', '--draws', '1,000,000', '--seed', '0', '--set', 'a.b=1', '--set', 'c = ~2');
    expect(ran.pick.mock.calls[0]!.slice(0, 2)).toEqual([
      'a.yaml',
      {
        draws: 1_000_000,
        seed: 0,
        set: [
          { path: 'a.b', value: '1' },
          { path: 'c', value: '~2' },
        ],
      },
    ]);
    await line('judge', 'a.yaml', '--height', '39 1/4 in', '--centre', '-1/2 in');
    const [, { height, centre }] = ran.judge.mock.calls[0]!;
    expect([height / 0.0254, centre / 0.0254]).toEqual([expect.closeTo(39.25, 9), expect.closeTo(-0.5, 9)]);
  });

  it('leave what is not given to the verb, but for the minutes of a shard', async () => {
    ran.sweep.mockResolvedValue(0);
    ran.work.mockResolvedValue(0);
    await line('sweep', 'a.yaml', '--shard', '3/10', '--mode', 'one-at-a-time');
    expect(ran.sweep.mock.calls[0]![1]).toEqual({ shard: { shard: 3, of: 10 }, mode: 'one at a time' });
    await line('work');
    expect(ran.work).toHaveBeenCalledExactlyOnceWith({
      workers: undefined,
      leaveAfter: undefined,
      longest: 360,
    });
  });

  it.each([
    ['pick', 'a.yaml', '--draws', 'ten'],
    ['pick', 'a.yaml', '--workers', '0'],
    ['pick', 'a.yaml', '--set', 'nothing'],
    ['judge', 'a.yaml', '--height', '39 stone'],
    ['judge', 'a.yaml', '--height', '39 1/4'],
    ['judge', 'a.yaml', '--tub', 'x', '--centre', '0.5'],
    ['sweep', 'a.yaml', '--draws', '100'],
    ['sweep', 'a.yaml', '--shard', '11/10'],
    ['sweep', 'a.yaml', '--mode', 'both'],
    ['sweep', 'a.yaml', '--name', '../elsewhere'],
    ['compare', 'a.yaml', '--name', '.hidden'],
    ['sweep'],
  ])('that cannot be read end %s in 2 before anything runs', async (...words) => {
    const { code, said } = await line(...words);
    expect(code).toBe(2);
    expect(said).toMatch(/^error: /);
    for (const mock of Object.values(ran)) expect(mock).not.toHaveBeenCalled();
  });
});

describe('exit codes', () => {
  it('of a verb are those of its work: 3 where too few draws speak, 4 for a tub not within', async () => {
    ran.pick.mockResolvedValue(3);
    ran.judge.mockResolvedValue(4);
    expect((await line('pick', 'a.yaml')).code).toBe(3);
    process.exitCode = undefined;
    expect((await line('judge', 'a.yaml')).code).toBe(4);
  });

  it('of a study are read off its figures: 3 where a height is there, and no runs support one', () => {
    const cell = (topHeight: number | null, heightAtRisk: number | null) => ({ topHeight, heightAtRisk });
    const study = (...cells: object[]) =>
      ({ kind: 'setups', setups: [{ figures: [cells] }] }) as unknown as Study;
    expect(codeOf(study(cell(null, 1), cell(null, null)))).toBe(3);
    expect(codeOf(study(cell(1, 1), cell(null, 1)))).toBe(0);
    expect(codeOf(study(cell(null, null)))).toBe(0);
  });
});

describe('what a verb’s results are told to', () => {
  it('sees the options that whoever mounts the verb has added, and its code goes before the verb’s own', async () => {
    const written = vi.fn(() => 1);
    const telling = vi.fn(() => ({ decided: async () => false, written }));
    ran.pick.mockImplementation((_file, _options, teller) =>
      teller.written({ place: 'results/a', add: () => [] }),
    );
    const program = new Command().exitOverride();
    pick(telling)(program).option('--json', 'as JSON');
    await program.parseAsync(['node', 'tubgap', 'pick', 'a.yaml', '--json']);
    expect(telling).toHaveBeenCalledExactlyOnceWith({ json: true });
    expect(written).toHaveBeenCalledExactlyOnceWith(expect.objectContaining({ place: 'results/a' }));
    expect(process.exitCode).toBe(1);
  });
});
