import { centralValue, quantile } from '@tubgap/statistics';
import { describe, expect, it, test } from 'vitest';
import { parse } from 'yaml';
import { exactLawWords } from '../src/learned/law-words.ts';
import { withoutLearned } from '../src/learned/learned-case.ts';
import { LEARNED_VERSION, type LearnedFile, learnedText, readLearned } from '../src/learned/learned-file.ts';
import { textDigest } from '../src/learned/text-digest.ts';
import { lines, smallCase, sound } from './small-case.ts';

const CLASS = {
  run: { trapSpeed: '180 mph' },
  suspension: { wheelRate: { law: 'normal', mean: '250 lbf/in', sd: '10 lbf/in', each: 'car' } },
};

const written = () => ({
  ...smallCase(),
  suspension: { wheelRate: { law: 'log-normal', median: '200 lbf/in', cov: 0.1, each: 'car' } },
  tyres: [...smallCase().tyres, { tyre: 'radial', runsPerSeason: 5, class: CLASS }],
});
const bare = sound(written());
const slick = bare.tyres[0]!;

/** What was learned of the small case: its wheel rate, in both classes, and its slick's growth with it. */
function learned(): LearnedFile {
  return {
    format: 'tubgap learned',
    version: LEARNED_VERSION,
    caution: 'Tyre contact at speed can kill.',
    madeBy: 'a test',
    case: 'small',
    invented: true,
    seed: 1,
    evidence: [
      { file: 'rollout.csv', kind: 'rollout', sha256: 'ab', rows: 4, leftOut: 1, dates: ['2026-03-07'] },
    ],
    sampling: { method: 'none', chains: 4, draws: 10, worstRHat: 1, leastEffectiveDraws: 40, widened: 1 },
    tyres: [
      {
        name: 'slick',
        construction: 'bias',
        condition: 'run-in',
        referencePressure: '7 psi',
        deflection: '0.9 in',
        deflectionLoad: '1300 lbf',
      },
    ],
    inputs: [
      {
        input: 'wheelRate',
        label: 'wheel rate, per side',
        startedFrom: [
          { law: exactLawWords(bare.car.wheelRate.law) },
          { class: 'radial', law: exactLawWords(bare.tyres[1]!.car!.wheelRate!.law) },
        ],
        before: '200 lbf/in',
        after: '210 lbf/in',
        middle: 0.5,
        spreadBelow: 0.4,
        spreadAbove: 0.6,
        together: [1],
      },
      {
        tyre: 'slick',
        input: 'growthScale',
        label: 'growth scale',
        startedFrom: [{ law: exactLawWords(slick.inputs.growthScale.law) }],
        before: '0.036',
        after: '0.04',
        middle: 0.4,
        spreadBelow: 0.3,
        spreadAbove: 0.3,
        together: [0.6, 0.8],
      },
    ],
  };
}

const named = (file = 'learned.yaml') => ({ ...written(), learned: file });
const texts = (file: LearnedFile) => ({ 'learned.yaml': learnedText(file) });

