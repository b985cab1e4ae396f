import { readFileSync } from 'node:fs';
import { parseCase } from '@tubgap/casefile';
import { caseSetup } from '@tubgap/simulation';
import { describe, expect, it } from 'vitest';
import { NO_MEASURES } from '../src/carried/measures.ts';
import { checkRows, pageLimits } from '../src/page/check-rows.ts';
import { type LessonLines, lessonLines, type TypedTables } from '../src/page/lesson-lines.ts';
import { measuredTables } from '../src/page/measured-tables.ts';
import { movedText } from '../src/page/range-words.ts';
import { type Learnt, learnFromTables, type Taught } from '../src/worker/learning.ts';

const INCH = 0.0254;
const demo = new URL('../../../datasets/demo/', import.meta.url);
const load = (name: string): string => readFileSync(new URL(name, demo), 'utf8');
const read = parseCase({ file: 'case.yaml', text: load('case.yaml'), load });
if (!read.ok) throw new Error('the demo cannot be read');
const source = { ...read.value, simulation: { draws: 32_768, cars: 128, seed: 1 } };

const MARK = { tyre: 'tall-slick', angle: '35', touched: true, witness: true, runs: '2', thickness: '' };
/** The demo as it is built, with gaps and marks typed in. */
const tables = (top: number, gaps: Record<string, string>, ...marks: (typeof MARK)[]) => {
  const measures = { ...NO_MEASURES, gaps, marks };
  const rows = checkRows(measures, pageLimits(caseSetup(source), 1, top * INCH), [], 'inch');
  return measuredTables(measures, rows, 'inch', {
    tub: 'street-42',
    topHeight: top * INCH,
    centre: INCH / 4,
  });
};

/** What came of tables that were typed in, and what is said of it. */
function taughtBy(typed: TypedTables): { result: Learnt['result']; lines: LessonLines } {
  const learnt = learnFromTables({ source, tables: typed }, () => {});
  return { result: learnt.result, lines: lessonLines(learnt, typed) };
}

function taughtOf(result: Learnt['result']): Taught {
  if ('refusal' in result) throw new Error(`nothing learned: ${result.refusal.kind}`);
  return result.taught;
}

describe('learning from what was typed in', () => {
  it('begins with STOP where a tyre was inside the gap to be kept, and learns nothing from what cannot be', () => {
    const { result, lines } = taughtBy(tables(40.25, {}, MARK));
    expect(result).toMatchObject({ refusal: { kind: 'impossible rub' } });
    expect(lines.stops[0]).toMatch(/^STOP: the tyre has been inside .*tall-slick at 35°.*Do not run/);
    expect(lines.stops[1]).toMatch(/^STOP: the tyre has touched where nothing in this case lets it/);
    expect(lines.refused.join('\n')).toMatch(
      /^Mark 1, touched at 35° in 2 runs: at odds .* fewer than 1 time in 100,000/m,
    );
    expect(lines.refused.at(-1)).toMatch(/^Measure these again/);
  });

  it('tells every tub, and only what moved by more than chance', () => {
    const right = { 'left 0': '4.85', 'right 0': '4.85' };
    const { result } = taughtBy(
      tables(38, right, { ...MARK, touched: false, thickness: '1.25', runs: '10' }),
    );
    const taught = taughtOf(result);
    expect(taught.heights.map(({ tub }) => tub)).toContain('middle-44');
    const words = taught.moved.map((one) => movedText(one, 'inch').replaceAll('\u00a0', ' '));
    expect(words[0]).toMatch(/^growth of tall-slick at 224 mph was taken as 1\.2 in .* makes it 0\.\d+ in/);
    for (const one of words) {
      const [, before, after] = /taken as (.*); what was typed in makes it (.*)$/.exec(one)!;
      expect(after).not.toBe(before);
    }
    expect(movedText(taught.moved[0]!, 'mm')).toMatch(/360\u00a0km\/h was taken as 30\.?\d* mm/);
  });

  it('names a reading that was left out by its place on the page', () => {
    const typed = { ...tables(38, {}), 'check-sheet.csv': 'side,angle_deg,measured_in\nleft,15,600\n' };
    const { result, lines } = taughtBy(typed);
    expect(result).toEqual({ refusal: { kind: 'nothing measured' } });
    expect(lines.remarks[0]).toMatch(/^Gap at 15° left left out: /);
  });

  it('takes in nothing that cannot be, and no absence of a mark on bare skin', () => {
    expect(Object.keys(tables(38, { 'left 15': '600', 'right 15': '-2' }))).toEqual(['as-built.csv']);
    const bare = { ...MARK, touched: false, witness: false };
    expect(Object.keys(tables(38, {}, bare))).toEqual(['as-built.csv']);
    expect(tables(38, {}, { ...bare, witness: true })['marks.csv']).toContain('not touched,yes');
  });

  it('begins with STOP where the check sheet fails', () => {
    const { lines } = taughtBy(tables(38, { 'left 0': '1', 'right 0': '1' }));
    expect(lines.stops[0]).toMatch(/^STOP: the check sheet: FAIL: gap at 0°, left; gap at 0°, right\./);
  });
});
