import { mkdtempSync, readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseCase } from '@tubgap/casefile';
import { buildLoad, staticGaps } from '@tubgap/core';
import { type Result, readResults } from '@tubgap/results';
import { caseSetup } from '@tubgap/simulation';
import { oneIn, sixteenths } from '@tubgap/units';
import { beforeAll, describe, expect, inject, it } from 'vitest';
import { DEMO, ROOT, tubgap } from '../end-to-end/command.ts';
import { type Row, tableRows } from '../written-table.ts';
import { inchesOf, nameHostile, paper, tableCells, withResult } from './paper-folder.ts';

const INCH = 0.0254;
const demo = inject('demo');
const result = readResults(demo);
const t = result.chosen!;
const tub = result.tubs[t]!;
const height = result.picks[t]!.height!;
const rows = result.tolerances!.rows;
const setOutRow = rows.find((row) =>
  [row.lower, row.ahead, row.back, row.gapLess].every((much) => much >= INCH / 16 - 1e-9),
)!;
const setOut = height.topHeight + setOutRow.higher;

/** Static gaps by the core itself, not by way of the result: the demo's case read anew. */
function coreGaps(topHeight: number, degrees: readonly number[]): number[] {
  const file = `${DEMO}/case.yaml`;
  const load = (name: string): string => readFileSync(`${DEMO}/${name}`, 'utf8');
  const read = parseCase({ file, text: readFileSync(file, 'utf8'), load });
  if (!read.ok) throw new Error('the demo case cannot be read');
  const setup = caseSetup(read.value);
  const build = setup.tyres[setup.buildIndex]!;
  return staticGaps(
    build.centralTyre,
    build.setup,
    setup.buildPressure,
    buildLoad(build.centralCar),
    setup.clearance.tubs[t]!,
    topHeight - setup.centralAxleHeight,
    degrees.map((angle) => (angle * Math.PI) / 180),
  );
}

describe('the check sheet', () => {
  let blanks: Row[];
  beforeAll(async () => {
    blanks = await tableRows(paper(demo, 'check-sheet.csv'));
  });

  it('asks for every gap on both sides, with units in its header and blanks for the measures', () => {
    expect(Object.keys(blanks[0]!)).toEqual([
      'case',
      'side',
      'angle_deg',
      'static_gap_in',
      'limit_in',
      'measured_in',
    ]);
    expect(blanks.every((row) => row.measured_in === '')).toBe(true);
    for (const side of ['left', 'right']) {
      const angles = blanks.filter((row) => row.side === side).map((row) => Number(row.angle_deg));
      expect(angles.slice(-9)).toEqual([-30, -15, 0, 15, 30, 45, 60, 75, 90]);
      expect([9, 13]).toContain(angles.length);
    }
  });

  it('shows the gaps that the core finds at the height that is set out', () => {
    const own = blanks.filter((row) => row.side === 'left');
    const core = coreGaps(
      setOut,
      own.map((row) => Number(row.angle_deg)),
    );
    own.forEach((row, k) => {
      expect(Number(row.static_gap_in)).toBeCloseTo(core[k]! / INCH, 3);
    });
  });

  it('passes no gap that the accepted risk does not allow: limits go up, on the tape and in mm', () => {
    const shown = tableCells(paper(demo, 'check-sheet.html'), 'Gap standing still');
    const own = blanks.filter((row) => row.side === 'left');
    expect(shown).toHaveLength(own.length);
    own.forEach((row, k) => {
      const limit = Number(row.static_gap_in) - setOutRow.gapLess / INCH;
      expect(Number(row.limit_in)).toBeGreaterThanOrEqual(limit - 1e-4);
      expect(Number(row.limit_in)).toBeLessThanOrEqual(limit + 2e-4);
      const [, , passes] = shown[k]!;
      const onTape = inchesOf(passes!.split(' (')[0]!);
      expect(onTape).toBeGreaterThanOrEqual(limit - 1e-4);
      expect(onTape).toBeLessThan(limit + 1 / 16 + 1e-4);
      const mm = Number(/\(([\d.]+) mm\)/.exec(passes!)![1]);
      expect(mm).toBeGreaterThanOrEqual(limit * 25.4 - 0.005);
      expect(mm).toBeLessThan(limit * 25.4 + 0.105);
    });
  });

  it('passes a top no lower than what the pick may lose', () => {
    const [top] = tableCells(paper(demo, 'check-sheet.html'), 'own place');
    expect(inchesOf(top![1]!.split(' (')[0]!)).toBeCloseTo(setOut / INCH, 6);
    const lowest = inchesOf(top![2]!.replace(' and over', ''));
    expect(lowest).toBeCloseTo((setOut - setOutRow.lower) / INCH, 6);
    expect(lowest).toBeGreaterThanOrEqual((height.topHeight - rows[0]!.lower) / INCH - 1e-6);
  });

  it('gives blanks for top and centre, left and right, with the limits that it prints', async () => {
    const own = await tableRows(paper(demo, 'check-tub.csv'));
    expect(own.map(({ side }) => side)).toEqual(['left', 'right']);
    for (const row of own) {
      expect([row.top_measured_in, row.centre_measured_in]).toEqual(['', '']);
      expect(Number(row.top_least_in)).toBeCloseTo((setOut - setOutRow.lower) / INCH, 3);
      const middle = tub.centreForward / INCH;
      expect(Number(row.centre_least_in)).toBeCloseTo(middle - setOutRow.back / INCH, 3);
      expect(Number(row.centre_most_in)).toBeCloseTo(middle + setOutRow.ahead / INCH, 3);
    }
  });
});

