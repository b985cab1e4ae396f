import { type Case, issueText, parseCase } from '@tubgap/casefile';
import { FOOT, INCH, MPH, POUND, PSI, STANDARD_GRAVITY } from '@tubgap/units';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { parse, stringify } from 'yaml';
import {
  type Answers,
  carPriors,
  commentedCase,
  doubtText,
  type InterviewedCase,
  KINDS_OF_CAR,
  QUESTIONS,
  readAnswers,
  TYRE_BUILDS,
  toCase,
  type WrittenAnswers,
} from '../src/index.ts';
import { CALLERS } from './callers.ts';

const TUBS = `tub,inside_diameter_in,liner_in,arc_extent_deg,leg_length_in,inside_width_in,skin_thickness_in,areal_density_lb_ft2
small,40,0.06,180,6,18,0.04,0.56
large,52,0.06,180,7,22,0.04,0.56
`;

function answers(raw: WrittenAnswers): Answers {
  const read = readAnswers(raw);
  if (read.ok) return read.value;
  throw new Error(read.faults.map(({ path, problem }) => `${path.join('.')}: ${problem.reason}`).join('\n'));
}

function readBack({ tyres }: InterviewedCase, text: string): Case {
  const files: Record<string, string> = { 'tubs.csv': TUBS, 'tyres.csv': tyres };
  const result = parseCase({ file: 'case.yaml', text, load: (path) => files[path] });
  if (!result.ok) throw new Error(`${text}\n${result.issues.map(issueText).join('\n')}`);
  expect(result.warnings.map(issueText).filter((line) => !line.includes('left out'))).toEqual([]);
  return result.value;
}

/** Every field, answered. */
const ALL = {
  tyres: [
    {
      size: '33.5x17.0-16',
      rollout: '3000 mm',
      widthIs: 'section',
      build: 'bias slick',
      rimWidth: '15 in',
      pressure: '6 psi',
      runsPerSeason: 30,
      speed: null,
      sixtyFoot: '',
      elapsed: null,
    },
  ],
  kind: 'winged-door',
  title: 'Told: all of it',
  speed: '200 mph',
  speedIs: 'line',
  distance: '1/8',
  sixtyFoot: '1.0 s',
  elapsed: '4.0',
  mass: '1100 kg',
  wheelbase: '108"',
  rearShare: '52 %',
  downforce: { force: '1,150 lb', at: '220 mph' },
  wing: 'tall',
  parachutes: 'two',
  axleHeight: '16 in',
  bumpTravel: '1.9"',
  wheelRate: '190 lb/in',
  antiRollBar: 'no',
  runRisk: '1 in 1000',
  seasonRisk: '5 %',
  existing: { diameter: '44 1/2 in', topHeight: `3'3 1/4"`, centreForward: '1/4 in' },
} satisfies WrittenAnswers;

/** Fields that were answered, those of each tyre among them. */
const answered = (group: object): number =>
  Object.values(group).reduce(
    (sum, value) => sum + (typeof value === 'object' && value !== null ? answered(value) : 1),
    0,
  );

const names = Object.keys(CALLERS) as (keyof typeof CALLERS)[];

test.each(names)(
  'the case of the caller %s is read without a fault, from the plain form and the commented',
  (name) => {
    const call = CALLERS[name];
    expect(answered(call)).toBeLessThan(12);
    const its = answers(call);
    const made = toCase(its);
    const plain = readBack(made, stringify(made.document));
    const commented = readBack(made, commentedCase(its));
    const withoutLines = (the: Case) =>
      JSON.parse(JSON.stringify(the).replace(/case\.yaml:\d+|,"line":\d+/g, ''));
    expect(withoutLines(commented)).toEqual(withoutLines(plain));
    expect(made.kind).toEqual(
      name === 'knows nothing' ? { value: 'small-tyre', told: false } : { value: name, told: 'kind' in call },
    );
    // What is assumed and what was told together is all that the case has, each place once.
    const places = [...made.told, ...made.assumed].map(({ path }) => path);
    expect(new Set(places).size).toBe(places.length);
    for (const { reason, mark, path } of made.assumed) expect(reason && mark, path).toBeTruthy();
    // Whatever its reader has assumed is on the list too, or follows from what is.
    const listed = new Set(places);
    const follows = ['run.finishAcceleration', 'run.gripLost.toss', 'suspension.torqueRoll'];
    const inputs = [plain.car, ...plain.tyres.map((tyre) => tyre.inputs)].flatMap((group) =>
      Object.values(group),
    );
    for (const { path, source } of inputs) {
      if (source === 'assumed' && !follows.includes(path)) expect(listed.has(path), path).toBe(true);
    }
  },
);

