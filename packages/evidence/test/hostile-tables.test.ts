import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  HAND_TABLES,
  noReadings,
  type Readings,
  type Rejected,
  readAsBuilt,
  readHandTable,
  readLog,
} from '../src/index.ts';
import { LOGGER, loggedText } from './synthetic.ts';

/** How many damaged texts are read of each kind; 100,000 in all were read once by hand. */
const RUNS = Number(process.env.TUBGAP_HOSTILE_RUNS ?? 150);

const context = {
  tyres: ['tall-slick', 'class-radial'].map((tyre) => ({ name: tyre, tyre })),
  tubs: ['street-42'],
  built: { tub: 'street-42', topHeight: 1, centreForward: undefined },
};

/** A sound file of every kind. */
const SOUND: Readonly<Record<string, string>> = {
  'rollout.csv':
    'date,tyre,pressure_psi,rollout_in,sd_in\n2026-03-07,tall-slick,6,105 7/8,0.1\n2026-03-08,tall-slick,7,106,\n',
  'tyre-mass.csv': 'tyre,mass_lb\ntall-slick,54.5\nclass-radial,41\n',
  'loaded-radius.csv': 'tyre,pressure_psi,load_lbf,loaded_radius_in\ntall-slick,6,820,15 3/4\n',
  'travel.csv': 'tyre,travel_in,runs\ntall-slick,2.25,4\n',
  'check-sheet.csv':
    'case,side,angle_deg,static_gap_in,limit_in,measured_in\ndemo,left,0,5.1,4.9,5 1/16\ndemo,right,15,6.1,5.9,\n',
  'check-hard-points.csv':
    'case,side,hard_point,static_gap_in,limit_in,measured_in\ndemo,left,cage bar,9.45,5,9 1/2\ndemo,right,cage bar,9.45,5,\n',
  'check-tub.csv':
    'side,top_least_in,top_measured_in,centre_least_in,centre_most_in,centre_measured_in\nleft,39.25,39 5/16,0,0.5,1/4\nright,39.25,,0,0.5,\n',
  'marks.csv':
    'tyre,angle_deg,mark,witness,runs,thickness_in\ntall-slick,35,touched,,3,0\ntall-slick,15,not touched,chalk,3,0.25\n',
  'as-built.csv': 'tub,top_height_in,centre_forward_in\nstreet-42,39 5/16,0.25\n',
};
const RUN_LOG = loggedText(1);

interface Answer {
  rejected: Rejected[];
  readings: Readings;
}

function readTable(file: string, text: string): Answer {
  const readings = noReadings();
  if (file === 'as-built.csv') return { ...readAsBuilt(text, ['street-42']), readings };
  if (file.startsWith('run-log')) return { rejected: readLog(file, text, LOGGER, 0.442, readings), readings };
  const table = HAND_TABLES.find((one) => one.file === file)!;
  return { rejected: readHandTable(table, text, context, readings), readings };
}