describe('a case that names a learned file', () => {
  const the = sound(named(), texts(learned()));

  it('has the learned laws in place of the priors, in every class, and says where they come from', () => {
    const { law, basis, source, shown } = the.tyres[0]!.inputs.growthScale;
    expect(law).toMatchObject({ kind: 'updated', middle: 0.4, from: slick.inputs.growthScale.law });
    expect({ basis, source, shown }).toEqual({
      basis: 'learned.yaml, learned from rollout.csv',
      source: 'case',
      shown: 'learned: 0.04, one value per car',
    });
    expect(the.car.wheelRate.law).toMatchObject({ kind: 'updated', from: { kind: 'log-normal' } });
    expect(the.tyres[1]!.car!.wheelRate!.law).toMatchObject({ kind: 'updated', from: { kind: 'normal' } });
    expect(centralValue(the.car.wheelRate.law)).toBeCloseTo(
      quantile(bare.car.wheelRate.law, 0.691462461274013),
      6,
    );
    expect(the.learned).toEqual({ file: 'learned.yaml', from: ['rollout.csv'] });
  });

  it('may hold what was learned itself, and is the same case then but for the name', () => {
    const own = sound({ ...written(), learned: parse(learnedText(learned())) });
    const { growthScale } = own.tyres[0]!.inputs;
    expect(growthScale).toEqual({
      ...the.tyres[0]!.inputs.growthScale,
      basis: `${own.file}, learned from rollout.csv`,
    });
    expect(own.car.wheelRate.law).toEqual(the.car.wheelRate.law);
    expect(own.learned).toEqual({ file: own.file, from: ['rollout.csv'] });
    const edited = { ...learned(), seed: 'none' };
    expect(lines({ ...written(), learned: edited }).join()).toMatch(/learned: .*seed: .*changed by hand/);
    expect(lines({ ...written(), learned: { name: 'x' } }).join()).toMatch(/no learned file/);
    expect(lines({ ...written(), learned: 5 }).join()).toMatch(/learned: .*expected text/);
  });

  it('joins what was learned together, and leaves the rest alone', () => {
    expect(the.tyres[0]!.inputs.growthScale.follows).toEqual([
      { input: 'wheelRate', share: 0.6 },
      { tyre: 'slick', input: 'growthScale', share: 0.8 },
    ]);
    expect(the.car.wheelRate.follows).toBeUndefined();
    expect(the.car.mass).toEqual(bare.car.mass);
    expect(the.tyres[1]!.inputs).toEqual(bare.tyres[1]!.inputs);
  });

  it('is the bare case again without it', () => {
    const again = withoutLearned(the);
    expect(again.tyres[0]!.inputs.growthScale.law).toEqual(slick.inputs.growthScale.law);
    expect(again.tyres[0]!.inputs.growthScale.follows).toBeUndefined();
    expect(again.tyres[1]!.car!.wheelRate!.law).toEqual(bare.tyres[1]!.car!.wheelRate!.law);
    expect(again.learned).toBeUndefined();
  });
});