test('every line of a commented case says whether it was told, or why it is assumed', () => {
  for (const name of names) {
    const lines = commentedCase(answers(CALLERS[name])).split('\n');
    const values = lines.filter(
      (line) => /^\s+(?:- )?\w+: \S/.test(line) && !/tubs:|tyres: tyres|tyre: \S+$/.test(line),
    );
    for (const line of values) expect(line).toMatch(/# (?:told|assumed: .+ \(.+\))/);
    expect(values.length).toBeGreaterThan(12);
  }
});

test('what was told stands in the case as it was told', () => {
  const made = toCase(answers(CALLERS['winged-door']));
  const the = readBack(made, stringify(made.document));
  expect(the.distance).toBeCloseTo(1320 * FOOT, 9);
  expect(the.build.axleHeight).toBeCloseTo(16.3125 * INCH, 9);
  expect(the.build.pressure).toBeCloseTo(6 * PSI, 6);
  expect(the.car.mass.law).toMatchObject({ kind: 'normal', mean: 2480 * POUND });
  const [tyre] = the.tyres;
  expect(tyre!.inputs.referenceRadius.law).toMatchObject({
    kind: 'normal',
    mean: expect.closeTo((105.875 * INCH) / (2 * Math.PI), 9),
  });
  // Kinematics by hand: a quarter's slip is 0.9915479 of the speed at the line.
  expect(the.car.trapSpeed.law).toMatchObject({ mean: expect.closeTo((224 / 0.9915479) * MPH, 1) });
  expect(made.doubts).toEqual([]);
});

test('a street car gets no launch of a drag car and no parachute', () => {
  const made = toCase(answers(CALLERS.street));
  const { car } = readBack(made, stringify(made.document));
  expect(car.chuteDeceleration.law).toEqual({ kind: 'constant', value: 0 });
  const launch = car.launchAcceleration.law;
  expect(launch.kind === 'triangular' && launch.high).toBeLessThan(1.8 * STANDARD_GRAVITY);
});

test('a class of another tyre has its own speed and launch', () => {
  const made = toCase(answers(CALLERS['runs-both']));
  const [first, second] = readBack(made, stringify(made.document)).tyres;
  expect(first!.car).toBeUndefined();
  expect(Object.keys(second!.car ?? {}).sort()).toEqual(['launchAcceleration', 'trapSpeed']);
  // A season of 120 runs at most, on both together.
  expect([first, second].map((tyre) => tyre!.runsPerSeason)).toEqual([60, 60]);
  expect([first, second].map((tyre) => tyre!.construction)).toEqual(['bias', 'radial']);
});

test('every row of every kind of car fills a place of the case, and none stands in for what was told', () => {
  for (const kind of KINDS_OF_CAR) {
    const made = toCase(
      answers({ tyres: [{ size: '34.5x17-16', build: 'bias slick' }], kind, speed: '200 mph' }),
    );
    const places = made.assumed.filter(({ written }) => written).map(({ path }) => path);
    for (const row of carPriors({ kind, speed: 200 * MPH })) expect(places, kind).toContain(row.path);
  }
  const made = toCase(answers(ALL));
  const the = readBack(made, stringify(made.document));
  const left = made.assumed.filter(({ written }) => written).map(({ path }) => path);
  expect(left).toEqual([
    'car.cgHeight',
    'aero.dragArea',
    'tyres[0].sectionWidth',
    'tyres[0].treadWidth',
    'tyres[0].mass',
    'tyres[0].stiffnessFactor',
    'simulation.draws',
    'simulation.cars',
  ]);
  expect(the.car.trapSpeed.law).toMatchObject({ mean: 200 * MPH });
  expect(the.accept).toEqual({ runRisk: 1e-3, seasonRisk: 0.05 });
  expect(made.existing?.topHeight.value).toBeCloseTo(39.25 * INCH, 9);
  expect(parse(stringify(made.document))).toEqual(made.document);
});

test('elapsed time and speed take the launch from the kind of car, a 60-foot time from both', () => {
  const launch = (more: object): { value: unknown; words: string } | undefined =>
    toCase(
      answers({
        tyres: [{ size: '28x10.5-15', build: 'radial slick' }],
        speed: '190 mph',
        speedIs: 'line',
        distance: 'eighth',
        ...more,
      }),
    ).told.find(({ path }) => path === 'run.launchAcceleration') as never;
  expect(launch({})).toBeUndefined();
  expect(JSON.stringify(launch({ elapsed: '4.35' }))).toMatch(
    /4\.35.* at 190 mph, so about \d\.\d\d g while grip limits/,
  );
  expect(JSON.stringify(launch({ elapsed: '4.35', sixtyFoot: '1.1' }))).toContain('60 ft in 1.1');
  expect(launch({ elapsed: '3.0' })).toBeUndefined();
});

test('what does not go together is said', () => {
  const made = toCase(
    answers({
      tyres: [{ size: '315/60R15', build: 'bias slick', rollout: '104 in' }],
      speed: '150 mph',
      distance: 'quarter',
      elapsed: 7.5,
    }),
  );
  expect(made.doubts.map(({ code }) => code)).toEqual(['slip', 'construction', 'rollout-outside-marking']);
  expect(made.doubts.map(doubtText)[0]).toContain('1125 s·mph');
});

test('an answer at fault is told by its place, its words and its range', () => {
  const faults = (raw: object) => {
    const read = readAnswers(raw);
    return read.ok ? [] : read.faults.map(({ path, problem }) => `${path.join('.')}: ${problem.code}`);
  };
  expect(faults({})).toEqual(['tyres: missing', 'speed: missing']);
  expect(faults({ tyres: [{ build: 'bias slick' }], speed: '224' })).toEqual([
    'tyres.0.size: missing',
    'speed: missing-unit',
  ]);
  const tyre = { size: '33x10.5-15', build: 'bias slick' };
  expect(faults({ tyres: [{ ...tyre, pressure: '30 psi' }], speed: '150 mph' })).toEqual([
    'tyres.0.pressure: out-of-range',
  ]);
  expect(
    faults({ tyres: [tyre], speed: '150 mph', sixtyFoot: '11.1', weight: '1 lb', axleHeight: '8-Jul' }),
  ).toEqual(['sixtyFoot: out-of-range', 'axleHeight: not-a-number', 'weight: unknown-key']);
});

/** Names of all answers: 'mass', 'tyres[].size', 'existing.topHeight'. */
const idsOf = (group: object, start = ''): string[] =>
  Object.entries(group).flatMap(([key, value]) => {
    const name = Array.isArray(group)
      ? '[]'
      : start === '' || start.endsWith('.')
        ? `${start}${key}`
        : `${start}.${key}`;
    const place = Array.isArray(group) ? `${start}${name}` : name;
    return typeof value === 'object' && value !== null ? idsOf(value, place) : [place];
  });

test('every answer has its question, and each example and choice can be read', () => {
  expect(QUESTIONS.map(({ id }) => id).sort()).toEqual(idsOf(ALL).sort());
  for (const { id, example, choices } of QUESTIONS) {
    for (const value of [example, ...(choices ?? []).map((choice) => choice.value)]) {
      if (value === undefined) continue;
      const raw = structuredClone(ALL) as unknown as Record<string, Record<string, unknown>>;
      const parts = id.replace('[]', '.0').split('.');
      const group = parts.slice(0, -1).reduce((at, part) => at[part] as typeof at, raw);
      (group as Record<string, unknown>)[parts.at(-1)!] = value;
      if (id === 'tyres[].build' && value !== 'bias slick')
        (raw.tyres as unknown as { pressure: string }[])[0]!.pressure = '14 psi';
      expect(readAnswers(raw), `${id}: ${value}`).toMatchObject({ ok: true });
    }
  }
});

const between = (least: number, most: number, unit: string) =>
  fc.integer({ min: 10 * least, max: 10 * most }).map((tenths) => `${tenths / 10} ${unit}`);
const size = fc.oneof(
  fc
    .tuple(
      fc.integer({ min: 41, max: 77 }),
      fc.integer({ min: 10, max: 14 }),
      fc.integer({ min: 15, max: 18 }),
    )
    .map(([width, aspect, rim]) => `${5 * width}/${5 * aspect}R${rim}`),
  fc
    .tuple(
      fc.integer({ min: 24, max: 37 }),
      fc.integer({ min: 7, max: 18 }),
      fc.constantFrom('-15', '-16', 'R15', ''),
    )
    .map(([diameter, width, rim]) => `${diameter}x${width}${rim}`),
  between(75, 116, 'in'),
);
const maybe = <T>(one: fc.Arbitrary<T>) => fc.option(one, { freq: 2 });
const calls = fc.record({
  tyres: fc.array(
    fc.record({
      size,
      build: fc.constantFrom(...TYRE_BUILDS),
      pressure: maybe(between(8, 15, 'psi')),
      sixtyFoot: maybe(between(0.8, 3, 's')),
      speed: maybe(between(60, 330, 'mph')),
    }),
    { minLength: 1, maxLength: 3 },
  ),
  speed: between(60, 340, 'mph'),
  kind: maybe(fc.constantFrom(...KINDS_OF_CAR)),
  distance: maybe(fc.constantFrom('eighth', 'thousand foot', 'quarter')),
  sixtyFoot: maybe(between(0.8, 3, 's')),
  mass: maybe(between(1500, 4500, 'lb')),
  wing: maybe(fc.constantFrom('none', 'lip', 'tall')),
  parachutes: maybe(fc.constantFrom('none', 'one', 'two')),
});

test('whatever a caller says within the ranges, the case is read without a fault', () => {
  fc.assert(
    fc.property(calls, (call) => {
      const made = toCase(answers(call));
      readBack(made, stringify(made.document));
    }),
    { numRuns: 60 },
  );
});
