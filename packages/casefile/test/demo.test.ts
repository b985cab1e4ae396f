import { readFileSync } from 'node:fs';
import { centralValue } from '@tubgap/statistics';
import { expect, test } from 'vitest';
import { z } from 'zod';
import { caseJsonSchema } from '../src/json-schema.ts';
import { parseCase } from '../src/parse-case.ts';

const folder = new URL('../../../datasets/demo/', import.meta.url);
const text = (name: string) => readFileSync(new URL(name, folder), 'utf8');

const demo = parseCase({ file: 'case.yaml', text: text('case.yaml'), load: text });

test('the demo reads without an issue and is marked as invented', () => {
  expect(demo.ok ? demo.warnings : demo.issues).toEqual([]);
  expect(demo.ok && demo.value.invented).toBe(true);
  for (const name of ['case.yaml', 'tubs.csv', 'tyres.csv'])
    expect(text(name).slice(0, 200)).toMatch(/invented/i);
  expect(demo.ok && demo.value.tubs.length).toBeGreaterThanOrEqual(4);
  expect(demo.ok && new Set(demo.value.tyres.map(({ construction }) => construction)).size).toBe(2);
});

test('a case speaks in the units of most of its own lengths', () => {
  expect(demo.ok && demo.value.units).toBe('inch');
  const metric = text('case.yaml').replace(
    /(?<=[ [])(-?[\d.]+) in(?=[ ,}\n])/g,
    (_, inches: string) => `${Number((Number(inches) * 25.4).toFixed(3))} mm`,
  );
  const read = parseCase({
    file: 'case.yaml',
    text: metric.replace(/[\d.]+ mm (?=[\d,]+)/g, '1 in '),
    load: text,
  });
  expect(read.ok && read.value.units).toBe('mm');
});

// Common practice, no source: 47, 44, 40 and 34 in tubs, 34.5 in tyres. They are check values and no one's data.
test('no tub of the demo is one of the trade’s usual sizes, nor all of them moved by the same step', () => {
  const sizes = demo.ok ? demo.value.tubs.map(({ diameter }) => diameter / 0.0254) : [];
  for (const size of sizes)
    for (const usual of [47, 44, 40, 34]) expect(Math.abs(size - usual)).toBeGreaterThan(0.2);
  const has = (size: number) => sizes.some((other) => Math.abs(other - size) < 0.05);
  for (const top of sizes) expect([3, 7, 13].every((step) => has(top - step))).toBe(false);
});

test('the class of the demo is slower and gentler than the car, with less wing', () => {
  if (!demo.ok) throw new Error('the demo does not read');
  const { car, tyres } = demo.value;
  const [slick, radial] = tyres;
  expect(slick!.car).toBeUndefined();
  const names = ['downforceArea', 'launchAcceleration', 'trapSpeed'] as const;
  expect(Object.keys(radial!.car!).sort()).toEqual([...names]);
  for (const name of names) {
    expect(centralValue(radial!.car![name]!.law)).toBeLessThan(centralValue(car[name].law));
  }
});

test('the schema for editors is up to date; npm run schema writes it', () => {
  const file = new URL('../case.schema.json', import.meta.url);
  expect(JSON.parse(readFileSync(file, 'utf8'))).toEqual(caseJsonSchema());
});

test('the schema for editors takes the demo and refuses a bare number', async () => {
  const { parse } = await import('yaml');
  const schema = z.fromJSONSchema(caseJsonSchema() as Parameters<typeof z.fromJSONSchema>[0]);
  const written = parse(text('case.yaml'));
  expect(schema.safeParse(written).error?.issues).toBeUndefined();
  written.car.wheelbase = 108;
  expect(schema.safeParse(written).success).toBe(false);
});

/** Every property of a schema with the name it has in the file. */
function properties(schema: unknown): [string, Record<string, unknown>][] {
  if (typeof schema !== 'object' || schema === null) return [];
  const own = Object.entries(
    ((schema as Record<string, unknown>).properties ?? {}) as Record<string, Record<string, unknown>>,
  );
  return [...own, ...Object.values(schema).flatMap(properties)];
}

test('every number of the schema has a description with its range', () => {
  const { $defs: _, ...form } = caseJsonSchema();
  const numbers = properties(form).filter(([, field]) => typeof field.$ref === 'string');
  expect(numbers.length).toBeGreaterThan(85);
  for (const [name, { description }] of numbers) expect(description, name).toMatch(/ to .*\.$/);
});
