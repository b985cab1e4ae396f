import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { openCase, readCase } from '../src/node.ts';

const DEMO = new URL('../../../datasets/demo/', import.meta.url);
let folder: string;

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'tubgap-opened-'));
  for (const [from, to] of [
    ['case.yaml', 'mycar.yaml'],
    ['tubs.csv', 'tubs.csv'],
    ['tyres.csv', 'tyres.csv'],
  ] as const) {
    writeFileSync(join(folder, to), readFileSync(new URL(from, DEMO)));
  }
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const opened = (called?: string) => {
  const read = openCase(join(folder, 'mycar.yaml'), [], called);
  if (!read.ok) throw new Error(read.lines.join('\n'));
  return read;
};

it('a case is read once: with other settings it is still the case that was opened', () => {
  const { source, again, named } = opened();
  const faster = again([{ path: 'run.trapSpeed', value: '~230 mph' }]);
  for (const file of ['mycar.yaml', 'tubs.csv', 'tyres.csv']) writeFileSync(join(folder, file), 'edited');
  expect(again([])).toEqual({ ok: true, source });
  expect(again([{ path: 'run.trapSpeed', value: '~230 mph' }])).toEqual(faster);
  expect(Object.keys(named).sort()).toEqual(['tubs.csv', 'tyres.csv']);
});

it('only what is at fault is counted as something to mend, whatever is warned of beside it', () => {
  const file = join(folder, 'mycar.yaml');
  const text = readFileSync(file, 'utf8').replace(/trapSpeed: .*/, 'trapSpeed: 224 mph');
  writeFileSync(file, text.replace('wheelbase: 108 in', 'wheelbase: 108 stone'));
  const read = openCase(file);
  expect(read.ok ? [] : read.lines.filter((line) => line.includes('warning: '))).not.toEqual([]);
  expect(() => readCase(file)).toThrow(/\nOne thing to mend; nothing was run\.$/);
});

it('a file that only a setting names is read when it is named first, and kept', () => {
  const { again, named } = opened();
  const tubs = readFileSync(join(folder, 'tubs.csv'), 'utf8');
  const set = [{ path: 'catalogues.tubs', value: 'others.csv' }];
  writeFileSync(join(folder, 'others.csv'), tubs);
  const first = again(set);
  expect(first.ok).toBe(true);
  rmSync(join(folder, 'others.csv'));
  expect(again(set)).toEqual(first);
  expect(named['others.csv']).toBe(tubs);
});

it('its values may call the file otherwise; what is wrong in it names the file itself', () => {
  const plain = JSON.stringify(opened().source);
  const { source } = opened('case.yaml');
  expect(plain).toContain('mycar.yaml');
  expect(JSON.stringify(source)).not.toContain('mycar.yaml');
  expect(JSON.stringify(source).replaceAll('case.yaml', 'mycar.yaml')).toBe(plain);
  writeFileSync(join(folder, 'mycar.yaml'), 'name: 5');
  const wrong = openCase(join(folder, 'mycar.yaml'), [], 'case.yaml');
  expect(wrong.ok ? [] : wrong.lines).toContainEqual(expect.stringContaining('mycar.yaml:1'));
});
