import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type Result, readResults } from '@tubgap/results';
import { alongText, figuresIn, INCH, oneIn, outOf, readLength, shownLength, sixteenths } from '@tubgap/units';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Row, readTable } from '../written-table.ts';
import { DEMO, tubgap } from './command.ts';

const CASE = 'demo/case.yaml';
const TUB = 'street-42';
const NAME = 'winged-door-car';

/** What a pick's report tries, and how a sweep or a place asks for the same. */
const TRIED = [
  { label: '1 psi more in the limiting tyre', path: 'tyres[0].coldPressure', value: '7 psi' },
  { label: '1/2 in less bump travel', path: 'suspension.bumpTravel', value: '1.4 in' },
  { label: 'tub 1/2 in further forward', path: 'tubCentreForward', value: '3/4 in' },
  { label: 'tub 1/2 in further back', path: 'tubCentreForward', value: '-1/4 in' },
  { label: '5 mph less at the finish', path: 'run.trapSpeed', value: '219 mph' },
] as const;

let folder: string;
let result: Result;
/** What each verb and paper says, without marks, borders and line ends. */
const said: Record<string, string> = {};

const flat = (text: string): string => text.replace(/[\s\u00a0│]+/g, ' ');
/** The words of a paper or drawing; a cell ends with a bar. */
const words = (markup: string): string =>
  flat(
    markup
      .replace(/<(style|script)\b.*?<\/\1>/gs, '')
      .replace(/<\/t[hd]>/g, ' | ')
      .replace(/<[^>]*>/g, ' '),
  );
const file = (...names: string[]): string => join(folder, 'results', ...names);
const table = (...names: string[]): Promise<Row[]> => readTable(file(...names));

/** The first match of a pattern where it must be: its groups. */
function found(where: string, pattern: RegExp): string[] {
  const match = pattern.exec(said[where]!);
  expect(match, `${where}: ${pattern}`).not.toBeNull();
  return match!.slice(1);
}

function run(name: string, ...asked: string[]): void {
  const { code, out, err } = tubgap(folder, ...asked);
  expect({ name, code, err: code === 0 ? '' : err }).toEqual({ name, code: 0, err: '' });
  said[name] = flat(out);
}

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'tubgap-same-'));
  cpSync(DEMO, join(folder, 'demo'), { recursive: true });
  const text = readFileSync(join(folder, CASE), 'utf8');
  writeFileSync(join(folder, CASE), text.replace('tubs: all', `tubs: [${TUB}]`));
  run('pick', 'pick', CASE);
  run('judge', 'judge', CASE);
  run('plan', 'plan', CASE);
  run('classes', 'compare', CASE);
  // One folder would take the other's place.
  run('setups', 'compare', CASE, '--set', 'suspension.bumpTravel=~1.4 in', '--results', 'results/setups');
  run('place', 'place', CASE);
  const varied = TRIED.flatMap(({ path, value }) => (value === '-1/4 in' ? [] : [{ path, value }]));
  const vary = varied.flatMap(({ path, value }) => [
    '--vary',
    `${path} = ${path === 'tubCentreForward' ? '-1/4 in, 3/4 in' : value}`,
  ]);
  run('sweep', 'sweep', CASE, '--mode', 'one-at-a-time', ...vary);
  result = readResults(file(NAME));
  for (const name of [
    'report.html',
    'build-sheet.html',
    'check-sheet.html',
    'decision.svg',
    'at-the-car.html',
    'READ-ME.txt',
  ])
    said[name] = words(readFileSync(file(NAME, name), 'utf8'));
  said['first-test.html'] = words(readFileSync(file(`${NAME}-first-test`, 'first-test.html'), 'utf8'));
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

const INCHES = String.raw`((?:\d+ )?\d+(?:\/\d+)? in)`;
const CHANCE = String.raw`(1 in \d+(?:,\d{3})*)`;
const least = () => result.picks[result.chosen!]!.height!;
const setOut = () => ({ ...result.asSetOut!, topHeight: result.tolerances!.setOut.topHeight });
const sweepRow = async (point: Partial<Row>, tyre = 'any'): Promise<Row> => {
  const rows = await table(`${NAME}-sweep`, 'sweep.csv');
  return rows.find((row) => row.tyre === tyre && Object.keys(point).every((key) => row[key] === point[key]))!;
};

