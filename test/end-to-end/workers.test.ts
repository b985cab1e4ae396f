import { spawn } from 'node:child_process';
import { cpSync, existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { DEMO, ROOT, tubgap } from './command.ts';

const SMALL = ['--draws', '24576', '--cars', '192', '--seed', '5'];
let folder: string;

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'tubgap-workers-'));
  cpSync(DEMO, join(folder, 'demo'), { recursive: true });
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
    const count = parts.length === 0 ? 0 : readdirSync(join(place, parts[0]!)).length;
    if (count >= least) return count;
    await new Promise((resolve) => setTimeout(resolve, 25));
  }
  throw new Error('the run left no parts');
}

describe('the answer does not depend on who works it out', () => {
  it('1, 2 and 8 workers give the same bytes, and so does a run that was killed and started again', async () => {
    for (const workers of ['1', '2', '8']) {
      const done = tubgap(
        folder,
        'pick',
        'demo/case.yaml',
        ...SMALL,
        '--workers',
        workers,
        '--results',
        `by${workers}`,
      );
      expect(done.code).toBe(0);
    }
    const whole = resultOf('by1');
    expect(resultOf('by2')).toBe(whole);
    expect(resultOf('by8')).toBe(whole);

    const words = ['demo/case.yaml', ...SMALL, '--workers', '2', '--results', 'cut'];
    const cut = spawn(process.execPath, [`${ROOT}apps/montecarlo/dist/main.js`, ...words], { cwd: folder });
    await partsOf('cut', 4);
    cut.kill('SIGKILL');
    await new Promise((resolve) => cut.on('exit', resolve));
    expect(readdirSync(join(folder, 'cut')).every((entry) => entry.startsWith('.'))).toBe(true);

    const again = tubgap(folder, 'pick', 'demo/case.yaml', ...SMALL, '--results', 'cut');
    expect(again.code).toBe(0);
    expect(again.err).toMatch(/Went on from \d+ finished parts of a run that was cut/);
    expect(resultOf('cut')).toBe(whole);
    expect(readdirSync(join(folder, 'cut'))).toHaveLength(1);
  }, 300_000);
});
