import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { issueText } from '../src/issue.ts';
import { parseCase } from '../src/parse-case.ts';
import { readCaseText } from '../src/text/case-text.ts';

const demo = readFileSync(new URL('../../../datasets/demo/case.yaml', import.meta.url), 'utf8');

/** What a case with one slip is answered with. */
function told(from: string, to: string): string[] {
  expect(demo, from).toContain(from);
  const read = parseCase({
    file: 'case.yaml',
    text: demo.replace(from, to),
    load: (name) => readFileSync(new URL(`../../../datasets/demo/${name}`, import.meta.url), 'utf8'),
  });
  return read.ok ? [] : read.issues.map(issueText);
}

const W = '  wheelbase: 108 in';
const rows: [name: string, from: string, to: string, ...said: string[]][] = [
  [
    'no colon',
    W,
    '  wheelbase 108 in',
    '16:3  a colon is missing behind the name of the field. Write wheelbase: 108 in',
  ],
  [
    'a sign of equality',
    W,
    '  wheelbase = 108 in',
    '16:3  a colon is missing behind the name of the field. Write wheelbase: 108 in',
  ],
  [
    'no colon behind a group',
    '\nbuild:',
    '\nbuild',
    '36:1  a colon is missing behind the name of the field. Write build:',
  ],
  [
    'no colon in the last line',
    '  seed: 1',
    '  seed 1',
    '110:3  a colon is missing behind the name of the field. Write seed: 1',
  ],
  [
    'no colon in front of a law',
    '  rearShare: {',
    '  rearShare {',
    '15:3  a colon is missing behind the name of the field. Write rearShare: { law: normal, mean: 52 %, sd: 0.5 %, each: car }',
  ],
  [
    'no blank behind a colon',
    W,
    '  wheelbase:108 in',
    '16:3  a blank is missing behind the colon. Write wheelbase: 108 in',
  ],
  [
    'no blank behind a colon in { }',
    '{ width: 15 in',
    '{ width:15 in',
    '62:12  tyres[0].rim.width:15 in: read "width:15 in"; a blank is missing behind the colon. Write width: 15 in',
  ],
  [
    'a remark without its sign',
    '\ncar:',
    '\nthe second car\ncar:',
    '13:1  a colon is missing behind the name of the field. Write name: value, or put # in front of the line if it is a remark',
  ],
  [
    'a tab',
    W,
    '\twheelbase: 108 in',
    '16:1  a tab stands in front of this line. Use blanks in place of tabs, two for each step further in',
  ],
  [
    'too far in',
    W,
    '    wheelbase: 108 in',
    '16:5  this line begins 4 blanks in, under none of those that it could belong with. Put 2 blanks in front of it to go on with line 15',
  ],
  [
    'too far in, under a value',
    '  cgHeight:',
    '  x: 1\n    cgHeight:',
    '18:5  this line begins 4 blanks in, under none of those that it could belong with. Put 2 blanks in front of it to go on with line 17',
  ],
  [
    'not far enough in',
    W,
    ' wheelbase: 108 in',
    '16:2  this line begins 1 blank in, under none of those that it could belong with. Put 2 blanks in front of it to go on with line 15',
  ],
  [
    'a dash out of line',
    '  - tyre: class-radial',
    ' - tyre: class-radial',
    '63:2  this line begins 1 blank in, under none of those that it could belong with. Put 2 blanks in front of it to go on with line 57',
  ],
  [
    'no blank behind a dash',
    '  - tyre: class-radial',
    '  -tyre: class-radial',
    '63:3  a blank is missing behind the dash of a list. Write - tyre: class-radial',
  ],
  [
    'an open quote',
    'title: Door',
    'title: "Door',
    '6:8  the quote " that opens here is not closed on its line. Write " behind the text, or take this one out',
  ],
  [
    'text behind a quote',
    'title: Door car',
    'title: "Door car"',
    '6:19  text follows the closing quote. Put the closing quote behind all of the text, or take both quotes out',
  ],
  [
    'an open bracket',
    'sd: 0.5 %, each: car }',
    'sd: 0.5 %, each: car',
    '15:14  the bracket { that opens here is never closed. Write } behind the last thing that belongs in it',
  ],
  [
    'an open bracket inside of another',
    '105 15/16 in]',
    '105 15/16 in',
    '60:32  the bracket [ that opens here is never closed. Write ] behind the last thing that belongs in it',
  ],
  [
    'a bracket too many',
    'sd: 0.5 %, each: car }',
    'sd: 0.5 %, each: car }}',
    '15:63  no bracket is open that } could close here. Take it out',
  ],
  [
    'no comma',
    'mean: 52 %, sd',
    'mean: 52 % sd',
    '15:35  a comma is missing between two fields inside { }. Write a comma in front of sd:',
  ],
  [
    'a comma too many',
    'mean: 52 %, sd',
    'mean: 52 %,, sd',
    '15:40  nothing stands in front of this comma. Take one comma out',
  ],
  [
    'a second colon',
    W,
    '  wheelbase: here: 108 in',
    '16:14  a second colon stands in this line. Write wheelbase: "here: 108 in", or a field a line',
  ],
  [
    'a field twice',
    W,
    `${W}\n  wheelbase: 109 in`,
    '17:3  read "wheelbase"; this field is already given on line 16. Take one of the two out',
  ],
  [
    'a sign of YAML',
    W,
    '  wheelbase: >108 in',
    '16:16  a value cannot begin with >. Take it out, or put the whole value in quotes',
  ],
  [
    'a dash in front of a number',
    W,
    '  wheelbase: - 108 in',
    '16:14  a dash and a blank begin an entry of a list, which stands on a line of its own. Write a number below nothing without the blank: -1 in',
  ],
  [
    'a remark too close',
    'each: car } # with',
    'each: car }# with',
    '14:61  a remark begins with a blank and #. Put a blank in front of the #',
  ],
  [
    'a second case',
    '\ncar:',
    '\n---\ncar:',
    '13:1  a line of --- ends the case, and more follows. Take that line out',
  ],
  ['a fraction without quotes', '  reserve: 1/2 in', '  reserve: 3/8 in'],
  ['a mark of inches', 'title: Door', 'title: 40" Door'],
];

test('a slip is told once, in words for the one who made it, at its line, with what to write', () => {
  for (const [name, from, to, ...said] of rows) {
    expect(told(from, to), name).toEqual(said.map((line) => `case.yaml:${line}`));
  }
});

test('no damage to a case is told in the words of the library', () => {
  const library = /implicit|mapping|scalar|sequence|token|flow |indicator|document/i;
  fc.assert(
    fc.property(
      fc.nat(demo.length),
      fc.nat(6),
      fc.constantFrom('', ...'\t:{}[]"\',-#|>&*%?\n '),
      (at, cut, put) => {
        const text = demo.slice(0, at) + put + demo.slice(at + cut);
        const read = readCaseText('case.yaml', text);
        for (const { message } of read.ok ? [] : read.issues) expect(message).not.toMatch(library);
      },
    ),
    { numRuns: 400 },
  );
});
