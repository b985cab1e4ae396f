import { openProgram } from '@tubgap/casefile/command-line';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { learn, plan } from '../src/index.ts';

const ran = vi.hoisted(() => ({ learn: vi.fn(), plan: vi.fn() }));
vi.mock('../src/run-learn.ts', () => ({ runLearn: ran.learn }));
vi.mock('../src/run-plan.ts', () => ({ runPlan: ran.plan }));

const line = (...words: string[]): Promise<unknown> =>
  openProgram('tubgap', '', [learn, plan])
    .exitOverride()
    .parseAsync(['node', 'tubgap', ...words]);

afterEach(() => {
  vi.restoreAllMocks();
  for (const mock of Object.values(ran)) mock.mockReset();
  process.exitCode = undefined;
});

describe('options of the learning verbs', () => {
  it('take the draws and cars that the help names where none are given', async () => {
    ran.learn.mockResolvedValue(4);
    await line('learn', 'a.yaml', '--measured', 'm');
    expect(ran.learn).toHaveBeenCalledExactlyOnceWith('a.yaml', {
      measured: 'm',
      draws: 40_960,
      cars: 600,
    });
    expect(process.exitCode).toBe(4);
    const words = openProgram('tubgap', '', [learn]).commands[0]!.options.map(
      ({ description }) => description,
    );
    expect(words.join('\n')).toMatch(/left out: 40,960\n.*left out: 600\n/);
  });

  it('read the height of a plan in metres, and leave the rest to the case', async () => {
    ran.plan.mockResolvedValue(0);
    await line('plan', 'a.yaml', '--tub', 'street-42', '--height', '39 1/4 in');
    const [, options] = ran.plan.mock.calls[0]!;
    expect(options).toEqual({ tub: 'street-42', height: expect.closeTo(39.25 * 0.0254, 12) });
  });
});
