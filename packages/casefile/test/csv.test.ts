import fc from 'fast-check';
import { parseString } from 'fast-csv';
import { expect, test } from 'vitest';
import { readCsv } from '../src/text/csv.ts';

/** What a general CSV library reads, for comparison. */
function reference(text: string): Promise<string[][]> {
  return new Promise((resolve, reject) => {
    const rows: string[][] = [];
    parseString<string[], string[]>(text, { trim: true, ignoreEmpty: true })
      .on('error', reject)
      .on('data', (row: string[]) => rows.push(row))
      .on('end', () => resolve(rows));
  });
}

const cell = fc.oneof(
  fc.stringMatching(/^[a-z0-9 ._-]{0,6}$/),
  fc.stringMatching(/^[a-z,"\n ]{1,6}$/).map((text) => `"${text.replaceAll('"', '""')}"`),
);
const table = fc
  .array(fc.array(cell, { minLength: 2, maxLength: 4 }), { minLength: 1, maxLength: 5 })
  .chain((rows) => fc.constantFrom('\n', '\r\n').map((end) => rows.map((row) => row.join(',')).join(end)));

test('cells are those that a general CSV library reads', async () => {
  await fc.assert(
    fc.asyncProperty(table, async (text) => {
      const expected = (await reference(text)).map((row) => row.map((value) => value.trim()));
      const blank = (row: string[]) => row.every((value) => value === '');
      const found = readCsv(text).rows.map((row) => row.map((value) => value.text.trim()));
      expect(found.filter((row) => !blank(row))).toEqual(expected.filter((row) => !blank(row)));
    }),
    { numRuns: 200 },
  );
});

// RFC 4180, section 2, rules 5 to 7, with the place of each cell counted by hand.
test('quotes, line ends and comments leave the places right', () => {
  const { rows, faults } = readCsv('# note, with a comma\r\na, b\r\n\r\n"x ""y"",\nz",3\n');
  expect(faults).toEqual([]);
  expect(rows).toEqual([
    [
      { text: 'a', line: 2, column: 1 },
      { text: 'b', line: 2, column: 4 },
    ],
    [
      { text: 'x "y",\nz', line: 4, column: 1 },
      { text: '3', line: 5, column: 4 },
    ],
  ]);
});

test('a quote that is never closed is told where it opens', () => {
  expect(readCsv('a,b\n1,"2\n').faults).toMatchObject([{ line: 2, column: 3, problem: { code: 'syntax' } }]);
  expect(readCsv('a,"b"c\n').faults).toMatchObject([{ line: 1, column: 3 }]);
});
