import { existsSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { demoFolder, startApp } from './small-sweep.ts';

const SMALL = ['--draws', '16384', '--cars', '96', '--seed', '5'];
let folder: string;

beforeAll(() => {
  folder = demoFolder('workers');
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

const resultOf = (parent: string): string => {
  const [name] = readdirSync(join(folder, parent)).filter((entry) => !entry.startsWith('.'));
  return readFileSync(join(folder, parent, name!, 'result.json'), 'utf8');
};

/** Waits until finished parts lie beside the results, so that the run is cut in its middle. */
async function partsOf(parent: string, least: number): Promise<number> {
  for (let tries = 0; tries < 1200; tries++) {
    const place = join(folder, parent);
    const parts = existsSync(place) ? readdirSync(place).filter((entry) => entry.endsWith('.parts')) : [];
    const count = parts.length === 0 ? 0 : readdirSync(join(place, parts[0]!), { recursive: true }).length;
    if (count >= least) return count;
    await new Promise((resolve) => setTimeout(resolve, 25));
  }
  throw new Error('the run left no parts');
}

describe('the answer does not depend on who works it out', () => {
  it('1, 2 and 8 workers give the same bytes, and so does a run that was killed and started again', async () => {
    for (const workers of ['1', '2', '8']) {
      const words = ['pick', 'demo/case.yaml', ...SMALL, '--workers', workers, '--results', `by${workers}`];
      expect((await startApp(folder, words).end).code).toBe(0);
    }
    const whole = resultOf('by1');
    expect(resultOf('by2')).toBe(whole);
    expect(resultOf('by8')).toBe(whole);

    const words = ['pick', 'demo/case.yaml', ...SMALL, '--workers', '2', '--results', 'cut'];
    const cut = startApp(folder, words);
    await partsOf('cut', 4);
    cut.child.kill('SIGKILL');
    await cut.end;
    expect(readdirSync(join(folder, 'cut')).every((entry) => entry.startsWith('.'))).toBe(true);

    const again = await startApp(folder, words).end;
    expect(again.code).toBe(0);
    expect(again.err).toMatch(/Went on from \d+ finished parts of a run that was cut/);
    expect(resultOf('cut')).toBe(whole);
    expect(readdirSync(join(folder, 'cut'))).toHaveLength(1);
  });
});
