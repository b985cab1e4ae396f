import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { issueLines } from '../src/issue.ts';
import { parseCase } from '../src/parse-case.ts';
import { lines, read, smallCase, TUBS, TYRES } from './small-case.ts';

const demo = readFileSync(new URL('../../../datasets/demo/case.yaml', import.meta.url), 'utf8');

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

test('no damage to a case or a catalogue throws, and every issue has a place', () => {
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
});

test('any value in any place is read or refused', () => {
  const places = Object.keys(smallCase());
  fc.assert(
    fc.property(fc.constantFrom(...places), fc.jsonValue(), (place, value) => {
      const result = read({ ...smallCase(), [place]: value });
      if (!result.ok) expect(result.issues.length).toBeGreaterThan(0);
    }),
    { numRuns: 100 },
  );
});

test('any setting of a command line is read or refused', () => {
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
});

test('deep nesting, many aliases and strange names are refused, not followed', () => {
  const bomb = [
    'a0: &a0 [x, x]',
    ...Array.from({ length: 30 }, (_, i) => `a${i + 1}: &a${i + 1} [*a${i}, *a${i}]`),
  ];
  for (const text of [
    '['.repeat(50_000),
    '{a: '.repeat(20_000),
    '{'.repeat(180_000),
    '? '.repeat(90_000),
    '- '.repeat(90_000),
    '&a '.repeat(60_000),
    '*a '.repeat(60_000),
    '"'.repeat(180_000),
    '%A\n'.repeat(60_000),
    '&a b: *a\n'.repeat(20_000),
    bomb.join('\n'),
    '? [a]\n: 1',
    '!!js/function x',
  ]) {
    const issues = lines(text);
    expect(issues.length, text.slice(0, 20)).toBeGreaterThan(0);
    expect(issues.length, text.slice(0, 20)).toBeLessThanOrEqual(20);
    expect(issues[0]).toMatch(/^cars\/case\.yaml:\d+:\d+ /);
  }
  expect(lines(bomb.join('\n'))[0]).toContain('its aliases (*name) cannot be followed');
  expect(lines('')).not.toEqual([]);
  expect(lines('- just\n- a list')).not.toEqual([]);
  expect(Object.getPrototypeOf({})).toBe(Object.prototype);
});

test('a tag is refused with its place: what stands behind it would be dropped, or read as something else', () => {
  const tagged = ['!!omap', '!!set', '!!timestamp', '!!binary', '!mine', '!<tag:yaml.org,2002:set>'];
  for (const tag of tagged) {
    const issues = lines(demo.replace(/^aero:$/m, `aero: ${tag}`));
    expect(issues.length, tag).toBe(1);
    const line = demo.split('\n').indexOf('aero:') + 1;
    expect(issues[0], tag).toContain(`case.yaml:${line}:7  read "${tag}`);
    expect(issues[0], tag).toContain('a tag is not read');
  }
  const merged = lines(demo.replace(/^aero:$/m, 'aero:\n  <<: { dragArea: 0.5 m2 }'));
  expect(merged.join('\n')).toContain('fields are not merged into a group (<<)');
});

test('no letter that steers a terminal comes through a name, a title or a message', () => {
  const steering = '\\e[2J\\e]0;x\\a';
  for (const place of ['title', 'name', 'tubCentreForward', 'made up']) {
    const text = `${demo.replace(new RegExp(`^${place}: .*`, 'm'), '')}\n"${place}": "${steering}"\n`;
    const issues = lines(text);
    expect(issues.length, place).toBeGreaterThan(0);
    for (const issue of issues) expect(issue, place).not.toMatch(/\p{Cc}/u);
  }
});

test('issues are told up to the fiftieth, and how many more there are', () => {
  const issue = {
    severity: 'error',
    code: 'syntax',
    file: 'case.yaml',
    line: 1,
    column: 1,
    path: '',
    message: 'x',
  } as const;
  expect(issueLines(Array.from({ length: 50 }, () => issue)).length).toBe(50);
  const many = issueLines(Array.from({ length: 39_011 }, () => issue));
  expect(many.length).toBe(51);
  expect(many.at(-1)).toBe('and 38,961 more, told when these are mended');
});
