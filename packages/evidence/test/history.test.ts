import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { historyReadings, noReadings, readHistory, stretchesOf, withEntry } from '../src/index.ts';
import { demoCase } from './demo.ts';

const INCH = 0.0254;
const source = demoCase();
const HEAD =
  'date,entry,tyre,batch,tub,top_height_in,centre_forward_in,runs,speed_low_mph,speed_high_mph,mark,angle_deg,measured_in,note';
const LINES = [
  '2026-03-01,tub,,,street-42,39.25,0.25,,,,,,,',
  '2026-03-01,tyre,tall-slick,B7,,,,,,,,,,',
  '2026-03-07,gap,,,,,,,,,,0,6.2,',
  '2026-03-07,runs,tall-slick,,,,,12,200,215,none,,,',
  '2026-04-02,tub,,,,38.5,,,,,,,,lowered',
  '2026-04-09,runs,tall-slick,,,,,3,220,226,mark,,,"left side, ahead"',
  '2026-04-10,looked into,,,,,,,,,,,,a bent bracket',
  '2026-04-20,tyre,tall-slick,C1,,,,,,,,,,',
  '2026-05-02,runs,tall-slick,,short-39,41,,4,,,none,,,tried another',
  '2026-05-03,runs,tall-slick,,,,,20,,,none,,,',
];
const seenOf = (lines: readonly string[]) =>
  historyReadings(readHistory([HEAD, ...lines, ''].join('\n')), source, undefined);
/** What was taken in, whatever line it stood in. */
const unplaced = (seen: ReturnType<typeof seenOf>) => ({
  ...seen,
  runs: seen.runs.map(({ line: _, ...one }) => one),
  gaps: seen.gaps.map(({ line: _, ...one }) => one),
});

describe("a car's history", () => {
  const seen = seenOf(LINES);

  it('gives each reading the tub as it stood on that day', () => {
    expect(seen.rejected).toEqual([]);
    const tops = seen.runs.map(({ built }) => [
      built.tub,
      Math.round((1000 * built.topHeight) / INCH) / 1000,
    ]);
    expect(tops).toEqual([
      ['street-42', 39.25],
      ['street-42', 38.5],
      ['short-39', 41],
      ['street-42', 38.5],
    ]);
    expect(seen.runs[1]!.built.centreForward).toBeCloseTo(0.25 * INCH, 9);
    expect(seen.runs[2]!.built.centreForward).toBeUndefined();
    expect(seen.runs.map(({ runs, marked }) => [runs, marked])).toEqual([
      [12, false],
      [3, true],
      [4, false],
      [20, false],
    ]);
    expect(seen.gaps[0]).toMatchObject({ built: { topHeight: expect.closeTo(39.25 * INCH, 9) } });
    expect(seen).toMatchObject({ builtSince: '2026-04-02', lookedInto: ['2026-04-10'] });
  });

  it('does not depend on the order of its lines', () => {
    fc.assert(
      fc.property(fc.shuffledSubarray(LINES, { minLength: LINES.length }), (lines) => {
        expect(unplaced(seenOf(lines))).toEqual(unplaced(seen));
      }),
      { numRuns: 40 },
    );
  });

  it('is parted where a tyre was changed, with the batch of each', () => {
    const readings = { ...noReadings(), runs: seen.runs, gaps: seen.gaps };
    const stretches = stretchesOf(readings, seen.tyreChanges);
    expect(stretches.map(({ from, to, batches }) => [from, to, batches['tall-slick']])).toEqual([
      ['2026-03-01', '2026-04-20', 'B7'],
      ['2026-04-20', '', 'C1'],
    ]);
    expect(stretches.map((one) => one.readings.runs.map(({ runs }) => runs))).toEqual([
      [12, 3],
      [4, 20],
    ]);
    // A reading without a day is of the tyres that are on the car now.
    const undated = { ...noReadings(), runs: [{ ...seen.runs[0]!, date: '' }] };
    expect(stretchesOf(undated, seen.tyreChanges).map(({ from }) => from)).toEqual(['2026-04-20']);
  });

  it('goes on without a damaged entry, but for what only that one could tell', () => {
    const broken = LINES.with(4, '2026-04-02,tub,,,,low,,,,,,,,lowered').with(
      3,
      '2026-13-07,runs,tall-slick,,,,,12,,,none,,,',
    );
    const { runs, rejected } = seenOf(broken);
    // The runs that say themselves where the tub stood are all that can be used after it.
    expect(runs.map((one) => one.runs)).toEqual([4]);
    expect(rejected.map(({ line }) => line)).toEqual([5, 6, 7, 11]);
    expect(rejected[0]!.reason).toContain('"2026-13-07" is no day');
    expect(rejected[2]!.reason).toContain('how the tub stood is damaged');
    // Once an entry tells the whole place again, nothing is in doubt any more.
    const mended = seenOf([...broken, '2026-04-03,tub,,,street-42,38.5,,,,,,,,']);
    expect(mended.runs.map((one) => one.runs)).toEqual([3, 4, 20]);
  });

  it('takes no runs of a day on which the tub was moved, unless they say where it stood', () => {
    const { runs, rejected } = seenOf([
      ...LINES,
      '2026-04-02,runs,tall-slick,,,,,7,,,none,,,',
      '2026-04-02,runs,tall-slick,,street-42,39.25,,8,,,none,,,',
    ]);
    expect(runs.map((one) => one.runs)).toEqual([12, 8, 3, 4, 20]);
    expect(rejected).toEqual([
      expect.objectContaining({ line: 12, reason: expect.stringContaining('same day') }),
    ]);
    const twice = seenOf([...LINES, '2026-04-02,tub,,,,40,,,,,,,,raised']);
    expect(twice.rejected.filter(({ reason }) => reason.includes('another place'))).toHaveLength(2);
  });
});

describe('an entry', () => {
  const entry = {
    date: '2026-05-09',
    kind: 'runs',
    words: { tyre: 'tall-slick', mark: 'none', note: '=1+1, "so"' },
    numbers: { runs: 6, top_height: 1 },
  };

  it('is read back as it was told, in the columns and units that stand there', () => {
    for (const text of [
      undefined,
      `${HEAD}\n${LINES[0]}`,
      'entry;date;mark;runs;tyre;top_height_mm;note\n',
    ]) {
      const added = withEntry(text, entry);
      if ('lacking' in added) throw new Error(added.lacking.join());
      const last = readHistory(added.text).entries.at(-1)!;
      expect(last).toMatchObject({ date: '2026-05-09', kind: 'runs' });
      expect(last.numbers).toEqual({ runs: 6, top_height: expect.closeTo(1, 8) });
      expect(last.words.tyre).toBe('tall-slick');
      // No spreadsheet runs it.
      expect(last.words.note).toMatch(/^'=1\+1/);
    }
    expect(withEntry('date,entry\n', entry)).toEqual({
      lacking: ['tyre', 'mark', 'note', 'runs', 'top_height'],
    });
  });
});