describe('of the tub that is picked', () => {
  it('every paper, page and verb has the height that is set out, and the least one', async () => {
    const out = sixteenths(setOut().topHeight, 'up');
    for (const [where, before] of [
      ['pick', 'top set out at '],
      ['judge', 'tub, top '],
      ['plan', 'tub, top '],
      ['report.html', `Build ${TUB}, top at `],
      ['decision.svg', `Build ${TUB}, top at `],
      ['build-sheet.html', 'set out at '],
      ['check-sheet.html', 'top inside over track \\| '],
      ['check-sheet.html', 'Top of the tub '],
      ['at-the-car.html', 'Top '],
      ['first-test.html', 'tub, top '],
    ] as const)
      expect([where, ...found(where, RegExp(before + INCHES))]).toEqual([where, out]);
    const low = sixteenths(least().topHeight, 'up');
    for (const [where, pattern] of [
      ['pick', `top at least .*? ${TUB} 42 1/2 in ${INCHES}`],
      ['judge', `lowest height that is within is ${INCHES}`],
      ['build-sheet.html', `above the track; least ${INCHES}`],
      ['sweep', `As it stands top at least ${INCHES}`],
      ['setups', `the case as it stands: top at least ${INCHES}`],
      ['classes', `top at least ${INCHES}`],
    ] as const)
      expect([where, ...found(where, RegExp(pattern))]).toEqual([where, low]);
    const [picked] = await table(NAME, 'pick.csv');
    const [classes] = await table(`${NAME}-compare`, 'classes.csv');
    const swept = await sweepRow({ point: '0' });
    expect(swept.run_top_height_in).toBe(picked!.top_height_in);
    expect(classes!.top_height_in).toBe(picked!.top_height_in);
    expect(Number(picked!.set_out_in)).toBeCloseTo(setOut().topHeight / INCH, 4);
  });

  it('they have its risks, with the same rounding', async () => {
    const { runRisk, contactRisk, seasonRisk } = setOut();
    const runs = [oneIn(runRisk.estimate), oneIn(runRisk.high)];
    const contact = [oneIn(contactRisk.estimate), oneIn(contactRisk.high)];
    const season = [outOf(seasonRisk.estimate), oneIn(seasonRisk.high)];
    const surely = `surely no more often than ${CHANCE}`;
    const told = `about ${CHANCE} runs, ${surely}`;
    const close = 'comes closer than the 1/2 in to be kept';
    const cars = String.raw`1 car in ([\d,]+) like this`;
    const carsOften = `about ${cars}, and then often, ${surely}`;
    const atWorst = `.{0,60}? ${surely}`;
    for (const [where, pattern, expected] of [
      ['pick', `${close} in ${told}`, runs],
      ['judge', `${close} in ${told}`, runs],
      ['plan', `${close} in ${told}`, runs],
      ['first-test.html', `${close} in ${told}`, runs],
      ['report.html', `${CHANCE} runs ${close}${atWorst}`, runs],
      ['decision.svg', `${CHANCE} runs ${close}${atWorst}`, runs],
      ['build-sheet.html', `a run ${close} ${surely}`, runs.slice(1)],
      ['pick', `real contact: ${told}`, contact],
      ['judge', `real contact: ${told}`, contact],
      ['report.html', `${CHANCE} runs really touches${atWorst}`, contact],
      ['decision.svg', `${CHANCE} runs really touches${atWorst}`, contact],
      ['build-sheet.html', `really touches ${surely}`, contact.slice(1)],
      ['pick', carsOften, season],
      ['judge', carsOften, season],
      ['report.html', `${cars} gets too close in its season of${atWorst}`, season],
      ['decision.svg', `${cars} gets too close in its season of${atWorst}`, season],
      ['build-sheet.html', `a season has a run too close ${surely}`, season.slice(1)],
    ] as const)
      expect([where, ...found(where, RegExp(pattern))]).toEqual([where, ...expected]);
    const [picked] = await table(NAME, 'pick.csv');
    // What is accepted is held against each tyre by itself: the pick's risk is the limiting one's, that of any is its own row.
    const swept = await sweepRow({ point: '0' }, picked!.limiting_tyre);
    const any = await sweepRow({ point: '0' });
    expect(Number(any.run_risk)).toBeGreaterThanOrEqual(Number(swept.run_risk));
    expect(any.at_height_in).toBe(swept.at_height_in);
    const other = (await table('setups', `${NAME}-compare`, 'setups.csv')).find(
      (row) => row.setup === 'A' && row.tyre === picked!.limiting_tyre,
    )!;
    for (const row of [swept, other])
      expect([row.run_risk, row.run_risk_low, row.run_risk_high]).toEqual([
        picked!.run_risk,
        picked!.run_risk_low,
        picked!.run_risk_high,
      ]);
    const whole = (await table(`${NAME}-first-test`, 'first-test.csv')).at(-1)!;
    expect([whole.all_cars_run_risk, whole.all_cars_run_risk_high]).toEqual([
      picked!.set_out_run_risk,
      picked!.set_out_run_risk_high,
    ]);
    for (const row of await table(NAME, 'changes.csv')) expect(row.run_risk_before).toBe(picked!.run_risk);
    const leastRisk = oneIn(least().runRisk.estimate);
    expect(found('sweep', RegExp(`the case as it stands ${INCHES} ${CHANCE}`))[1]).toBe(leastRisk);
  });

  it('what would change it is what a sweep, a comparison and a search for a place find', async () => {
    const changes = await table(NAME, 'changes.csv');
    const swept = (await table(`${NAME}-sweep`, 'sweep.csv')).filter((row) => row.tyre === 'any');
    const columns = {
      'tyres[0].coldPressure': 'tyres_0_coldPressure_psi',
      'suspension.bumpTravel': 'suspension_bumpTravel_in',
      tubCentreForward: 'tubCentreForward_in',
      'run.trapSpeed': 'run_trapSpeed_mph',
    };
    const values = { '7 psi': 7, '1.4 in': 1.4, '3/4 in': 0.75, '-1/4 in': -0.25, '219 mph': 219 };
    for (const { label, path, value } of TRIED) {
      const change = changes.find((row) => row.change === label)!;
      const point = swept.find((row) => Number(row[columns[path]]) === values[value])!;
      expect([label, change.top_height_change_in, change.run_risk_after]).toEqual([
        label,
        point.height_change_in,
        point.run_risk,
      ]);
      const asked = found('report.html', RegExp(`${label} \\| ${INCHES} (more|less) height`));
      expect([label, asked.join(' ')]).toEqual([
        label,
        figuresIn('inch').changeText(Number(change.top_height_change_in) * INCH),
      ]);
    }
    // What a sweep and a comparison show of two heights side by side subtracts as it is shown.
    const metresOf = (text: string | undefined): number => readLength(text!)!;
    const away = (size: string | undefined, way: string | undefined): number =>
      size === undefined ? 0 : metresOf(size) * (way === 'more' ? 1 : -1);
    const stands = metresOf(found('sweep', RegExp(`As it stands top at least ${INCHES}`))[0]);
    for (const { value } of TRIED) {
      const [top, size, way] = found(
        'sweep',
        RegExp(`${value} ${INCHES} (?:${INCHES} (more|less)|the same)`),
      );
      expect([value, away(size, way)]).toEqual([value, expect.closeTo(metresOf(top) - stands, 9)]);
    }
    const [top, size, way] = found(
      'setups',
      RegExp(`top at least ${INCHES}; against A: (?:${INCHES} (more|less)|the same)`),
    );
    expect(away(size, way)).toBeCloseTo(metresOf(top) - stands, 9);
    const places = (await table(`${NAME}-place`, 'place.csv')).filter(({ tyre }) => tyre === 'any');
    const own = places.find((row) => row.place === 'as in the case')!;
    expect(own.even_height_in).toBe((await sweepRow({ point: '0' })).even_height_in);
    const { best } = result.bestPlaces[result.chosen!]!;
    expect(best!.by).not.toBe(0);
    const [centre, height] = [alongText(best!.centreForward, 'inch'), sixteenths(best!.topHeight, 'up')];
    expect(said.place).toContain(`centre ${centre}, top at least ${height}`);
    expect(said.pick).toContain(`(${centre}) ${height} would do`);
    const atBest = places.find((row) => row.place === 'best')!;
    expect(Number(atBest.centre_forward_in)).toBeCloseTo(best!.centreForward / INCH, 4);
    expect(Number(atBest.top_height_in)).toBeCloseTo(best!.topHeight / INCH, 4);
  });

  it('one run of the accepted risk leaves one gap, on papers and page', () => {
    const { accept, build, outlines } = result;
    const tyre = result.tyres.findIndex(({ name }) => name === least().limitingTyre);
    const [, rare] = outlines.pick!.shown[tyre]!;
    const left = sixteenths(rare!.gap, 'down');
    expect(rare!.gap).toBeGreaterThanOrEqual(build.reserve - 1e-9);
    const run = `the ${oneIn(accept.runRisk).replace('1 in', '1 run in')}`;
    for (const [where, pattern] of [
      ['decision.svg', `${run}: ${INCHES} left`],
      ['report.html', `${run}: ${INCHES} left`],
      ['report.html', `At its tightest, .*? ${run} leaves ${INCHES}`],
      ['report.html', `${run}: ${INCHES} at its tightest`],
      ['at-the-car.html', `${run}: ${INCHES} left`],
      ['at-the-car.html', `${run.replace('the', '[Tt]he')} leaves ${INCHES}`],
    ] as const)
      expect([where, ...found(where, RegExp(pattern))]).toEqual([where, left]);
    const drop = sixteenths(rare!.drop, 'up');
    for (const where of ['report.html', 'decision.svg', 'at-the-car.html'])
      expect([where, ...found(where, RegExp(`body down ${INCHES}`))]).toEqual([where, drop]);
    // No paper names a run of another risk in the tub.
    for (const where of ['decision.svg', 'build-sheet.html', 'check-sheet.html', 'at-the-car.html'])
      for (const [, n] of said[where]!.matchAll(/1 run in (\d[\d,]*\d)/g))
        expect([where, `1 in ${n}`]).toEqual([where, oneIn(accept.runRisk)]);
  });

  it('one moment has one name, and a length one value in inches and in millimetres', () => {
    const tight =
      result.pickGaps[result.tyres.findIndex(({ name }) => name === least().limitingTyre)]![result.chosen!]!
        .tightestMoment;
    for (const [where, pattern] of [
      ['pick', `Tight ${least().limitingTyre}, ([a-z ]+),`],
      ['judge', `Tight ${least().limitingTyre}, ([a-z ]+),`],
      [
        'report.html',
        `Tightest \\| ?${least().limitingTyre}, ([a-z ]+),|Tightest ${least().limitingTyre}, ([a-z ]+),`,
      ],
    ] as const)
      expect([where, found(where, RegExp(pattern)).find((name) => name !== undefined)]).toEqual([
        where,
        tight,
      ]);
    const moments = 'burnout|launch|gear change|middle|grip lost|finish|after the lift|parachute';
    expect(found('plan', RegExp(`tight [^,]*, (${moments}) `))).toHaveLength(1);
    const { axleHeight } = result.build;
    const axle = shownLength(axleHeight, 'nearest');
    for (const [where, text] of [
      ['report.html', axle.both],
      ['decision.svg', axle.both],
      ['check-sheet.html', axle.both],
      ['build-sheet.html', axle.both],
      ['at-the-car.html', axle.inch],
    ] as const)
      expect([where, ...found(where, RegExp(`axle (${text.replace(/[()]/g, '\\$&')})`))]).toEqual([
        where,
        text,
      ]);
    // Of every gap to see the sheet, the report and both drawings have one text.
    const gaps = result.tolerances!.rows[result.tolerances!.setOut.row]!.staticGaps;
    const straight = shownLength(
      gaps[result.tolerances!.angles.findIndex((angle) => Math.abs(angle) < 1e-6)]!,
      'up',
    );
    expect(said['check-sheet.html']).toContain(`straight up | ${straight.both} |`);
    for (const where of ['report.html', 'decision.svg', 'build-sheet.html', 'check-sheet.html'])
      expect([where, ...found(where, RegExp(`straight up ${INCHES} \\(?([\\d,]+ mm)`))]).toEqual([
        where,
        straight.inch,
        straight.mm,
      ]);
    // No decimals of an inch beside sixteenths in what is drawn or printed to build by.
    for (const where of ['pick', 'judge', 'plan', 'decision.svg', 'check-sheet.html'])
      expect([where, said[where]!.match(/\d\.\d+ in\b/)?.[0]]).toEqual([where, undefined]);
  });

  it('no paper has a length in two values, thousands that are not parted, a hyphen for a minus or a unit of no tool', () => {
    const papers = Object.keys(said).filter((name) => /\.(html|svg|txt)$/.test(name));
    expect(papers.length).toBeGreaterThan(6);
    const first = (where: string, pattern: RegExp): string | undefined => said[where]!.match(pattern)?.[0];
    for (const where of papers) {
      expect([where, first(where, /(?<![\d.,/])\d{4,} (?:mm|in|ft|lb|runs)\b/)]).toEqual([where, undefined]);
      expect([where, first(where, /[ (]-\d[^ ]* /)]).toEqual([where, undefined]);
      expect([where, first(where, /\d (?:K|m\/s|m2|degF)\b/)]).toEqual([where, undefined]);
      // Both are of one length rounded to one side: a sixteenth of an inch is 1.59 mm.
      for (const [both, inch, mm] of said[where]!.matchAll(RegExp(`${INCHES} \\(([\\d,.]+) mm\\)`, 'g')))
        expect([
          where,
          both,
          Math.abs(readLength(inch!)! * 1000 - Number(mm!.replaceAll(',', ''))) < 1.6,
        ]).toEqual([where, both, true]);
    }
  });

  it('its gaps to see, to tub and hard points, are those of the sheets', async () => {
    const sheet = (await table(NAME, 'check-sheet.csv')).filter((row) => row.side === 'left');
    const seen = sheet
      .filter((row) => Number(row.angle_deg) >= -30)
      .map((row) => sixteenths(Number(row.static_gap_in) * INCH, 'up'));
    const shown = said.pick!.slice(said.pick!.indexOf('90° ahead'));
    expect([...shown.matchAll(RegExp(INCHES, 'g'))].slice(0, seen.length).map(([one]) => one)).toEqual(seen);
    const points = await table(NAME, 'hard-points.csv');
    const checked = await table(NAME, 'check-hard-points.csv');
    const [, name, atRest, rare] =
      /Hard points (.*?) is the nearest: (.*?) to see standing still; the 1 run in 2,000 leaves (.*? in) \(/.exec(
        said.pick!,
      )!;
    const own = points.find((row) => row.hard_point === name && row.tyre === result.build.tyre)!;
    expect(checked.find((row) => row.hard_point === name)!.static_gap_in).toBe(own.static_gap_in);
    expect(atRest).toBe(sixteenths(Number(own.static_gap_in) * INCH, 'up'));
    expect(rare).toBe(sixteenths(Number(own.gap_accepted_risk_in) * INCH, 'down'));
    expect(said['report.html']).toContain(
      `${name} | ${own.tyre} | ${sixteenths(Number(own.gap_p50_in) * INCH, 'down')} | ${rare} |`,
    );
    expect(said['check-sheet.html']).toContain(atRest!);
  });
});
