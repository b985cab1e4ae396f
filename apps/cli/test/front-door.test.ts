import { readFileSync } from 'node:fs';
import { EXIT_CODES, Stop } from '@tubgap/casefile/command-line';
import { MOMENTS } from '@tubgap/core';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { frontDoor } from '../src/front-door.ts';
import { addInTurn } from '../src/report-results.ts';

const verbs = frontDoor().commands;
const readMe = readFileSync(new URL('../README.md', import.meta.url), 'utf8');

afterEach(() => vi.restoreAllMocks());

describe('the front door', () => {
  it('has every verb of the README, each mounted once', () => {
    const names = verbs.map((verb) => verb.name());
    const cells = Array.from(readMe.matchAll(/^\| (`tubgap [^|]*)\|/gm), ([, cell]) => cell!);
    const written = cells.flatMap((cell) => Array.from(cell.matchAll(/`tubgap (\w+)/g), ([, name]) => name!));
    expect(written.length).toBeGreaterThan(10);
    expect(names.toSorted()).toEqual([...new Set(written)].toSorted());
  });

  it('declares an option once a verb, and says the same words of it wherever it is the same option', () => {
    const said = new Map<string, Set<string>>();
    for (const verb of verbs) {
      const flags = verb.options.map(({ long }) => long);
      expect(flags, verb.name()).toEqual([...new Set(flags)]);
      for (const { flags: whole, description } of verb.options) {
        said.set(whole, (said.get(whole) ?? new Set()).add(description));
      }
    }
    for (const option of ['--seed <number>', '--measured <folder>', '--shards <number>']) {
      expect(said.has(option), option).toBe(true);
    }
    expect(said.get('--seed <number>')).toHaveLength(1);
  });

  it('names every moment of a run and every exit code in its help', () => {
    const state = verbs.find((verb) => verb.name() === 'state')!;
    const words = state.options.find(({ long }) => long === '--moment')!.description;
    for (const moment of MOMENTS) expect(words).toContain(moment);
    let help = '';
    frontDoor()
      .configureOutput({ writeOut: (text) => (help += text) })
      .outputHelp();
    for (const { code, means } of Object.values(EXIT_CODES)) expect(help).toContain(`${code} ${means}\n`);
  });
});

describe('papers that are made after the decision', () => {
  const listen = () => {
    let said = '';
    vi.spyOn(process.stderr, 'write').mockImplementation((text) => {
      said += text;
      return true;
    });
    return () => said;
  };
  const written = (added: string[]) => ({
    place: 'results/mycar',
    add: (files: Readonly<Record<string, unknown>>) => {
      added.push(...Object.keys(files));
      return [];
    },
  });

  it('are each made although one before failed; what stands and how to make them again is said', async () => {
    const said = listen();
    const added: string[] = [];
    const full = () => Promise.reject(new Stop('report.html: could not be written (ENOSPC).', 1));
    const code = await addInTurn(written(added), [full, () => ({ 'at-the-car.html': '' })]);
    expect(code).toBe(1);
    expect(added).toEqual(['at-the-car.html']);
    expect(said()).toBe(
      'report.html: could not be written (ENOSPC).\nWhat was found stands, and is kept in results/mycar. To make its papers again: tubgap report results/mycar\n',
    );
  });

  it('leave the code of the results where one does not take an input that was good enough for these', async () => {
    const said = listen();
    expect(await addInTurn(written([]), [() => Promise.reject(new Stop('--set cannot be carried', 2))])).toBe(
      0,
    );
    expect(said()).toContain('--set cannot be carried\nWhat was found stands');
  });

  it('end in a stop by hand with its code, and say that what was found stands', async () => {
    const said = listen();
    const exit = vi.spyOn(process, 'exit').mockImplementation(() => undefined as never);
    await addInTurn(written([]), [
      async () => {
        process.emit('SIGTERM', 'SIGTERM');
        return {};
      },
    ]);
    expect(exit).toHaveBeenCalledExactlyOnceWith(143);
    expect(said()).toMatch(/^Stopped\. What was found stands, and is kept in results\/mycar\./);
    expect(process.listenerCount('SIGTERM')).toBe(0);
  });
});
