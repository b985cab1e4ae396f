import { expect, test } from 'vitest';
import { type Block, figureTable, heading, paragraph, row, strongRow } from '../src/index.ts';
import { printed } from '../src/terminal/printed.ts';

const lines = (blocks: readonly Block[], width: number, bold = false): string[] =>
  printed(blocks, { width, bold }).split('\n').slice(0, -1);

const TUBS = figureTable(
  ['tub', 'top at least', 'real contact'],
  [
    ['street-42', '39 1/4 in', '1 in 13,000'],
    ['middle-44', '', 'not known'],
  ],
  ['takes least room of what fits', ''],
);

test('nothing that is printed is wider than the terminal, whatever its width', () => {
  const text = 'comes closer than the 1/2 in to be kept in about 1 in 2,100 runs of all that were simulated';
  const blocks = [heading(`The car of ${text}`), row('Risk, a run', text), paragraph(text), TUBS];
  for (const width of [40, 50, 60, 80, 100, 133])
    for (const line of lines(blocks, width))
      expect(line.length, `${width}: ${line}`).toBeLessThanOrEqual(width);
});

test('a table stands side by side under one rule, its notes beside it or below; where there is no room it is stacked', () => {
  const [head, rule, first, second] = lines([TUBS], 80);
  expect(head).toBe('tub        top at least  real contact');
  expect(rule).toMatch(/^─+ {2}─+ {2}─+$/);
  expect(first).toBe('street-42     39 1/4 in   1 in 13,000  takes least room of what fits');
  expect(second).toBe('middle-44                   not known');
  expect(lines([TUBS], 45).slice(3)).toEqual([
    '    takes least room of what fits',
    'middle-44                   not known',
  ]);
  expect(lines([TUBS], 30)).toEqual([
    '  street-42',
    '    top at least  39 1/4 in',
    '    real contact  1 in 13,000',
    '    takes least room of what',
    '    fits',
    '  middle-44',
    '    real contact  not known',
  ]);
});

test('only a terminal that may be bold gets bold, and only in what is read first', () => {
  expect(lines([strongRow('BUILD', 'street-42'), row('Tight', 'finish')], 80, true)).toEqual([
    '\u001b[1m  BUILD         street-42\u001b[22m',
    '  Tight         finish',
  ]);
  expect(printed([strongRow('BUILD', 'street-42'), TUBS], { width: 80, bold: false })).not.toContain(
    '\u001b',
  );
});

test('a name that orders a terminal about is shown and not obeyed, wherever it stands', () => {
  const name = 'x\u001b[2J\u202e\r\nBUILD it';
  const shown = printed(
    [heading(name), row(name, name), paragraph(name), figureTable([name], [[name]], [name])],
    { width: 100, bold: false },
  );
  expect(shown.replaceAll('\n', '')).not.toMatch(/[\p{Cc}\p{Cf}]/u);
  expect(shown).not.toMatch(/^BUILD/m);
  expect(shown).toContain('x·[2J···BUILD it');
});
