import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { parseCase } from '../src/parse-case.ts';
import { lines, read, smallCase, TUBS, TYRES } from './small-case.ts';

const demo = readFileSync(new URL('../../../datasets/demo/case.yaml', import.meta.url), 'utf8');

/** Milliseconds that a slow machine may take for all texts of one test. */
const PATIENCE = 60_000;

/** A text with a few of its letters cut out and others put in. */
const damaged = (text: string) =>
  fc
    .array(fc.tuple(fc.nat(text.length), fc.nat(8), fc.string({ maxLength: 4 })), {
      minLength: 1,
      maxLength: 4,
    })
    .map((cuts) =>
      cuts.reduce((left, [at, length, put]) => left.slice(0, at) + put + left.slice(at + length), text),
    );

test(
  'no damage to a case or a catalogue throws, and every issue has a place',
  () => {
    fc.assert(
      fc.property(damaged(demo), damaged(TUBS), damaged(TYRES), (text, tubs, tyres) => {
        const load = (path: string) => (path === 'tubs.csv' ? tubs : tyres);
        const result = parseCase({ file: 'case.yaml', text, load });
        if (!result.ok) expect(result.issues.some(({ severity }) => severity === 'error')).toBe(true);
        for (const issue of result.ok ? result.warnings : result.issues) {
          expect(issue.line).toBeGreaterThan(0);
          expect(issue.column).toBeGreaterThan(0);
          expect(issue.message).not.toMatch(/undefined|NaN|\[object/);
        }
      }),
      { numRuns: 100 },
    );
  },
  PATIENCE,
);

test(
  'any value in any place is read or refused',
  () => {
    const places = Object.keys(smallCase());
    fc.assert(
      fc.property(fc.constantFrom(...places), fc.jsonValue(), (place, value) => {
        const result = read({ ...smallCase(), [place]: value });
        if (!result.ok) expect(result.issues.length).toBeGreaterThan(0);
      }),
      { numRuns: 100 },
    );
  },
  PATIENCE,
);

test(
  'any setting of a command line is read or refused',
  () => {
    const path = fc.oneof(
      fc.string({ maxLength: 12 }),
      fc.constantFrom('run.trapSpeed', 'tyres[0].mass', 'tyres[slick]', 'tubs[0]', 'name', 'constructor.x'),
    );
    const value = fc.oneof(
      fc.string({ maxLength: 12 }),
      fc.jsonValue().map((json) => JSON.stringify(json)),
      fc.string({ maxLength: 8 }).map((text) => `~${text}`),
    );
    fc.assert(
      fc.property(path, value, (place, text) => {
        const result = read(smallCase(), {}, { [place]: text });
        if (!result.ok) expect(result.issues.some(({ severity }) => severity === 'error')).toBe(true);
      }),
      { numRuns: 200 },
    );
  },
  PATIENCE,
);

test(
  'deep nesting, many aliases and strange names are refused, not followed',
  () => {
    const bomb = [
      'a0: &a0 [x, x]',
      ...Array.from({ length: 30 }, (_, i) => `a${i + 1}: &a${i + 1} [*a${i}, *a${i}]`),
    ];
    for (const text of [
      '['.repeat(50_000),
      '{a: '.repeat(20_000),
      bomb.join('\n'),
      '? [a]\n: 1',
      '!!js/function x',
    ]) {
      const issues = lines(text);
      expect(issues.length, text.slice(0, 20)).toBeGreaterThan(0);
      expect(issues[0]).toMatch(/^cars\/case\.yaml:\d+:\d+ /);
    }
    expect(lines(bomb.join('\n'))[0]).toContain('its aliases (*name) cannot be followed');
    expect(lines('')).not.toEqual([]);
    expect(lines('- just\n- a list')).not.toEqual([]);
    expect(Object.getPrototypeOf({})).toBe(Object.prototype);
  },
  PATIENCE,
);
