import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { addToResults, mendResults, ResultsError, writeResults } from '../src/folder.ts';
import { readResults } from '../src/result-file.ts';
import { RESULT_VERSION } from '../src/schema.ts';
import { sealedText } from '../src/seal.ts';

let parent: string;

beforeEach(() => {
  parent = mkdtempSync(join(tmpdir(), 'tubgap-results-'));
});
afterEach(() => rmSync(parent, { recursive: true, force: true }));

const read = (file: string): string => readFileSync(join(parent, 'car', file), 'utf8');

describe('a results folder', () => {
  it('is replaced as a whole: nothing of the old one stays, nothing else lies about', () => {
    writeResults(parent, 'car', { 'a.txt': 'old', 'b.txt': 'old' });
    writeResults(parent, 'car', { 'a.txt': 'new' });
    expect(read('a.txt')).toBe('new');
    expect(readdirSync(parent)).toEqual(['car']);
    expect(readdirSync(join(parent, 'car'))).toEqual(['a.txt']);
  });

  it('comes back when a swap was cut between its two steps', () => {
    writeResults(parent, 'car', { 'a.txt': 'finished' });
    // The first step moves the old folder aside; the second, which brings the new one, did not happen.
    renameSync(join(parent, 'car'), join(parent, '.car.before'));
    mkdirSync(join(parent, '.car.writing'));
    writeFileSync(join(parent, '.car.writing', 'a.txt'), 'half');
    mendResults(parent, 'car');
    expect(read('a.txt')).toBe('finished');
    expect(readdirSync(parent)).toEqual(['car']);
  });

  it('keeps the new one when only the clearing up was cut', () => {
    writeResults(parent, 'car', { 'a.txt': 'new' });
    mkdirSync(join(parent, '.car.before'));
    mendResults(parent, 'car');
    expect(read('a.txt')).toBe('new');
    expect(existsSync(join(parent, '.car.before'))).toBe(false);
  });

  it('that cannot be written leaves the finished one and says so', () => {
    writeResults(parent, 'car', { 'a.txt': 'finished' });
    const broken = (): string => writeResults(parent, 'car', { 'a.txt': 'x', 'a.txt/b.txt': 'x' });
    expect(broken).toThrow(ResultsError);
    expect(broken).toThrow(/untouched/);
    expect(read('a.txt')).toBe('finished');
  });

  it('gets further files whole or not at all', () => {
    writeResults(parent, 'car', { 'a.txt': 'x' });
    addToResults(join(parent, 'car'), { 'b.csv': 'y' });
    expect(readdirSync(join(parent, 'car')).sort()).toEqual(['a.txt', 'b.csv']);
    expect(() => addToResults(join(parent, 'gone'), { 'b.csv': 'y' })).toThrow(ResultsError);
  });

  it('that is missing, half-written, of another layout or changed by hand is refused in one sentence', () => {
    const place = join(parent, 'car');
    expect(() => readResults(place)).toThrow(/there is no such folder\. Run the case first/);
    writeResults(parent, 'car', { 'result.json': '{"half":' });
    expect(() => readResults(place)).toThrow(/not readable as JSON/);
    writeResults(parent, 'car', { 'result.json': '{"version":99}' });
    expect(() => readResults(place)).toThrow(`layout 99; this program reads layout ${RESULT_VERSION}`);
    const bare = { format: 'tubgap result', version: RESULT_VERSION };
    writeResults(parent, 'car', { 'result.json': JSON.stringify(bare) });
    expect(() => readResults(place)).toThrow(/holds no digest.*Run the case again/);
    writeResults(parent, 'car', { 'result.json': sealedText(bare).replace('result"', 'results"') });
    expect(() => readResults(place)).toThrow(/does not match its digest.*Run the case again/);
    writeResults(parent, 'car', { 'result.json': sealedText(bare) });
    expect(() => readResults(place)).toThrow(/madeBy: .*Run the case again/);
  });
});
