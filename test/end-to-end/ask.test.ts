import { existsSync, mkdtempSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { openCase } from '@tubgap/casefile/node';
import { readResults } from '@tubgap/results';
import { INCH, MPH, POUND } from '@tubgap/units';
import { expect, test } from 'vitest';
import { tubgap } from './command.ts';
import { atTerminal } from './terminal.ts';

const fresh = () => mkdtempSync(join(tmpdir(), 'tubgap-ask-'));
const TOLD = [
  ...['--tyre', '33.5 x 17.0 – 16', '--rollout', '105-7/8"', '--build', 'bias slick', '--speed', '224 mph'],
  ...['--distance', 'quarter', '--mass', '2,480 lb', '--wing', 'tall', '--axle-height', '16 5/16 in'],
];
/** The case is written, and nothing is worked out. */
const ALONE = '--no-answer';
const CASE_FILES = ['case.yaml', 'tubs.csv', 'tyres.csv'];

const caseIn = (folder: string) => {
  const read = openCase(join(folder, 'case.yaml'));
  if (!read.ok) throw new Error(read.lines.join('\n'));
  return read.source;
};
const bytes = (folder: string) => CASE_FILES.map((name) => readFileSync(join(folder, name), 'utf8'));

test('options alone make a case that reads back as it was told, and what is assumed is named', () => {
  const here = fresh();
  const done = tubgap(here, 'ask', ...TOLD, '--title', 'Blue Heron', ALONE);
  expect(done.err).toBe('');
  expect(done.code).toBe(0);
  expect(readdirSync(join(here, 'blue-heron')).sort()).toEqual(CASE_FILES);
  const source = caseIn(join(here, 'blue-heron'));
  expect(source.name).toBe('blue-heron');
  expect(source.car.mass.law).toMatchObject({ mean: 2480 * POUND });
  expect(source.build.axleHeight).toBeCloseTo(16.3125 * INCH, 9);
  const { law } = source.tyres[0]!.inputs.referenceRadius;
  expect(law).toMatchObject({ kind: 'normal' });
  expect((law as { mean: number }).mean).toBeCloseTo((105.875 / (2 * Math.PI)) * INCH, 6);
  expect(done.out).toMatch(/wheelbase: about 107\.5 in; --wheelbase/);
  expect(done.out).not.toMatch(/--(?:mass|rollout|axle-height)\b/);
  expect(done.out).toMatch(/Next +tubgap pick blue-heron\/case\.yaml/);
});

test('a second tyre is a second --tyre, with a speed of its own, and the tub in the car is told too', () => {
  const here = fresh();
  const second = ['--tyre', '275/60R15', '--build', 'treaded radial', '--speed', '165 mph'];
  const inTheCar = ['--existing-diameter', '44 1/2 in', '--existing-top-height', '39 1/4 in'];
  expect(tubgap(here, 'ask', 'both', ...TOLD, '--speed-is', 'line', ...second, ...inTheCar, ALONE).code).toBe(
    0,
  );
  const { tyres, car, existing } = caseIn(join(here, 'both'));
  expect(existing?.topHeight).toBeCloseTo(39.25 * INCH, 9);
  expect(existing?.tub.diameter).toBeCloseTo(44.5 * INCH, 9);
  expect(tyres.map(({ name, construction }) => [name, construction])).toEqual([
    ['33.5x17.0-16', 'bias'],
    ['275/60R15', 'radial'],
  ]);
  expect(car.trapSpeed.law).toMatchObject({ mean: 224 * MPH });
  expect(tyres[1]!.car?.trapSpeed?.law).toMatchObject({ mean: 165 * MPH });
});

test('without a terminal what is missing or wrong is named by its option, and nothing is written', () => {
  const here = fresh();
  const missing = tubgap(here, 'ask', '--tyre', '28x10.5');
  expect([missing.code, missing.out]).toEqual([2, '']);
  expect(missing.err).toMatch(/Missing, and there is no one to ask: --build, --speed\./);
  const wrong = tubgap(here, 'ask', '--tyre', '315/60', '--build', 'bias slik', '--speed', '224');
  expect(wrong.code).toBe(2);
  expect(wrong.err).toMatch(
    /^--tyre: the rim's diameter is missing.*\n--build: .*bias slick\?\n--speed: the unit is missing/,
  );
  const tubs = join(here, 'list.csv');
  writeFileSync(tubs, 'tub,inside_diameter_in,inside_width_in\nbig,4O,18\n');
  const faulty = tubgap(here, 'ask', ...TOLD, '--tubs', tubs);
  expect(faulty.code).toBe(2);
  expect(faulty.err).toMatch(/list\.csv:2:5 {2}inside_diameter_in: read "4O"/);
  expect(readdirSync(here)).toEqual(['list.csv']);
});

test('a case that is there stays, until it is to be replaced', () => {
  const here = fresh();
  expect(tubgap(here, 'ask', 'car', ...TOLD, ALONE).code).toBe(0);
  const before = bytes(join(here, 'car'));
  const again = [...TOLD, '--wheelbase', '120 in', ALONE];
  const refused = tubgap(here, 'ask', 'car', ...again);
  expect(refused.code).toBe(2);
  expect(refused.err).toMatch(/car has case\.yaml, tyres\.csv, tubs\.csv already/);
  expect(bytes(join(here, 'car'))).toEqual(before);
  expect(tubgap(here, 'ask', 'car', ...again, '--replace').code).toBe(0);
  expect(caseIn(join(here, 'car')).car.wheelbase.law).toMatchObject({ value: 120 * INCH });
});

test('--pick tells the tub to build at once, of the shop’s own list', () => {
  const here = fresh();
  const tubs = join(here, 'list.csv');
  writeFileSync(tubs, 'tub,inside_diameter_in,inside_width_in,price\nours-44,44,20,310\nours-46,46,20,330\n');
  const done = tubgap(here, 'ask', 'car', ...TOLD, '--tubs', tubs, '--run-risk', '1 in 100', '--pick', ALONE);
  expect(done.code, done.err).toBe(0);
  expect(done.out.indexOf('Written to car')).toBeLessThan(done.out.indexOf('BUILD'));
  const { picks } = readResults(join(here, 'results', 'from-a-call'));
  expect(picks.map(({ tub }) => tub)).toEqual(['ours-44', 'ours-46']);
});

test('a first answer, what each missing answer costs, and the one to ask for next, in the units that were told', () => {
  const metric = [
    '--tyre',
    '28x10.5-15',
    '--build',
    'bias slick',
    '--speed',
    '310 km/h',
    '--mass',
    '1250 kg',
  ];
  const done = tubgap(fresh(), 'ask', 'car', ...metric, '--rollout', '2240 mm');
  expect(done.code, done.err).toBe(0);
  expect(done.out).toMatch(/Answer +tub-\d+, [\d,]+ mm inside; top (?:set out at|at least) [\d,]+ mm/);
  expect(done.out).toMatch(
    /Travel to the stop: [^;]* if ordinary, [^;]* if low, [^;]* if high;\s+--bump-travel/,
  );
  expect(done.out).toMatch(/Sort of car: [^;]* if it is another; --kind/);
  expect(done.out).toMatch(
    /Ask next +[^;]*\? The answer could\s+move\s+the\s+height\s+by\s[^;]*mm[^;]*;\s+--/,
  );
  expect(done.out).not.toMatch(/(?:Rollout|Weight with driver):/);
});

test('answers at a terminal give what options give; a slip is told and asked again; Enter is "don’t know"', async () => {
  const here = fresh();
  tubgap(here, 'ask', 'by-options', ...TOLD, '--title', 'Blue Heron', ALONE);
  let slips = 0;
  const keys: Readonly<Record<string, string>> = {
    'What is printed on the rear tyre?': '33.5 x 17.0 – 16\r',
    'How fast is it at the finish?': '224\r',
    'Over which distance?': 'quarter\r',
    'What does a tape show round the tyre, at its pressure?': '105-7/8"\r',
    'Is there a wing at the back?': '\x1b[A\r',
    'How high is the middle of the axle above the track?': '16 5/16 in\r',
    'Whose car is it?': 'Blue Heron\r',
  };
  const { code, shown } = await atTerminal(here, ['ask', ALONE], (question, refused) => {
    if (refused) slips++;
    if (question.startsWith('What does it weigh')) return refused ? '\x152,480 lb\r' : '2,480 psi\r';
    return keys[Object.keys(keys).find((words) => question.startsWith(words)) ?? ''] ?? '\r';
  });
  expect(code, shown).toBe(0);
  expect(slips).toBe(1);
  expect(bytes(join(here, 'blue-heron'))).toEqual(bytes(join(here, 'by-options')));
  expect(shown).toMatch(
    /33\.5 in across, 17 in wide \(tread or section\?\), 16 in rim; may stand 33\.0 to 34\.3 in/,
  );
  expect(shown).toMatch(/224 mph on the slip, the mean of the last 66 ft/);
});

test('Ctrl-C ends with 130 and leaves nothing', async () => {
  const here = fresh();
  const { code, shown } = await atTerminal(here, ['ask', 'car'], (question) =>
    question.startsWith('How fast') ? '\x03' : '28x10.5\r',
  );
  expect(shown).toMatch(/Stopped\. Nothing was written\./);
  expect(code).toBe(130);
  expect(existsSync(join(here, 'car'))).toBe(false);
});
