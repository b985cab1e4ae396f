import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, rmSync, truncateSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { type Finished, FRONT_DOOR, tubgap } from './command.ts';
import { demoFolder, filesBelow, startApp, until } from './small-sweep.ts';

let folder: string;
let demo: string;
beforeAll(() => {
  folder = demoFolder('hostile');
  demo = readFileSync(join(folder, 'demo', 'case.yaml'), 'utf8');
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const write = (text: string | Buffer): void => writeFileSync(join(folder, 'demo', 'case.yaml'), text);
const pick = (...words: string[]): Finished =>
  tubgap(folder, 'pick', 'demo/case.yaml', '--draws', '1024', '--cars', '64', ...words);
const state = (...words: string[]): Finished => tubgap(folder, 'state', 'demo/case.yaml', ...words);

it('a name with a script, a formula or a quote in it runs nowhere: not in pages, drawings or tables', () => {
  const title = `=HYPERLINK("http://x.invalid","y")</title><script>alert(1)</script><img src=x onerror=alert(2)>'"`;
  write(demo.replace(/^title: .*/m, `title: ${JSON.stringify(title)}`));
  const done = pick('--results', 'names');
  expect([0, 3]).toContain(done.code);
  const files = Object.entries(filesBelow(join(folder, 'names')));
  const pages = files.filter(([name]) => /\.(html|svg)$/.test(name));
  expect(pages.length).toBeGreaterThan(2);
  for (const [name, text] of pages) {
    expect(text, name).not.toContain('<script>alert(1)');
    expect(text, name).not.toMatch(/<img src=x/);
  }
  expect(pages.some(([, text]) => text.includes('&lt;script&gt;alert(1)'))).toBe(true);
  const tables = files.filter(([name]) => name.endsWith('.csv'));
  expect(tables.length).toBeGreaterThan(2);
  for (const [name, text] of tables) {
    if (name.includes('case/')) continue;
    // A cell that begins so is run by a spreadsheet, whether in quotes or not; a number may begin with a minus.
    expect(text, name).not.toMatch(/(^|,|\n)"?(=|@|\+[^\d.]|-[^\d.,"\n])/);
  }
});

it('no name leads out of the folder', () => {
  for (const [line, bad] of [
    [/^name: .*/m, 'name: ../../escaped'],
    [/^name: .*/m, 'name: "/tmp/escaped"'],
    [/tubs: tubs.csv/, 'tubs: ../../../etc/passwd'],
    [/tubs: tubs.csv/, 'tubs: /etc/passwd'],
  ] as const) {
    write(demo.replace(line, bad));
    const done = pick('--results', 'out');
    expect(done.code, bad).toBe(2);
    expect(done.err, bad).toMatch(/case\.yaml:\d+:\d+ /);
    expect(done.err + done.out).not.toContain('root:');
  }
});

it('texts that are no case end in a sentence with a place, soon and without a stack', () => {
  const bombs: [string, string | Buffer][] = [
    [
      'aliases',
      `a: &a [x,x,x,x,x,x,x,x,x]\n${[...'bcdefghij'].map((one, i) => `${one}: &${one} [${`*${'abcdefghij'[i]},`.repeat(9)}]`).join('\n')}\n`,
    ],
    ['a line of two megabytes', `name: ${'x'.repeat(2_000_000)}\n`],
    ['zero bytes', Buffer.concat([Buffer.from(demo.slice(0, 500)), Buffer.alloc(2000)])],
    ['UTF-16', Buffer.from(demo, 'utf16le')],
    ['nothing', ''],
    ['a picture', Buffer.from('89504e470d0a1a0a0000000d49484452', 'hex')],
    ['a prototype', `${demo}\n__proto__: { polluted: 1 }\n`],
  ];
  for (const [name, text] of bombs) {
    write(text);
    const done = state();
    expect(done.code, name).toBe(2);
    expect(done.err, name).toMatch(/case\.yaml(:\d+:\d+)? .*\w/);
    expect(done.err, name).not.toMatch(/\bat .*\.js:\d/);
    expect(done.err.length, name).toBeLessThan(20_000);
  }
});

it('marks and line ends of other systems are read as the same case', () => {
  write(demo);
  const plain = state();
  expect(plain.code).toBe(0);
  write(`\ufeff${demo.replaceAll('\n', '\r\n')}`);
  expect(state()).toEqual(plain);
});

