import { execFileSync } from 'node:child_process';
import {
  cpSync,
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
import fc from 'fast-check';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { bringBackCut, holdFolder, holdResults, writeInto } from '../src/hold.ts';
import type { FolderKind } from '../src/marker.ts';
import { readResults } from '../src/result-file.ts';
import { ResultsError, ResultsRefused } from '../src/results-error.ts';
import { RESULT_VERSION } from '../src/schema-asked.ts';
import { sealedText } from '../src/seal.ts';
import { addFiles, swapResults } from '../src/swap.ts';

let parent: string;
let place: string;

beforeEach(() => {
  parent = mkdtempSync(join(tmpdir(), 'tubgap-results-'));
  place = join(parent, 'car');
});
afterEach(() => rmSync(parent, { recursive: true, force: true }));

const read = (file: string): string => readFileSync(join(place, file), 'utf8');
const put = (file: string, text: string): void => writeFileSync(join(place, file), text);

type Texts = Record<string, string>;
function write(files: Texts, kind: FolderKind = 'pick'): readonly string[] {
  const hold = holdResults(parent, 'car', { kind, asked: 'again' });
  try {
    return [...hold.remarks, ...hold.write(files, 'again')];
  } finally {
    hold.free();
  }
}
function add(files: Texts): readonly string[] {
  const hold = holdFolder(place);
  try {
    return [...hold.remarks, ...hold.add(files)];
  } finally {
    hold.free();
  }
}

describe('a results folder', () => {
  it('is replaced as a whole: nothing of the old one stays, nothing else lies about', () => {
    write({ 'a.txt': 'old', 'b/b.txt': 'old' });
    expect(write({ 'a.txt': 'new' })).toEqual([]);
    expect(read('a.txt')).toBe('new');
    expect(readdirSync(parent)).toEqual(['car']);
    expect(readdirSync(place)).toEqual(['a.txt', 'written.json']);
  });

  it('comes back when a swap was cut between its two steps, for whoever reads it', () => {
    write({ 'a.txt': 'finished' });
    // The first step moves the old folder aside; the second, which brings the new one, did not happen.
    renameSync(place, join(parent, '.car.before'));
    mkdirSync(join(parent, '.car.writing'));
    writeFileSync(join(parent, '.car.writing', 'a.txt'), 'half');
    bringBackCut(place);
    expect(read('a.txt')).toBe('finished');
    expect(readdirSync(parent)).toEqual(['car']);
  });

  it('keeps the new one when only the clearing up was cut, with what somebody wrote into the old one', () => {
    write({ 'a.txt': 'old', 'sheet.csv': 'blank' });
    const before = join(parent, '.car.before');
    cpSync(place, before, { recursive: true });
    writeFileSync(join(before, 'sheet.csv'), 'measured');
    writeFileSync(join(before, 'notes.txt'), 'by hand');
    write({ 'a.txt': 'new', 'sheet.csv': 'blank' });
    expect([read('a.txt'), read('sheet.csv')]).toEqual(['new', 'blank']);
    expect([read('sheet.changed.csv'), read('notes.txt')]).toEqual(['measured', 'by hand']);
    expect(readdirSync(parent)).toEqual(['car']);
  });

  it('that cannot be written leaves the finished one and says so', () => {
    write({ 'a.txt': 'finished' });
    const broken = (): unknown => write({ 'a.txt': 'x', 'a.txt/b.txt': 'x' });
    expect(broken).toThrow(ResultsError);
    expect(broken).toThrow(/untouched/);
    expect(read('a.txt')).toBe('finished');
  });

  it('gets further files whole or not at all', () => {
    write({ 'a.txt': 'x' });
    add({ 'b.csv': 'y' });
    expect(readdirSync(place).sort()).toEqual(['a.txt', 'b.csv', 'written.json']);
    expect(() => writeInto(join(parent, 'gone'), { kind: 'year', asked: '' }, { 'b.csv': 'y' })).toThrow(
      ResultsError,
    );
  });

  it('that is missing, half-written, of another layout or changed by hand is refused in one sentence', () => {
    expect(() => readResults(place)).toThrow(/there is no such folder\. Run the case first/);
    write({ 'result.json': '{"half":' });
    expect(() => readResults(place)).toThrow(/not readable as JSON/);
    write({ 'result.json': '{"version":99}' });
    expect(() => readResults(place)).toThrow(`layout 99; this program reads layout ${RESULT_VERSION}`);
    const bare = { format: 'tubgap result', version: RESULT_VERSION };
    write({ 'result.json': JSON.stringify(bare) });
    expect(() => readResults(place)).toThrow(/holds no digest.*Run the case again/);
    write({ 'result.json': sealedText(bare).replace('result"', 'results"') });
    expect(() => readResults(place)).toThrow(/does not match its digest.*Run the case again/);
    write({ 'result.json': sealedText(bare) });
    expect(() => readResults(place)).toThrow(/madeBy: .*Run the case again/);
  });
});

describe('what somebody else has in the place of results', () => {
  it('refuses a folder that this program did not write, one of another kind, and one with something laid in', () => {
    mkdirSync(place);
    put('notes.txt', 'by hand');
    expect(() => write({ 'a.txt': 'x' })).toThrow(/holds notes\.txt; this program did not write it/);
    put('written.json', '{}');
    expect(() => write({ 'a.txt': 'x' })).toThrow(/written\.json is no list that this program can read/);
    rmSync(place, { recursive: true });
    writeFileSync(place, 'a file');
    expect(() => write({ 'a.txt': 'x' })).toThrow(/is a file/);
    rmSync(place);
    mkdirSync(place);
    write({ 'a.txt': 'x' });
    expect(() => write({ 'a.txt': 'x' }, 'sweep')).toThrow(/holds a pick, not a sweep/);
    expect(() => writeInto(place, { kind: 'year', asked: '' }, { 'b.csv': 'y' })).toThrow(ResultsRefused);
    put('.DS_Store', 'left by a file browser');
    expect(write({ 'a.txt': 'y' })).toEqual([]);
    mkdirSync(join(place, 'photos'));
    expect(() => write({ 'a.txt': 'x' })).toThrow(/did not write: photos\//);
    expect(readdirSync(parent)).toEqual(['car']);
  });

  it('stays: a filled sheet in its place while its blank is the same, aside under a name that is told when it is not', () => {
    write({ 'a.txt': 'x' });
    add({ 'sheet.csv': 'blank' });
    put('sheet.csv', 'measured');
    expect(add({ 'sheet.csv': 'blank' })).toEqual([expect.stringMatching(/left as it is: sheet\.csv/)]);
    expect(write({ 'a.txt': 'y' })).toEqual([]);
    expect(read('sheet.csv')).toBe('measured');
    expect(add({ 'sheet.csv': 'other blank' })).toEqual([
      expect.stringMatching(/sheet\.csv was changed .* kept as sheet\.changed\.csv/),
    ]);
    expect([read('sheet.csv'), read('sheet.changed.csv')]).toEqual(['other blank', 'measured']);
    write({ 'a.txt': 'z' });
    expect(read('sheet.changed.csv')).toBe('measured');
  });

  it('law: whatever is typed or laid in, every text of it is in the folder after any writes', () => {
    const words = { kind: 'pick', asked: 'again' } as const;
    const texts = fc.dictionary(
      fc.constantFrom('a.txt', 'b.csv', 'b.changed.csv'),
      fc.constantFrom('1', '2'),
    );
    const step = fc.oneof(
      fc.record({ does: fc.constant('swap' as const), texts }),
      fc.record({ does: fc.constant('add' as const), texts }),
      fc.record({
        does: fc.constant('type' as const),
        name: fc.constantFrom('a.txt', 'b.csv', 'a.changed.txt', 'notes'),
      }),
    );
    fc.assert(
      fc.property(fc.array(step, { minLength: 3, maxLength: 9 }), (steps) => {
        rmSync(place, { recursive: true, force: true });
        swapResults(parent, 'car', words, { 'a.txt': '1' });
        const typed = new Set<string>();
        for (const [i, one] of steps.entries()) {
          if (one.does === 'swap') swapResults(parent, 'car', words, one.texts);
          else if (one.does === 'add') addFiles(place, one.texts);
          else {
            // Somebody who writes over a text of their own wants it gone.
            if (existsSync(join(place, one.name))) typed.delete(read(one.name));
            put(one.name, `typed ${i}`);
            typed.add(`typed ${i}`);
          }
        }
        const there = readdirSync(place).map(read);
        expect(there).toEqual(expect.arrayContaining([...typed]));
        expect(readdirSync(parent)).toEqual(['car']);
      }),
      { numRuns: 20 },
    );
  });

  it('that cannot be taken away is told, and every later write goes through', ({ skip }) => {
    write({ 'a.txt': 'old', 'b/b.txt': 'old' });
    const hardened = (how: '+i' | '-i', folder: string): void =>
      void execFileSync('chattr', [how, join(parent, folder, 'b', 'b.txt')], { stdio: 'ignore' });
    try {
      hardened('+i', 'car');
    } catch {
      process.stderr.write('\nSKIPPED: no file can be made undeletable here.\n\n');
      return skip();
    }
    try {
      for (const text of ['new', 'newer']) {
        expect(write({ 'a.txt': text })).toContainEqual(
          expect.stringMatching(/\.car\.before: .* could not be taken away: b\/b\.txt .*Remove that folder/),
        );
        expect(read('a.txt')).toBe(text);
      }
      expect(readdirSync(parent).sort()).toEqual(['.car.before', 'car']);
    } finally {
      hardened('-i', '.car.before');
    }
    expect(write({ 'a.txt': 'newest' })).toEqual([]);
    expect(readdirSync(parent)).toEqual(['car']);
  });
});