/** Side view of a tub's middle skin or inside as straight pieces, m: leg, arc, leg. */
function sidePoints(radius: number): [number, number][] {
  const steps = 20_000;
  const arc = Array.from({ length: steps + 1 }, (_, k): [number, number] => {
    const angle = tub.halfExtent * ((2 * k) / steps - 1);
    return [radius * Math.sin(angle), radius * Math.cos(angle)];
  });
  const [sin, cos] = [Math.sin(tub.halfExtent), Math.cos(tub.halfExtent)];
  const end = (side: number): [number, number] => [
    side * (radius * sin + tub.legLength * cos),
    radius * cos - tub.legLength * sin,
  ];
  return [end(-1), ...arc, end(1)];
}

describe('the build sheet', () => {
  const html = paper(demo, 'build-sheet.html');

  // Derived: lengths and areas of the tub's side view summed over 20,000 straight pieces.
  // One end panel towards the car's middle and a return of 1 in round the open side, where the wheel goes in.
  it('cuts enough material and says its weight no smaller than it is', () => {
    const cells = tableCells(html, 'Skin 0.');
    const middle = sidePoints(0.5 * tub.diameter + 0.5 * tub.skinThickness);
    const length = middle
      .slice(1)
      .reduce((sum, [x, z], k) => sum + Math.hypot(x - middle[k]![0], z - middle[k]![1]), 0);
    const inside = sidePoints(0.5 * tub.diameter);
    const area =
      0.5 *
      Math.abs(
        inside.reduce((sum, [x, z], k) => {
          const [nextX, nextZ] = inside[(k + 1) % inside.length]!;
          return sum + x * nextZ - nextX * z;
        }, 0),
      );
    expect(cells).toHaveLength(5);
    const size = cells[0]![2]!;
    const finished = inchesOf(size.split(' × ')[0]!);
    expect(finished).toBeGreaterThanOrEqual(length / INCH - 1e-5);
    expect(finished).toBeLessThan(length / INCH + 1 / 16 + 1e-5);
    expect(inchesOf(/cut (.*? in) long/.exec(size)![1]!)).toBeGreaterThanOrEqual(length / INCH + 1 - 1e-5);
    const squareFeet = Number(/([\d.]+) sq ft/.exec(cells[1]![3]!)![1]);
    expect(squareFeet).toBeGreaterThanOrEqual(area / 0.3048 ** 2 - 1e-6);
    expect(squareFeet).toBeLessThan(area / 0.3048 ** 2 + 0.1);
    const pounds = Number(/([\d.]+) lb/.exec(cells[4]![4]!)![1]);
    const joint = inside
      .slice(1)
      .reduce((sum, [x, z], k) => sum + Math.hypot(x - inside[k]![0], z - inside[k]![1]), 0);
    const mass = tub.arealDensity * (length * tub.insideWidth + area + INCH * joint);
    expect(pounds).toBeGreaterThanOrEqual(mass / 0.45359237 - 1e-6);
    expect(pounds).toBeLessThan(mass / 0.45359237 + 0.1);
  });

  it('sets out a height that leaves the pick as the least, and marks its row', () => {
    const cells = tableCells(html, 'May come out otherwise');
    expect(inchesOf(cells[0]![0]!)).toBeCloseTo(height.topHeight / INCH, 6);
    expect(html).toMatch(
      new RegExp(
        `set out at<b>${cells.find((row) => inchesOf(row[0]!) * INCH > setOut - 1e-9)![0]}`.replaceAll(
          ' ',
          '[ \u00a0]',
        ),
      ),
    );
    const least = (setOut - setOutRow.lower) / INCH;
    expect(inchesOf(/never under ([^.<;]* ?in)/.exec(html.replaceAll('\u00a0', ' '))![1]!)).toBeCloseTo(
      least,
      6,
    );
  });

  it('says that both sides are alike, and the cautions beside the numbers', () => {
    expect(html).toMatch(/Both sides alike/);
    expect(html).toMatch(/can kill.*sanctioning body.*tyre maker.*chassis builder/s);
    expect(html).toMatch(/invented/);
  });
});