it('a folder of measurements that cannot be read ends in lines with places, whatever is in it', () => {
  write(demo);
  const measured = join(folder, 'measured');
  mkdirSync(join(measured, 'check-sheet.csv'), { recursive: true });
  const put = (name: string, text: string | Buffer): void => writeFileSync(join(measured, name), text);
  put('rollout.csv', `tyre,pressure_psi,rollout_in\ntall-slick,NaN,1e400\n"tall-slick,6,106\n`);
  put('travel.csv', Buffer.from('89504e470d0a1a0a0000000d49484452', 'hex'));
  put('tyre-mass.csv', Buffer.from('\ufefftyre,mass_lb\nother,54\n', 'utf16le'));
  put('loaded-radius.csv', ','.repeat(300_000));
  put('marks.csv', '');
  put('as-built.csv', Buffer.from('tub,top_height_in\nstra\xdfe-42,39\n', 'latin1'));
  put('run-log-1.csv', `Time [s]\n${'0,'.repeat(500_000)}\n`);
  put('run-log-2.csv', Buffer.from('Time [s],Speed\n', 'utf16le'));
  put('run-log-3.csv', '');
  truncateSync(join(measured, 'run-log-3.csv'), 3_000_000_000);
  const done = tubgap(folder, 'learn', 'demo/case.yaml', '--measured', 'measured', '--results', 'learned');
  expect(done.code).toBe(2);
  const said = (done.out + done.err).replace(/\s+/g, ' ');
  expect(said).not.toMatch(/\bat .*\.js:\d|undefined|NaN[^"]/);
  for (const told of [
    /rollout\.csv:2:12 left out: pressure_psi: "NaN" is no number/,
    /rollout\.csv:3:1 left out: this quote is never closed/,
    /travel\.csv left out: line \d holds a zero byte/,
    /tyre-mass\.csv:2 left out: the case runs no tyre "other"; it has tall-slick, class-radial/,
    /loaded-radius\.csv left out: the first line names 300001 columns; at most 200 are read/,
    /check-sheet\.csv left out: it is no file/,
    /marks\.csv left out: the file is empty; its first line names the columns: tyre, mark/,
    /as-built\.csv:2 left out: the case has no tub "straße-42"; it has street-42/,
    /run-log-1\.csv left out: line 2 has 500001 columns; at most 2000 are read/,
    /run-log-2\.csv left out: line 1 holds a zero byte: .* Save it again as CSV in UTF-8/,
    /run-log-3\.csv left out: the file has 3000000000 bytes; at most 100000000 letters are read/,
    /there is nothing to learn from/,
  ]) {
    expect(said).toMatch(told);
  }
});

it('physical nonsense is refused with its place, the reason and what is valid, in the case and by --set', () => {
  write(demo);
  for (const [path, value, told] of [
    ['run.trapSpeed', '900 mph', /trapSpeed.* read "900 mph"; .* must be 30 mph to 350 mph/],
    ['suspension.bumpTravel', '-2 in', /bumpTravel.* read "-2 in"; .* must be 0 in to 10 in/],
    ['suspension.bumpTravel', 'NaN in', /bumpTravel.*NaN/],
    ['car.mass', 'Infinity lb', /mass.*Infinity/],
    ['car.mass', '1e400 lb', /mass.*1e400/],
  ] as const) {
    const done = state('--set', `${path}=${value}`);
    expect(done.code, value).toBe(2);
    expect(done.err, value).toMatch(told);
  }
  const tubs = join(folder, 'demo', 'tubs.csv');
  const sound = readFileSync(tubs, 'utf8');
  writeFileSync(tubs, sound.replace('street-42,42.5', 'street-42,30'));
  write(demo.replace(/bumpTravel: .*/, 'bumpTravel: -2 in').replace(/trapSpeed: .*/, 'trapSpeed: 900 mph'));
  const done = pick('--results', 'nonsense');
  writeFileSync(tubs, sound);
  expect(done.code).toBe(2);
  for (const told of [
    /case\.yaml:\d+:\d+ {2}suspension\.bumpTravel: read "-2 in"; .* must be 0 in to 10 in/,
    /case\.yaml:\d+:\d+ {2}run\.trapSpeed: read "900 mph"; .* must be 30 mph to 350 mph/,
    /case\.yaml:\d+:\d+ {2}tubs\[0\]: read "street-42"; .* 29\.88 in inside its liner, but tyre tall-slick standing still takes 34\.\d+ in with the reserve; more than that is needed/,
    /Nothing was run|nothing was run/,
  ]) {
    expect(done.err).toMatch(told);
  }
  expect(existsSync(join(folder, 'nonsense'))).toBe(false);
});

it('a thousand million runs are refused with the limit and the time that they would take, tens of millions begin with it', async () => {
  write(demo);
  const many = ['--draws', '1000000000'];
  const endless = tubgap(folder, 'pick', 'demo/case.yaml', ...many, '--results', 'endless');
  const sweep = ['sweep', 'demo/case.yaml', '--vary', 'run.trapSpeed = 210 mph, 220 mph'];
  for (const [{ code, err }, most] of [
    [endless, '100,000,000 simulated runs are the most'],
    [
      tubgap(folder, ...sweep, ...many, '--results', 'endless'),
      '10,000,000 simulated runs of each setup are',
    ],
    [
      tubgap(folder, ...sweep, ...many, '--shards', '2', '--results', 'endless'),
      '10,000,000 simulated runs of',
    ],
  ] as const) {
    expect(err).toContain(most);
    expect(err).toMatch(
      /1,000,000,000 would take about \d+ (minutes|hours?|days) on .* cores? like .* about \d+ (seconds|minutes?)/,
    );
    expect(err).toMatch(/The risk that this case accepts asks for some [\d,]+\.\nNothing was run\.\n$/);
    expect(code).toBe(2);
  }
  write(demo.replace(/^simulation:/m, 'simulation:\n  # many\n').replace(/draws: .*/, 'draws: 1000000000'));
  expect(state().err).toMatch(/simulated runs must be 1000 to 100000000; the most take about an hour/);
  write(demo);
  const large = startApp(folder, ['pick', 'demo/case.yaml', '--draws', '50000000', '--results', 'endless']);
  await until('the estimate', () => large.said().includes('\n'));
  large.child.kill('SIGTERM');
  expect((await large.end).err).toMatch(
    /^Up to 50,000,000 simulated runs and [\d,]+ cars, 2 tyres in 1 tub: at most about \d+ (minutes?|hours?) on /,
  );
});

it('fifty tubs and twenty tyres are begun with the time and the memory that they take', async () => {
  const tubs = readFileSync(join(folder, 'demo', 'tubs.csv'), 'utf8');
  const tyres = readFileSync(join(folder, 'demo', 'tyres.csv'), 'utf8');
  const row = (text: string, name: string): string => text.split('\n').find((line) => line.startsWith(name))!;
  const copies = (text: string, name: string, count: number): string =>
    `${text.trimEnd()}\n${Array.from({ length: count }, (_, k) => row(text, name).replace(name, `copy-${k}`)).join('\n')}\n`;
  writeFileSync(join(folder, 'demo', 'tubs.csv'), copies(tubs, 'street-42', 50));
  writeFileSync(join(folder, 'demo', 'tyres.csv'), copies(tyres, 'tall-slick', 18));
  const names = Array.from({ length: 49 }, (_, k) => `copy-${k}`).join(', ');
  const more = Array.from({ length: 18 }, (_, k) => `  - { tyre: copy-${k}, runsPerSeason: 10 }\n`).join('');
  write(
    demo
      .replace('tubs: [street-42]', `tubs: [street-42, ${names}]`)
      .replace(/^tyres:\n/m, (head) => head + more),
  );
  const large = startApp(folder, ['pick', 'demo/case.yaml', '--results', 'large']);
  await until('the estimate', () => large.said().includes('\n'));
  large.child.kill('SIGTERM');
  expect((await large.end).err).toMatch(
    /^Up to [\d,]+ simulated runs and [\d,]+ cars, 20 tyres in 50 tubs: at most about .*, and about 2\.8 GB of memory;/,
  );
  writeFileSync(join(folder, 'demo', 'tubs.csv'), tubs);
  writeFileSync(join(folder, 'demo', 'tyres.csv'), tyres);
});

it('a height that is none gives no number', () => {
  write(demo);
  for (const height of ['39 1/0 in', '1e24', '0', '39.5 1/4', '99999999']) {
    for (const verb of [['state'], ['plan', '--tub', 'street-42']]) {
      const done = tubgap(folder, verb[0]!, 'demo/case.yaml', ...verb.slice(1), '--height', height);
      expect(done.code, `${verb[0]} ${height}`).toBe(2);
      expect(done.out).toBe('');
      expect(done.err).toContain(`read "${height}"`);
    }
  }
});

it.skipIf(process.platform !== 'linux')(
  'output that is full or that nobody reads ends in words, not in a stack',
  () => {
    write(demo);
    const command = `"${process.execPath}" "${FRONT_DOOR}" state demo/case.yaml`;
    const shell = (line: string) => spawnSync('bash', ['-c', line], { cwd: folder, encoding: 'utf8' });
    const full = shell(`${command} > /dev/full`);
    expect(full.status).toBe(1);
    expect(full.stderr).toBe(
      'What is printed here could not be written (ENOSPC). Free some space, and run again.\n',
    );
    const gone = shell(`set -o pipefail; ${command} | head -c 1`);
    expect(gone.stderr).toBe('');
    expect(gone.status).toBe(0);
  },
);
