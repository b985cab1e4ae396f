import { cpSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import {
  caseJsonSchema,
  learnedJsonSchema,
  SHOP_PRIORS_VERSION,
  shopPriorsJsonSchema,
  shopPriorsText,
} from '@tubgap/casefile';
import { resultJsonSchema, sampleJsonSchema, studyJsonSchema } from '@tubgap/results';
import { Ajv2020, type ValidateFunction } from 'ajv/dist/2020.js';
import { afterAll, describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { DEMO, ROOT, tubgap } from './command.ts';
import { demoFolder, SWEEP } from './small-sweep.ts';

/** The schemas that are committed for other people's readers, and what makes them anew. */
const SCHEMAS = [
  ['packages/casefile/case.schema.json', caseJsonSchema()],
  ['packages/casefile/learned.schema.json', learnedJsonSchema()],
  ['packages/casefile/shop-priors.schema.json', shopPriorsJsonSchema()],
  ['packages/results/result.schema.json', resultJsonSchema()],
  ['packages/results/sample.schema.json', sampleJsonSchema()],
  ['packages/results/study.schema.json', studyJsonSchema()],
] as const;

const read = (file: string): object => JSON.parse(readFileSync(join(ROOT, file), 'utf8'));
const reader = (file: string): ValidateFunction => new Ajv2020({ strict: false }).compile(read(file));

/** Fields of a schema that say nothing of themselves, by their place. */
function undescribed(form: unknown, at = ''): string[] {
  if (typeof form !== 'object' || form === null) return [];
  const { properties } = form as { properties?: Record<string, { description?: string }> };
  const silent = Object.entries(properties ?? {}).flatMap(([name, field]) =>
    field.description === undefined ? [`${at}.${name}`] : [],
  );
  return [...silent, ...Object.entries(form).flatMap(([name, part]) => undescribed(part, `${at}.${name}`))];
}

const folder = demoFolder('schemas');
cpSync(join(DEMO, '../demo-measurements'), join(folder, 'measured'), { recursive: true });
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('the JSON Schemas of the files', () => {
  it('are those that npm run schema writes', () => {
    for (const [file, made] of SCHEMAS) expect(read(file), file).toEqual(JSON.parse(JSON.stringify(made)));
  });

  it('describe every field of results, samples, studies and learned files', () => {
    for (const [file, made] of SCHEMAS.slice(1)) {
      expect(undescribed(made), file).toEqual([]);
    }
  });

  it('take a file of a shop’s priors, and none with a field changed', () => {
    const input = {
      label: 'a',
      before: 'a',
      after: 'b',
      middle: 0.5,
      spreadBelow: 1,
      spreadAbove: 1,
      together: [1],
    };
    const text = shopPriorsText({
      format: 'tubgap shop priors',
      version: SHOP_PRIORS_VERSION,
      caution: '',
      madeBy: 'a test',
      book: 'back-street',
      invented: true,
      date: '',
      seed: 1,
      from: { cars: 2, unmarkedRuns: 0, marks: 0, sha256: 'ab' },
      sampling: { method: '', chains: 4, draws: 1, worstRHat: 1, leastEffectiveDraws: 1, widened: 1 },
      tyres: [
        {
          tyre: 'slick',
          construction: 'bias',
          tyres: 2,
          inputs: [{ ...input, input: 'growthScale', startedFrom: 'a', apart: 0.05 }],
        },
      ],
      constructions: [],
      shop: { cars: 2, inputs: [{ ...input, input: 'wheelRate' }] },
      builders: [
        { builder: 'one', cars: 2, inputs: [{ ...input, input: 'topHeightError', startedFrom: 'a' }] },
      ],
      tapes: [{ tape: '25 ft', cars: 2, readsTooMuch: '0.03 in (0 to 0.06)' }],
    });
    const takes = reader('packages/casefile/shop-priors.schema.json');
    expect(takes(parse(text)), JSON.stringify(takes.errors)).toBe(true);
    for (const [from, to] of [
      ['growthScale', 'growth'],
      ['topHeightError', 'growthScale'],
      ['tape: 25', 'tap: 25'],
    ] as const) {
      expect(takes(parse(text.replace(from, to))), to).toBe(false);
    }
  });

  it('take what a pick and studies of every kind leave, and nothing with a field changed', () => {
    const few = ['--draws', '2048'];
    const runs = [
      ['pick', 'demo/case.yaml', ...few, '--cars', '64'],
      [...SWEEP],
      ['compare', 'demo/case.yaml', '--cars', '64'],
      [
        'compare',
        'demo/case.yaml',
        ...few,
        '--set',
        'run.trapSpeed=~220 mph',
        '--results',
        'results/against',
      ],
      ['place', 'demo/case.yaml', ...few],
      ['optimise', 'demo/case.yaml', ...few, '--over', 'tubCentreForward = 0.5..0.6 in by 0.1 in'],
    ];
    for (const words of runs) expect([0, 3], words.join(' ')).toContain(tubgap(folder, ...words).code);
    const files = readdirSync(join(folder, 'results'), { recursive: true, encoding: 'utf8' });
    const kinds = new Set<string>();
    for (const [name, schema] of [
      ['result.json', 'packages/results/result.schema.json'],
      ['sample.json', 'packages/results/sample.schema.json'],
      ['study.json', 'packages/results/study.schema.json'],
    ] as const) {
      const takes = reader(schema);
      for (const file of files.filter((one) => one.endsWith(name))) {
        const value = JSON.parse(readFileSync(join(folder, 'results', file), 'utf8'));
        takes(value);
        expect(takes.errors, file).toBeNull();
        expect(takes({ ...value, seed: 'x' })).toBe(false);
        expect(takes({ ...value, seeds: 1 })).toBe(false);
        kinds.add(value.kind ?? value.format);
      }
    }
    expect([...kinds].toSorted()).toEqual([
      'classes',
      'optimum',
      'places',
      'setups',
      'sweep',
      'tubgap result',
      'tubgap sample',
    ]);
  });

  it('take what is learned of the demo, and nothing with its digest gone', () => {
    const done = tubgap(
      folder,
      ...['learn', 'demo/case.yaml', '--measured', 'measured', '--draws', '4096', '--cars', '64'],
      ...['--results', 'learned'],
    );
    expect(done.code, done.err).toBe(0);
    const files = readdirSync(join(folder, 'learned'), { recursive: true, encoding: 'utf8' });
    const file = files.find((one) => one.endsWith('learned.yaml'));
    const value = parse(readFileSync(join(folder, 'learned', file!), 'utf8'));
    const takes = reader('packages/casefile/learned.schema.json');
    takes(value);
    expect(takes.errors).toBeNull();
    const { digest: _, ...bare } = value;
    expect(takes(bare)).toBe(false);
  });
});