/** What every answer must be, whatever was read: clear words with a place, and numbers that are some. */
function checked(file: string, text: string): Answer {
  const answer = readTable(file, text);
  const lines = text.split('\n').length;
  for (const { file: named, line, column, reason } of answer.rejected) {
    expect(named).toBe(file);
    expect(Number.isInteger(line) && line >= 0 && line <= lines + 1, `line ${line} of ${lines}`).toBe(true);
    if (column !== undefined) expect(column).toBeGreaterThan(0);
    // What the file holds may be shown; what stands around it is the program's own.
    expect(reason.replace(/".*"/, '')).not.toMatch(/undefined|NaN|\[object|Infinity/);
    expect(reason).not.toMatch(/\p{Cc}/u);
    expect(reason.length).toBeLessThan(600);
  }
  // However much is wrong with a file, what is said of it stays short.
  expect(answer.rejected.length).toBeLessThan(450);
  const odd = JSON.stringify(answer.readings, (_, value) =>
    typeof value === 'number' && !Number.isFinite(value) ? 'odd number' : value,
  );
  expect(odd).not.toContain('odd number');
  return answer;
}

const NASTY = fc.oneof(
  fc.string({ maxLength: 4 }),
  fc.string({ unit: 'binary', maxLength: 3 }),
  fc.constantFrom(
    ...['NaN', 'Infinity', '-Infinity', '1e400', '-1e308', '5e-324', '0x10', '1_000', '1,5', '1/0', '0/0'],
    ...['"', '""', ',', ',,,,', ';', '\t', '\r', '\r\n', '\n\n', '#', '\0', '\ufeff', '\u202e', '\x1b[31m'],
    ...['constructor', '__proto__', 'toString', 'hasOwnProperty', '=1+1', '@SUM(A1)', '-2+3', '+1'],
    ...['9'.repeat(400), 'x'.repeat(5000), '\n'.repeat(300)],
  ),
);

type Cut = [at: number, length: number, put: string];

/** A few places of a text at which letters are cut out and others put in. */
const cutsOf = (text: string): fc.Arbitrary<Cut[]> =>
  fc.array(fc.tuple(fc.nat(text.length), fc.nat(12), NASTY), { minLength: 1, maxLength: 4 });
const damaged = (text: string, cuts: readonly Cut[]): string =>
  cuts.reduce((left, [at, length, put]) => left.slice(0, at) + put + left.slice(at + length), text);

describe('what a shop hands in', () => {
  it.each(Object.keys(SOUND))('%s damaged in any way is read or left out, in words with a place', (file) => {
    expect(checked(file, SOUND[file]!).rejected).toEqual([]);
    fc.assert(
      fc.property(cutsOf(SOUND[file]!), (cuts) => void checked(file, damaged(SOUND[file]!, cuts))),
      { numRuns: RUNS },
    );
  });

  it('a run log damaged in any way is read or left out, in words with a place', () => {
    expect(checked('run-log-1.csv', RUN_LOG).rejected).toEqual([]);
    fc.assert(
      fc.property(cutsOf(RUN_LOG), (cuts) => void checked('run-log-1.csv', damaged(RUN_LOG, cuts))),
      {
        numRuns: RUNS,
      },
    );
  });

  it('any cells under sound heads are read or left out', () => {
    const cell = fc.oneof(fc.double().map(String), fc.constantFrom('0', '-1', '6', 'tall-slick', ''), NASTY);
    const rows = (head: string) =>
      fc
        .array(fc.array(cell, { minLength: 1, maxLength: 6 }), { maxLength: 12 })
        .map((lines) => [head, ...lines.map((cells) => cells.join(','))].join('\n'));
    const one = fc
      .constantFrom(...Object.entries(SOUND))
      .chain(([file, text]) => rows(text.split('\n')[0]!).map((made) => [file, made] as const));
    fc.assert(
      fc.property(one, ([file, text]) => void checked(file, text)),
      { numRuns: RUNS },
    );
  });

  it('any log of 150 samples is binned or left out', () => {
    const sample = fc.tuple(
      fc.oneof(fc.double({ min: 0, max: 1, noNaN: true }), fc.constantFrom(0, 1e-9, 1e300, -1)),
      fc.oneof(fc.double({ min: -1e3, max: 1e3, noNaN: true }), fc.constantFrom(0, 1e308, -1e308, 5e-324)),
      fc.oneof(fc.double({ min: -1e4, max: 1e4, noNaN: true }), fc.constantFrom(0, 1e308, -1e308, 5e-324)),
      fc.oneof(fc.double({ min: -10, max: 110, noNaN: true }), fc.constantFrom(0, 1e308)),
    );
    const text = fc.array(sample, { minLength: 150, maxLength: 150 }).map((samples) => {
      let time = 0;
      const lines = samples.map(([step, ...rest]) => {
        time += step;
        return [time, ...rest].join(',');
      });
      return ['Time [s],GPS speed [mph],Driveshaft [rpm],Throttle [%]', ...lines].join('\n');
    });
    fc.assert(
      fc.property(text, (made) => void checked('run-log-1.csv', made)),
      { numRuns: RUNS },
    );
  });
});

/** The answer; one that takes a time which grows with the square of the text never comes. */
function answer(file: string, text: string): string {
  const { rejected } = checked(file, text);
  return rejected.map(({ line, column, reason }) => `${line}:${column ?? ''} ${reason}`).join('\n');
}

const ROWS = 'tyre,pressure_psi,rollout_in\n';
const HEADS = 'Time [s],GPS speed [mph],Driveshaft [rpm],Throttle [%]\n';
const samples = (n: number, time: (i: number) => number): string =>
  HEADS +
  Array.from({ length: n }, (_, i) => `${time(i)},${100 + (i % 7)},${4000 + (i % 11)},100`).join('\n');

describe('texts that mean harm', () => {
  it.each([
    ['nothing', '', /the file is empty; its first line names the columns: tyre, pressure_psi, rollout_in/],
    ['heads alone', ROWS, /^$/],
    ['blank lines and notes', '\n\n# a note\n  \n', /empty/],
    ['heads twice', 'tyre,pressure_psi,rollout_in,rollout_mm\n', /names rollout twice; keep one/],
    ['names of a prototype', `${ROWS.trim()},__proto__,constructor\ntall-slick,6,106,1,2\n`, /^$/],
    [
      'a tyre named after a prototype',
      `${ROWS}constructor,6,106\n`,
      /2: the case runs no tyre "constructor"/,
    ],
    [
      'a quote that is never closed',
      `${ROWS}"tall-slick,6,106\n`,
      /2:1 this quote is never closed. Close it/,
    ],
    [
      'a megabyte in a cell',
      `${ROWS}tall-slick,6,${'9'.repeat(900_000)}\n`,
      /2:14 rollout_in: "9{40}…" is no number/,
    ],
    [
      'more than a megabyte',
      `${ROWS}${'x'.repeat(2_000_000)}`,
      /has 2\d{6} letters; at most 1000000 are read/,
    ],
    [
      'a zero byte',
      `${ROWS}tall-slick,6,1\u000006\n`,
      /line 2 holds a zero byte: .* Save it again as CSV in UTF-8/,
    ],
    ['hundreds of thousands of columns', ','.repeat(900_000), /names 900001 columns; at most 200 are read/],
    [
      'infinities',
      `${ROWS}tall-slick,Infinity,106\ntall-slick,1e400,106\n`,
      /2:12 .*"Infinity".*\n3:12 .*"1e400"/,
    ],
    [
      'decimal commas',
      `${ROWS}tall-slick,6,105,9\n`,
      /2: this line has 4 cells, the first line names 3 columns/,
    ],
    [
      'decimal commas in quotes',
      `${ROWS}tall-slick,6,"105,9"\n`,
      /"105,9" is no number; .* with a point before decimals/,
    ],
    ['orders to a terminal', `${ROWS}\u001b[2Jx\u202e,6,106\n`, /no tyre "·\[2Jx·"/],
    [
      'faults without end',
      `${ROWS}${'tall-slick,x,106\n'.repeat(50_000)}`,
      /202: this and 49799 lines after it/,
    ],
  ])('a hand-made table of %s is answered', (_, text, told) => {
    expect(answer('rollout.csv', text)).toMatch(told);
  });

  it('a mark named after a prototype is no touch', () => {
    expect(answer('marks.csv', 'tyre,angle_deg,mark,runs\ntall-slick,35,constructor,3\n')).toMatch(
      /mark "constructor" is not known/,
    );
  });

  it('semicolons with decimal commas and tabs are read as commas are', () => {
    const plain = checked('rollout.csv', `${ROWS}tall-slick,6.5,105.9\n`).readings;
    expect(plain.rollouts).toHaveLength(1);
    for (const text of [
      'tyre;pressure_psi;rollout_in\ntall-slick;6,5;105,9\n',
      `\ufeff${ROWS}tall-slick,6.5,105.9\r\n`.replaceAll(',', '\t'),
    ]) {
      expect(checked('rollout.csv', text).readings).toEqual(plain);
    }
  });

  it.each([
    ['nothing', '', /no line names the columns/],
    ['heads alone', HEADS, /the log ends under its heads/],
    ['heads twice', `${HEADS.trim()},Throttle [%]\n1,2,3,4,5\n`, /line 1 names "Throttle \[%\]" twice/],
    ['a million columns', `${'1,'.repeat(1_000_000)}1\n`, /line 1 has 1000001 columns; at most 2000/],
    [
      'lines without end',
      samples(210_000, (i) => i / 1000),
      /more than 200000 lines of samples; cut it down/,
    ],
    ['as many lines as are read, at one speed', samples(150_000, (i) => i / 1000), /speeds of free rolling/],
    [
      'all samples in one moment',
      samples(150_000, (i) => i * 1e-9),
      /within 0\.24 s; check the unit of the time/,
    ],
    [
      'time that goes back',
      samples(5000, (i) => 5000 - i),
      /3: time: 4999 does not rise; .*\n[\s\S]*1 usable lines/,
    ],
    [
      'a million quotes that close',
      `${HEADS}${'"1"'.padEnd(9, ',"2"').repeat(300_000)}`,
      /columns; at most 2000/,
    ],
    [
      'a quote that is never closed',
      `${HEADS}"${'1,2,3,4\n'.repeat(400_000)}`,
      /2:1 this quote is never closed/,
    ],
    [
      'hundreds of thousands of bad lines',
      HEADS + 'a,b,c,d\n'.repeat(190_000),
      /"a" is no number[\s\S]*lines after it/,
    ],
  ])('a run log of %s is answered', (_, text, told) => {
    expect(answer('run-log-1.csv', text)).toMatch(told);
  });
});
