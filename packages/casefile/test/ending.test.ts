import { afterEach, describe, expect, it, vi } from 'vitest';
import { conclude, EXIT_CODES, endingOf, Stop } from '../src/command-line/index.ts';

afterEach(() => {
  vi.restoreAllMocks();
  process.exitCode = undefined;
});

describe('the end of a command', () => {
  it('is what an error says of itself, whatever package it comes from', () => {
    expect(endingOf(new Stop('mend this', 3), 'case.yaml')).toMatchObject({
      message: 'mend this',
      exitCode: 3,
    });
    const disk = Object.assign(new Error('no space'), { exitCode: 1 });
    expect(endingOf(disk, 'case.yaml')).toMatchObject({ message: 'no space', exitCode: 1 });
  });

  it('is the input’s fault where the model does not know it, and this program’s for anything else', () => {
    expect(endingOf(new RangeError('too fast'), 'case.yaml')).toEqual({
      message: 'case.yaml: too fast',
      exitCode: EXIT_CODES.badInput.code,
    });
    expect(endingOf(new TypeError('x is undefined'), 'case.yaml', 'No results were changed.')).toEqual({
      message:
        'case.yaml: this program failed (TypeError: x is undefined). No results were changed. Please report it.',
      exitCode: EXIT_CODES.fault.code,
    });
  });

  it('keeps the first code that is not 0: output that could not be written is not forgotten', async () => {
    await conclude('case.yaml', () => 0);
    expect(process.exitCode).toBeUndefined();
    process.exitCode = 1;
    await conclude('case.yaml', () => 3);
    expect(process.exitCode).toBe(1);
  });

  it('stops the process where it stands when something is thrown, for threads may still work for it', async () => {
    const exit = vi.spyOn(process, 'exit').mockImplementation(() => undefined as never);
    const said = vi.spyOn(process.stderr, 'write').mockImplementation(() => true);
    await conclude('case.yaml', () => Promise.reject(new Stop('nothing was run', 2)));
    expect(exit).toHaveBeenCalledExactlyOnceWith(2);
    expect(said).toHaveBeenCalledExactlyOnceWith('nothing was run\n');
  });

  it('has a code of its own for each of its kinds', () => {
    const codes = Object.values(EXIT_CODES).map(({ code }) => code);
    expect(codes).toEqual([0, 1, 2, 3, 4]);
  });
});
