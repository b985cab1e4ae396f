import { readFileSync } from 'node:fs';
import { type Case, parseCase } from '@tubgap/casefile';
import { NO_CENTRES, openWorkplace, performTask } from '@tubgap/simulation';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Carried } from '../src/carried/carried.ts';
import { textWith } from '../src/carried/case-text.ts';
import { allSettings, caseIn, firstState, readCarried } from '../src/page/bench-case.ts';
import type { BenchState } from '../src/page/bench-state.ts';

const demo = new URL('../../../datasets/demo/', import.meta.url);
const load = (name: string): string => readFileSync(new URL(name, demo), 'utf8');
const catalogues = Object.fromEntries(['tubs.csv', 'tyres.csv'].map((name) => [name, load(name)]));
const INCH = 0.0254;
const DEGREE = Math.PI / 180;

/** The demo with its tubs written in other ways that a case file allows. */
const written = (tubs: string): Carried => ({
  file: 'case.yaml',
  files: {
    ...catalogues,
    'case.yaml': load('case.yaml').replace(/^tubs:.*\n(?: +.*\n)*/m, `tubs: ${tubs}\n`),
  },
});

const CASES: Readonly<Record<string, Carried>> = {
  'all of the catalogue': written('all'),
  'named alone': written('[street-42, tall-46]'),
  'with one place for each': written(
    '[{ tub: street-42, centreForward: 1 in }, { tub: tall-46, centreForward: 0.5 in }]',
  ),
  'with the same place each': written(
    '[{ tub: street-42, centreForward: 1 in }, { tub: tall-46, centreForward: 1 in }]',
  ),
  'with notches': written(
    '[{ tub: street-42, notches: [{ angle: 30 deg, depth: 0.5 in }, { angle: -40 deg, depth: 0.25 in }] }, tall-46]',
  ),
};

const notch = fc.record({
  angle: fc.double({ min: -75 * DEGREE, max: 75 * DEGREE, noNaN: true }),
  depth: fc.double({ min: 0.1 * INCH, max: 3 * INCH, noNaN: true }),
});
const moves = fc.record({
  centre: fc.option(fc.double({ min: -3 * INCH, max: 3 * INCH, noNaN: true }), { nil: undefined }),
  notches: fc.dictionary(fc.constantFrom('street-42', 'tall-46'), fc.array(notch, { maxLength: 3 }), {
    maxKeys: 2,
  }),
});

function stateOf(carried: Carried, moved: Pick<BenchState, 'centre' | 'notches'>): BenchState {
  const read = readCarried(carried, []);
  if (!read.ok) throw new Error(read.issues.map(({ message }) => message).join('\n'));
  const found = caseIn(carried, { tub: '', tyre: '', centre: undefined, notches: {}, values: {} });
  if (!found.ok) throw new Error('the case itself cannot be shown');
  return { ...firstState(carried, read.value, found.setup), topHeight: 38.5 * INCH, ...moved };
}

function shownAndSaved(carried: Carried, state: BenchState): { shown: Case; saved: Case } {
  const shown = caseIn(carried, state);
  if (!shown.ok) throw new Error(shown.issues.map(({ message }) => message).join('\n'));
  const settings = allSettings(carried, state);
  const read = readCarried(carried, settings);
  if (!read.ok) throw new Error(read.issues.map(({ message }) => message).join('\n'));
  const text = textWith(carried.files['case.yaml']!, read.value, settings);
  const again = parseCase({ file: 'case.yaml', text, load: (path) => carried.files[path] });
  if (!again.ok) throw new Error(again.issues.map(({ message }) => message).join('\n'));
  return { shown: shown.source, saved: again.value };
}

/** Touches of the first runs, all tyres and tubs, at every height. */
function counts(source: Case): unknown {
  const small = { ...source, simulation: { draws: 1024, cars: 1, seed: 1 } };
  const found = performTask(openWorkplace(small), {
    kind: 'runs',
    firstBlock: 0,
    endBlock: 1,
    centres: NO_CENTRES,
  });
  return found.kind === 'runs' && found.tallies.tyres.map(({ tubs }) => tubs.map(({ steps }) => [...steps]));
}

describe.each(Object.entries(CASES))('tubs %s, moved and notched on the page', (_, carried) => {
  it('stand in the saved case as the page had them', () => {
    fc.assert(
      fc.property(moves, (moved) => {
        const { shown, saved } = shownAndSaved(carried, stateOf(carried, moved));
        expect(saved.tubs).toHaveLength(shown.tubs.length);
        saved.tubs.forEach((tub, t) => {
          const page = shown.tubs[t]!;
          expect(tub.name).toBe(page.name);
          expect(tub.centreForward).toBeCloseTo(page.centreForward, 10);
          expect(tub.notches).toHaveLength(page.notches.length);
          tub.notches.forEach(({ angle, depth }, n) => {
            expect(angle).toBeCloseTo(page.notches[n]!.angle, 10);
            expect(depth).toBeCloseTo(page.notches[n]!.depth, 10);
          });
        });
      }),
      { numRuns: 25 },
    );
  }, 60_000);

  it('give the counts of the page when the saved case is run', () => {
    const moved = {
      centre: -0.6875 * INCH,
      notches: { 'street-42': [{ angle: 37 * DEGREE, depth: 0.625 * INCH }] },
    };
    const { shown, saved } = shownAndSaved(carried, stateOf(carried, moved));
    expect(counts(saved)).toEqual(counts(shown));
    expect(counts(saved)).not.toEqual(
      counts(shownAndSaved(carried, stateOf(carried, { notches: {} })).shown),
    );
  });
});
