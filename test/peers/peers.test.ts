import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { caseQuestions, fixture, ownAnswers } from './case.ts';
import { writeQuestion } from './draws-file.ts';
import { compiledPeer, numpyPeer, type Program, peerAnswers } from './programs.ts';

/**
 * Required heights of fixtures/case.json by three programs that share no line of code: the project's kernel, C, and
 * numpy. See SOURCE.md.
 */

const RUNS = 2000;
const TUBS = 5;

/** Between peers that settle every peak, m: rounding, magnified where the tyre nears an upright wall. */
const SETTLED = 1e-13;
/** Between the kernel and a settled peak, m: Newton stops when the last step changes no digit that matters. */
const NEWTON_STOP = 1e-11;

const folder = mkdtempSync(join(tmpdir(), 'tubgap-peers-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Heights of a committed file, tub by tub. */
function committed(name: string): Float64Array {
  const [, ...lines] = fixture(`${name}.csv`).trim().split('\n');
  expect(lines).toHaveLength(RUNS);
  const heights = new Float64Array(TUBS * RUNS);
  lines.forEach((line, run) => {
    const row = line.split(',');
    expect(row).toHaveLength(TUBS);
    row.forEach((cell, tub) => {
      heights[tub * RUNS + run] = cell === 'inf' ? Number.POSITIVE_INFINITY : Number(cell);
    });
  });
  return heights;
}

/** Differences of heights, m, largest first; two that are infinite together agree, one alone differs by Infinity. */
function differences(found: Float64Array, expected: Float64Array): Float64Array {
  expect(found).toHaveLength(expected.length);
  return Float64Array.from(found, (height, i) =>
    height === expected[i] ? 0 : Math.abs(height - expected[i]!),
  )
    .sort()
    .reverse();
}

// Found by halving in numpy/write_answers.py; 12 digits printed. [tyre, k_w in N/m²]
const stiffness = [
  ['slick', 715440.627264],
  ['radial', 737928.010166],
] as const;

describe.each(caseQuestions())('$name', ({ name, question }) => {
  const files = writeQuestion(question, join(folder, name));
  const own = ownAnswers(question);
  const expected = committed(name);

  test('has the sidewall that numpy finds for its measured drop', () => {
    const row = stiffness.find(([tyre]) => tyre === name);
    expect(question.tyre.radialStiffness / row![1]).toBeCloseTo(1, 11);
  });

  test('needs the heights that numpy gives', () => {
    const found = differences(own.requiredHeight, expected);
    expect(found[0]).toBeLessThan(NEWTON_STOP);
    expect(expected.filter(Number.isFinite).length).toBeGreaterThan(0.9 * expected.length);
  });

  const peers: [string, Program | undefined, string][] = [
    ['C', compiledPeer(folder), 'gcc'],
    ['numpy', numpyPeer(), 'python3-numpy'],
  ];
  for (const [language, program, needs] of peers) {
    if (program === undefined) {
      console.warn(`SKIPPED: the ${language} peer of ${name}; to run it: apt-get install ${needs}`);
    }
    test.skipIf(program === undefined)(
      `gets its committed heights from the live ${language} peer${program ? '' : ` (SKIPPED: install ${needs})`}`,
      () => {
        const [required, contact] = peerAnswers(program!, files);
        expect(differences(required, expected)[0]).toBeLessThan(SETTLED);
        const atContact = differences(own.contactHeight, contact);
        expect(atContact[0]).toBeLessThan(NEWTON_STOP);
      },
    );
  }
});
