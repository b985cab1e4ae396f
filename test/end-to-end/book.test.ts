import { execFileSync, spawn } from 'node:child_process';
import {
  appendFileSync,
  copyFileSync,
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { lockSoon } from '@tubgap/results';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readTable } from '../written-table.ts';
import { DEMO, type Finished, FRONT_DOOR, tubgap } from './command.ts';
import { holdDescribed } from './described.ts';

const SHOP = join(DEMO, '../invented-shop');
let folder: string;
const at = (...parts: string[]): string => join(folder, ...parts);
const book = (...words: string[]): Finished => tubgap(folder, 'book', ...words);
const history = (car: string): string => readFileSync(at('shop/cars', car, 'history.csv'), 'utf8');

/** Starts a command and waits for nothing. */
const started = (...words: string[]) =>
  spawn(process.execPath, [FRONT_DOOR, ...words], { cwd: folder, stdio: 'ignore' });
const ended = (child: ReturnType<typeof started>): Promise<number | null> =>
  new Promise((resolve) => child.once('exit', resolve));

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'tubgap-book-'));
  cpSync(DEMO, at('demo'), { recursive: true });
  cpSync(join(DEMO, '../demo-measurements'), at('measured'), { recursive: true });
});

afterAll(async () => {
  await holdDescribed(folder);
  rmSync(folder, { recursive: true, force: true });
});

describe("a shop's book", () => {
  it('is begun, takes cars and entries, and says what is due', () => {
    expect(book('new', 'shop', '--name', 'back-street', '--invented', '--tape', '25 ft').code).toBe(0);
    expect(book('new', 'shop', '--name', 'back-street').err).toMatch(/there is a book already/);
    const added = book('add', 'shop', 'demo/case.yaml', '--name', 'blue', '--measured', 'measured');
    expect(added).toMatchObject({
      code: 0,
      out: expect.stringMatching(/Added: blue; 1 of its rows.*\n.*kPa/),
    });
    expect(readdirSync(at('shop/cars/blue')).sort()).toEqual([
      'case.yaml',
      'measured',
      'tubs.csv',
      'tyres.csv',
    ]);
    expect(book('add', 'shop', 'demo/case.yaml', '--name', 'grey').code).toBe(0);
    expect(book('add', 'shop', 'demo/case.yaml', '--name', 'grey').err).toMatch(/in the book already/);
    const enter = (...words: string[]): Finished => book('enter', 'shop', 'grey', ...words);
    expect(
      enter('--entry', 'tub', '--date', '2026-03-01', '--tub', 'street-42', '--top', '38 1/2 in').code,
    ).toBe(0);
    const runs = ['--entry', 'runs', '--date', '2026-05-02', '--tyre', 'tall-slick', '--runs', '48'];
    expect(enter(...runs, '--speed', '220 mph to 226 mph', '--mark', 'none').code).toBe(0);
    expect(enter(...runs).err).toMatch(/--mark: say mark or none/);
    expect(enter(...runs.with(5, 'tall-slik'), '--mark', 'none').err).toMatch(/runs no tyre "tall-slik"/);
    expect(enter(...runs, '--top', '38.5', '--mark', 'none').err).toMatch(/name the unit/);
    expect(
      enter(...runs.with(3, '2026-05-09').with(7, '2'), '--mark', 'mark', '--note', '=1, left').code,
    ).toBe(0);
    expect(history('grey').split('\n').slice(1)).toEqual([
      '2026-03-01,tub,,,street-42,38.5,,,,,,,,',
      '2026-05-02,runs,tall-slick,,,,,48,220,226,none,,,',
      `2026-05-09,runs,tall-slick,,,,,2,,,mark,,,"'=1, left"`,
      '',
    ]);
    const { out, code } = book('list', 'shop');
    expect(code).toBe(0);
    expect(out).toMatch(/BOOK\s+back-street: 2 cars \[an invented shop\]/);
    expect(out).toMatch(/SEEN\s+\d+ readings, 48 runs without a mark, 2 marks/);
    expect(out).toMatch(/grey: runs of 2026-05-09 left a mark \(history\.csv:4\)/);
    expect(out).toMatch(/grey: no run log with tall-slick/);
  });

  it('loses nothing when many enter at once', async () => {
    const days = Array.from({ length: 6 }, (_, i) => `2026-06-0${i + 1}`);
    const codes = await Promise.all(
      days.map((day) =>
        ended(
          started(
            'book',
            'enter',
            'shop',
            'grey',
            '--entry',
            'runs',
            '--date',
            day,
            '--tyre',
            'tall-slick',
            '--runs',
            '3',
            '--mark',
            'none',
          ),
        ),
      ),
    );
    expect(codes).toEqual(days.map(() => 0));
    for (const day of days) expect(history('grey')).toContain(`${day},runs,tall-slick`);
    expect(history('grey').trim().split('\n')).toHaveLength(10);
  });

  it('waits for whoever writes in it', async () => {
    const words = '--entry runs --date 2026-06-20 --tyre tall-slick --runs 3 --mark none';
    const before = history('grey');
    const lock = await lockSoon(folder, 'shop', 30_000);
    const entering = ended(started('book', 'enter', 'shop', 'grey', ...words.split(' ')));
    // By the time that two commands have come to their end the third would have written long ago.
    for (let k = 0; k < 2; k++) expect(book('list', 'shop').code).toBe(0);
    expect(history('grey')).toBe(before);
    writeFileSync(at('shop/cars/grey/history.csv'), before.replace(/2026-06-06.*\n/, ''));
    lock.free();
    expect(await entering).toBe(0);
    expect(history('grey')).toContain('2026-06-20,runs,tall-slick');
    expect(history('grey')).not.toContain('2026-06-06');
  });

  it('has a car whole or not at all when it is killed while it writes one', async () => {
    const add = (name: string) =>
      ['book', 'add', 'shop', 'demo/case.yaml', '--name', name, '--measured', 'measured'] as const;
    expect(tubgap(folder, ...add('calm')).code).toBe(0);
    const whole = readdirSync(at('shop/cars/calm'), { recursive: true }).length;
    rmSync(at('shop/cars/calm'), { recursive: true });
    for (const [i, delay] of [250, 320, 390, 460, 530].entries()) {
      const child = started(...add(`cut-${i}`));
      setTimeout(() => child.kill('SIGKILL'), delay);
      await ended(child);
      const place = at('shop/cars', `cut-${i}`);
      if (existsSync(place)) expect(readdirSync(place, { recursive: true })).toHaveLength(whole);
      rmSync(place, { recursive: true, force: true });
    }
    mkdirSync(at('shop/cars/.left.1.writing'));
    expect(book('add', 'shop', 'demo/case.yaml', '--name', 'after').code).toBe(0);
    expect(readdirSync(at('shop/cars')).sort()).toEqual(['after', 'blue', 'grey']);
    rmSync(at('shop/cars/after'), { recursive: true });
  });

  it('names a damaged entry and a damaged car, and goes on without them', () => {
    appendFileSync(at('shop/cars/grey/history.csv'), '2026-07-32,runs,tall-slick,,,,,5,,,none,,,\n');
    cpSync(at('shop/cars/grey'), at('shop/cars/rust'), { recursive: true });
    writeFileSync(at('shop/cars/rust/case.yaml'), 'name: rust\n');
    const { out, code } = book('list', 'shop');
    expect(code).toBe(0);
    expect(out).toMatch(/BOOK\s+back-street: 2 cars, 1 more cannot be read/);
    expect(out).toMatch(/rust: cannot be read, left out: case\.yaml/);
    expect(out).toMatch(/grey: 1 row left out, first history\.csv:11: date "2026-07-32" is no\s+day/);
    expect(book('list', 'demo').err).toMatch(/there is no book\.yaml.*tubgap book new/);
  });

  it('is as it was where the disk is full', ({ skip }) => {
    const small = at('small');
    mkdirSync(small);
    try {
      execFileSync('mount', ['-t', 'tmpfs', '-o', 'size=80k', 'tmpfs', small], { stdio: 'ignore' });
    } catch {
      process.stderr.write('\nSKIPPED: the test of a full disk may not mount a small one here.\n\n');
      return skip();
    }
    try {
      expect(book('new', 'small/shop', '--name', 'small').code).toBe(0);
      const full = book('add', 'small/shop', 'demo/case.yaml', '--measured', 'measured');
      expect(full).toMatchObject({
        code: 1,
        err: expect.stringMatching(/ENOSPC.*as it was.*Free some space/),
      });
      expect(readdirSync(at('small/shop/cars'))).toEqual([]);
      expect(book('add', 'small/shop', 'demo/case.yaml').code).toBe(0);
    } finally {
      execFileSync('umount', [small], { stdio: 'ignore' });
    }
    return undefined;
  });
});