describe('the limits of the car', () => {
  // Derived by hand from the catalogue: half the diameter and the skin, about a centre ahead of the axle.
  const reach = 0.5 * tub.diameter + tub.skinThickness;
  const top = height.topHeight + tub.liner + tub.skinThickness;
  const limits = (less: number) => (changed: Result) => {
    changed.envelope = {
      highestTop: top - less,
      furthestAhead: reach + tub.centreForward,
      furthestBehind: reach - tub.centreForward,
    };
    // What was found elsewhere was found on another car.
    changed.bestPlaces = changed.bestPlaces.map(() => null);
  };

  it('hold a tub that just fits, and miss by what it is too high', async () => {
    expect(tub.halfExtent).toBeCloseTo(Math.PI / 2, 9);
    const fitting = withResult(demo, limits(0));
    const own = (await tableRows(paper(fitting, 'envelope.csv')))[t]!;
    expect(own).toMatchObject({ fits_car: 'yes', fits_tyre: 'yes', fits_both: 'yes', to_change: '' });
    expect(paper(fitting, 'build-sheet.html')).not.toMatch(/Do not build/);

    const low = withResult(demo, limits(0.3 * INCH));
    const short = (await tableRows(paper(low, 'envelope.csv')))[t]!;
    expect(short.fits_both).toBe('no');
    expect(Number(short.room_above_in)).toBeCloseTo(-0.3, 4);
    expect(short.to_change).toMatch(/^5\/16 in more room under the window or body( \(or .*\))?$/);
    expect(paper(low, 'build-sheet.html')).toMatch(/Do not build this yet/);
  });

  it('list the way of least pain first: fewest things to move, then least', async () => {
    const page = paper(withResult(demo, limits(0.3 * INCH)), 'build-sheet.html');
    const ways = [...page.matchAll(/<li><b>([^<]*)<\/b>, top/g)].map((match) => match[1]);
    expect(ways[0]).toBe(tub.name);
    expect(ways.length).toBeGreaterThan(1);
  });
});