describe('a learned file is refused', () => {
  const refused = (change: (file: LearnedFile) => LearnedFile, own: object = named()) =>
    lines(own, texts(change(learned()))).join('\n');

  it('when it is not there, not sound or of another layout', () => {
    expect(lines(named()).join()).toMatch(/learned: .*no such file.*tubgap learn/);
    expect(lines(named('../learned.yaml')).join()).toMatch(/must lie in the case file's folder/);
    expect(lines(named(), { 'learned.yaml': 'a: [' }).join()).toMatch(/not sound YAML/);
    expect(lines(named(), { 'learned.yaml': 'name: x' }).join()).toMatch(/no learned file/);
    const other = learnedText(learned()).replace(/version: \d/, 'version: 9');
    expect(lines(named(), { 'learned.yaml': other }).join()).toMatch(/layout 9/);
    const edited = learnedText(learned()).replace('spreadBelow: 0.4', 'spreadBelow: -1');
    expect(lines(named(), { 'learned.yaml': edited }).join()).toMatch(/changed by hand/);
  });

  it('when the case starts from another law, naming both in the units of the shop', () => {
    const own = {
      ...named(),
      suspension: { wheelRate: { law: 'log-normal', median: '230 lbf/in', cov: 0.1, each: 'car' } },
    };
    const text = refused((file) => file, own);
    expect(text).toMatch(
      /wheel rate, per side was learned starting from 200 lbf\/in, and .* another \(log-normal, median 230 lbf\/in.*Put back/,
    );
    expect(text).not.toMatch(/\d{5}/);
    const class250 = { ...named(), tyres: named().tyres.map((tyre) => ({ ...tyre })) };
    const [first, second] = class250.tyres as { class?: object }[];
    const stiffer = { law: 'normal', mean: '260 lbf/in', sd: '10 lbf/in', each: 'car' };
    const changed = { ...second, class: { ...CLASS, suspension: { wheelRate: stiffer } } };
    expect(refused((file) => file, { ...class250, tyres: [first, changed] })).toMatch(
      /wheel rate, per side for radial was learned, and the case now starts from another \(normal, mean 260/,
    );
  });

  it('when the input is exact in the case, or new every run', () => {
    const exact = { ...named(), suspension: { wheelRate: '200 lbf/in' } };
    expect(refused((file) => ({ ...file, inputs: file.inputs.slice(0, 1) }), exact)).toMatch(
      /takes as exact/,
    );
    const everyRun = {
      ...named(),
      suspension: { wheelRate: { law: 'log-normal', median: '200 lbf/in', cov: 0.1, each: 'run' } },
    };
    expect(refused((file) => file, everyRun)).toMatch(/new every run/);
  });

  it('when the tyre is another one, or measured otherwise', () => {
    const tyre = (change: object) =>
      refused((file) => ({ ...file, tyres: [{ ...file.tyres[0]!, ...change }] }));
    expect(tyre({ name: 'other' })).toMatch(/tyre other, which this case does not run/);
    expect(tyre({ condition: 'new' })).toMatch(/condition new; the case has run-in/);
    expect(tyre({ deflection: '0.8 in' })).toMatch(/deflection 0.8 in; the case has 0.9 in/);
  });
});

test('a learned file comes back as it was written, and never runs anything', () => {
  expect(readLearned(learnedText(learned()))).toEqual(learned());
  expect(readLearned('format: &a [*a]')).toHaveProperty('problem');
});

test('no digit of a learned file can be changed unseen, and who did it is told how to get a good one', () => {
  const text = learnedText(learned());
  let changed = 0;
  for (let i = 0; i < text.length; i++) {
    if (!/\d/.test(text[i]!)) continue;
    const digit = String((Number(text[i]) + 1 + (i % 9)) % 10);
    const other = text.slice(0, i) + digit + text.slice(i + 1);
    expect(readLearned(other), `${text.slice(i - 20, i)}[${digit}]`).toHaveProperty('problem');
    changed++;
  }
  expect(changed).toBeGreaterThan(100);
  const edited = text.replace('middle: 0.5', 'middle: 0.4');
  expect(lines(named(), { 'learned.yaml': edited }).join()).toMatch(
    /learned: .*does not match its own digest: something in it was changed.*mend the measurement in its own table and learn again \(tubgap learn CASE --measured FOLDER\)/,
  );
  const bare = text.replace(/^digest: .*\n/m, '');
  expect(lines(named(), { 'learned.yaml': bare }).join()).toMatch(/does not match its own digest/);
  // Letters of a case that holds it may be written otherwise: its values are what counts.
  const held = { ...written(), learned: { digest: parse(text).digest, ...parse(text) } };
  expect(sound(held).car.wheelRate.law).toMatchObject({ kind: 'updated', middle: 0.5 });
});

test('a learned file is in its ranges: nothing else is written, and nothing else is read', () => {
  const far = (change: object): LearnedFile => ({
    ...learned(),
    inputs: learned().inputs.map((input) => ({ ...input, ...change })),
  });
  expect(() => learnedText(far({ middle: -7228 }))).toThrow();
  expect(() => learnedText(far({ spreadAbove: 40 }))).toThrow();
  expect(readLearned(learnedText(far({ together: [0.6, 0.8, 0] })))).toMatchObject({
    problem: expect.stringMatching(/inputs\.0\.together: these are no shares/),
  });
});

test('the digest of a text is that of its authors', () => {
  // Test vectors of FNV-1a with 64 bits, from memory.
  const vectors = { '': 'cbf29ce484222325', a: 'af63dc4c8601ec8c', foobar: '85944171f73967e8' };
  for (const [text, digest] of Object.entries(vectors)) expect(textDigest(text)).toBe(digest);
});

test('a case says how its logs are to be read; a tyre that it does not run is named', () => {
  const log = { axleRatio: 4.1, columns: { time: 'Time (s)', driveshaft: { head: 'DS', unit: 'rpm' } } };
  const the = sound({ ...smallCase(), runLog: log });
  expect(the.runLog).toEqual({
    axleRatio: 4.1,
    travelRatio: 1,
    tyre: 'slick',
    columns: { time: { head: 'Time (s)' }, driveshaft: { head: 'DS', unit: 'rpm' } },
  });
  expect(sound({ ...smallCase(), runLog: { axleRatio: 4.1 } }).runLog!.columns.speed).toEqual({
    head: 'speed_mph',
  });
  expect(lines({ ...smallCase(), runLog: { axleRatio: 4.1, tyre: 'radial' } }).join()).toMatch(/runLog.tyre/);
});