describe('tubgap book learn', () => {
  let learned: Finished;
  const results = 'results/invented-shop-book';
  const files = (place: string): Record<string, string> =>
    Object.fromEntries(
      (readdirSync(at(place), { recursive: true }) as string[])
        .filter((file) => file.includes('.'))
        .sort()
        .map((file) => [file, readFileSync(at(place, file), 'utf8')]),
    );

  beforeAll(() => {
    cpSync(SHOP, at('cheap'), { recursive: true });
    // Tapes and logs alone: runs take minutes, and are held to their laws elsewhere.
    for (const car of readdirSync(at('cheap/cars'))) {
      const place = at('cheap/cars', car, 'history.csv');
      const kept = readFileSync(place, 'utf8')
        .split('\n')
        .filter(
          (line) =>
            !line.startsWith('2') ||
            !line.includes(',runs,') ||
            (car === 'grey-door' && line.includes(',41,')),
        );
      writeFileSync(place, kept.join('\n'));
    }
    rmSync(at('cheap/cars/white-pickup'), { recursive: true });
    learned = book('learn', 'cheap', '--workers', '2');
  });

  it('says first what it rests on, how tyres grow, and which car to look at', () => {
    expect(learned).toMatchObject({ code: 0, err: '' });
    const lead = learned.out.split('\n\n')[0]!;
    expect(lead).toMatch(/^\s+BOOK\s+4 cars, 41 runs without a mark, 0 marks: priors of 2 tyre models/);
    expect(lead).toMatch(/GROWTH\s+other-slick at \d+ mph grows \d\.\d\d in/);
    expect(lead).toMatch(/LOOK AT/);
    expect(learned.out).toMatch(/invented shop/);
    expect(learned.out).toMatch(/can kill/);
  });

  it('writes what its guide names, the same whatever the threads and the order of the lines', async () => {
    const before = files(results);
    const guide = before['READ-ME.txt']!;
    for (const file of Object.keys(before)) {
      const name = file.startsWith('learned/') ? 'learned/' : file;
      expect(guide).toContain(name === 'READ-ME.txt' ? 'written.json' : name);
    }
    expect(before['shop-priors.yaml']).toMatch(/date: 2025-07-05/);
    const forecasts = await readTable(at(results, 'forecasts.csv'));
    expect(forecasts).toHaveLength(1);
    cpSync(at('cheap'), at('turned'), { recursive: true });
    const place = at('turned/cars/grey-door/history.csv');
    const [head, ...lines] = readFileSync(place, 'utf8').trim().split('\n');
    writeFileSync(place, [head, ...lines.reverse(), ''].join('\n'));
    // The same book, its lines turned round, by one thread.
    expect(book('learn', 'turned', '--workers', '1', '--results', 'again').code).toBe(0);
    const after = files('again/invented-shop-book');
    const plain = (text: string): string =>
      text.replace(/history\.csv:\d+/g, 'history.csv').replace(/sha256: \w+|digest: \w+/g, '');
    expect(Object.keys(after)).toEqual(Object.keys(before));
    for (const [file, text] of Object.entries(before)) {
      if (file === 'written.json' || file === 'forecasts.csv') continue;
      expect(plain(after[file]!), file).toBe(plain(text));
    }
  });

  it('gives a new car its priors, and every paper says so; the same case without them says nothing of a book', () => {
    mkdirSync(at('new'));
    for (const file of ['tubs.csv', 'tyres.csv']) copyFileSync(at('cheap', file), at('new', file));
    copyFileSync(at(results, 'shop-priors.yaml'), at('new/shop-priors.yaml'));
    const text = readFileSync(at('cheap/cars/blue-door/case.yaml'), 'utf8').replace(
      'name: blue-door',
      'name: next-car',
    );
    writeFileSync(at('new/without.yaml'), text);
    writeFileSync(at('new/with.yaml'), `${text}book: shop-priors.yaml\n`);
    const small = ['--draws', '16384', '--cars', '128'];
    const having = tubgap(folder, 'pick', 'new/with.yaml', ...small, '--results', 'having');
    const lacking = tubgap(folder, 'pick', 'new/without.yaml', ...small, '--results', 'lacking');
    expect([having.err, lacking.err]).toEqual(['', '']);
    const words = /shop-priors\.yaml of the book invented-shop, up to 2025-07-05: 4 cars/;
    expect(having.out).toMatch(/Shop's book\s+shop-priors\.yaml of the book invented-shop/);
    for (const paper of ['READ-ME.txt', 'report.html', 'at-the-car.html']) {
      const own = readFileSync(at('having/next-car', paper), 'utf8').replace(/[\s\u00a0]+/g, ' ');
      expect(own, paper).toMatch(words);
      expect(readFileSync(at('lacking/next-car', paper), 'utf8'), paper).not.toMatch(
        /the book invented-shop/,
      );
    }
    expect(readFileSync(at('having/next-car/READ-ME.txt'), 'utf8')).toMatch(
      /shop-slick, growth scale: from the shop's book: .*\(shop-priors\.yaml, from the shop's book: 4 cars/,
    );
    // A car that starts from the book teaches through the book alone.
    const refused = tubgap(folder, 'learn', 'new/with.yaml', '--measured', 'cheap/cars/blue-door/measured');
    expect(refused).toMatchObject({
      code: 2,
      err: expect.stringMatching(/tubgap book add.*tubgap book learn/),
    });
  });

  it("gives a car of the book a learned file of its own, which its case takes, and not the book's beside it", () => {
    const place = at('cheap/cars/blue-door');
    copyFileSync(at(results, 'learned/blue-door.yaml'), join(place, 'learned.yaml'));
    for (const file of ['tubs.csv', 'tyres.csv']) copyFileSync(at('cheap', file), join(place, file));
    appendFileSync(join(place, 'case.yaml'), 'learned: learned.yaml\n');
    const picked = tubgap(
      folder,
      'pick',
      'cheap/cars/blue-door/case.yaml',
      '--draws',
      '16384',
      '--cars',
      '128',
    );
    expect(picked).toMatchObject({ code: 0, err: '' });
    appendFileSync(join(place, 'case.yaml'), 'book: shop-priors.yaml\n');
    expect(tubgap(folder, 'pick', 'cheap/cars/blue-door/case.yaml').err).toMatch(/not from both/);
    // In the book it is still the car as it was measured.
    expect(book('list', 'cheap').out).toMatch(/blue-door\s+shop-slick\s+\d/);
  });
});