describe('a tub that the shop sets out higher than it must be', () => {
  // Once the sheets alone reckoned it: the build sheet said one height, the decision and the report the other.
  const higher = (changed: Result): void => {
    const { tolerances } = changed;
    tolerances!.rows[1]!.higher = INCH / 8;
    tolerances!.rows[1]!.staticGaps = tolerances!.rows[0]!.staticGaps.map((gap) => gap + INCH / 8);
    tolerances!.setOut = {
      row: 1,
      topHeight: height.topHeight + INCH / 8,
      passes: height.topHeight + INCH / 16,
    };
    const halved = ({ ...risk }: Result['risks'][number][number][number]) => ({
      ...risk,
      estimate: risk.estimate / 2,
      low: risk.low / 2,
      high: risk.high / 2,
    });
    const { limitingTyre, runRisk, contactRisk, seasonRisk } = height;
    changed.asSetOut = {
      limitingTyre,
      runRisk: halved(runRisk),
      contactRisk: halved(contactRisk),
      seasonRisk: halved(seasonRisk),
    };
  };
  const folder = withResult(demo, higher);
  const tape = (metres: number): string => sixteenths(metres, 'up');
  const [least, out] = [tape(height.topHeight), tape(height.topHeight + INCH / 8)];
  const plain = (text: string): string =>
    text
      .replace(/<[^>]*>/g, '')
      .replaceAll('\u00a0', ' ')
      .replace(/\s+/g, ' ');

  it('is named with that height and with the least one in the decision and on every paper', () => {
    const decision = plain(tubgap(ROOT, 'report', folder).out);
    expect(decision).toContain(`top set out at ${out} above the track`);
    expect(decision).toContain(`top ${least} at the least`);
    for (const file of [
      'report.html',
      'build-sheet.html',
      'decision.svg',
      `template-${result.tyres[0]!.name}.dxf`,
    ]) {
      const text = plain(paper(folder, file));
      expect(text, file).toContain(out);
      expect(text, file).toContain(least);
    }
    expect(plain(paper(folder, 'report.html'))).toContain(`top at ${out}`);
    expect(plain(paper(folder, 'build-sheet.html'))).toContain(`set out at${out}`);
    expect(plain(paper(folder, 'check-sheet.html'))).toContain(out);
    const year = plain(tubgap(ROOT, 'year', folder, '--to', mkdtempSync(join(tmpdir(), 'tubgap-year-'))).out);
    expect(year).toContain(out);
    expect(year).toContain(least);
  });

  it('gives each risk beside the height that it is the risk of', async () => {
    const decision = plain(tubgap(ROOT, 'report', folder).out);
    const [high, there] = [height.runRisk.high, height.runRisk.high / 2].map(oneIn);
    expect(decision).toMatch(
      new RegExp(
        `Risk, a run at ${out}: comes closer than the 1/2 in to be kept in .* surely no more often than ${there} `,
      ),
    );
    expect(decision).toMatch(
      new RegExp(
        `at the least ${least}: comes closer than the 1/2 in to be kept in .* surely no more often than ${high};`,
      ),
    );
    const report = plain(paper(folder, 'report.html'));
    expect(report).toMatch(new RegExp(`Too close.{0,120}surely no more often than ${there} \\(accepted`));
    expect(report).toContain(`At least${least}: surely no more often than ${high} runs too close`);
    const build = plain(paper(folder, 'build-sheet.html'));
    expect(build).toContain(
      `Risk at ${out}, and in brackets at ${least}: a run comes closer than the 1/2 in to be kept surely no more often than ${there} (${high}), accepted`,
    );
    const [row] = (await tableRows(paper(folder, 'pick.csv'))).filter(({ set_out_in }) => set_out_in !== '');
    expect(Number(row!.set_out_run_risk_high)).toBeCloseTo(height.runRisk.high / 2, 8);
    expect(Number(row!.run_risk_high)).toBeCloseTo(height.runRisk.high, 8);
  });

  it('shows the gaps to see at that height, and all of them alike', async () => {
    const top = result.build.staticGapAngles.findIndex((angle) => Math.abs(angle) < 1e-9);
    const gap = tape(height.staticGaps[top]! + INCH / 8);
    const decision = plain(tubgap(ROOT, 'report', folder).out);
    expect(decision).toContain(`Gap to see standing still with the top at ${out}`);
    expect(decision.slice(decision.indexOf('Gap to see standing'))).toContain(gap);
    expect(plain(paper(folder, 'report.html'))).toContain(`straight up ${gap}`);
    const blanks = await tableRows(paper(folder, 'check-sheet.csv'));
    const straight = blanks.find((row) => Number(row.angle_deg) === 0)!;
    expect(tape(Number(straight.static_gap_in) * INCH)).toBe(gap);
  });
});

describe('a centre that may come out further ahead than back', () => {
  // Set far apart, so that no other length on the sheets can stand for either.
  const [ahead, back] = [(7 * INCH) / 16, (3 * INCH) / 16];
  const folder = withResult(demo, ({ tolerances }) => {
    for (const row of tolerances!.rows) Object.assign(row, { ahead, back });
  });

  it('is told so, each its own way, in the table, in the sentence and in the limits', async () => {
    for (const row of tableCells(paper(folder, 'build-sheet.html'), 'May come out otherwise')) {
      expect(row.slice(2, 4)).toEqual(['7/16 in', '3/16 in']);
    }
    const html = paper(folder, 'build-sheet.html');
    const heads = html.slice(html.indexOf('May come out otherwise'));
    expect(heads).toMatch(/centre ahead by[\s\S]*centre back by[\s\S]*7\/16/);
    expect(paper(folder, 'check-sheet.html').replaceAll('\u00a0', ' ')).toContain(
      'ahead by 7/16 in, back by 3/16 in',
    );
    for (const row of await tableRows(paper(folder, 'check-tub.csv'))) {
      expect(Number(row.centre_most_in)).toBeCloseTo((tub.centreForward + ahead) / INCH, 3);
      expect(Number(row.centre_least_in)).toBeCloseTo((tub.centreForward - back) / INCH, 3);
    }
  });
});

describe('hostile names', () => {
  it('stay text in every paper', () => {
    const folder = withResult(demo, nameHostile);
    for (const file of ['build-sheet.html', 'check-sheet.html', 'report.html']) {
      const html = paper(folder, file);
      expect(html, file).not.toMatch(/<script>alert|<img src=x/);
      expect(html, file).toMatch(/&lt;script&gt;/);
    }
  });
});
