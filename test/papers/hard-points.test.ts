import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { type Result, readResults } from '@tubgap/results';
import { describe, expect, inject, it } from 'vitest';
import { ROOT, tubgap } from '../end-to-end/command.ts';
import { changedResult, inchesOf, paper, tableCells, withResult } from './paper-folder.ts';

const INCH = 0.0254;
const demo = inject('demo');
const result = readResults(demo);
const build = result.tyres.findIndex((tyre) => tyre.name === result.build.tyre);

/** The decision of a changed result as the terminal shows it, on one line. */
function said(change: (result: Result) => void): string {
  const done = tubgap(ROOT, 'report', changedResult(demo, change));
  expect(done.err).toBe('');
  expect(done.code).toBe(0);
  return done.out.replace(/\s+/g, ' ');
}

/** Lets the second hard point alone make 45 % of the slick's touches at the pick. */
function crowd(changed: Result): void {
  Object.assign(changed.hardPointFigures[1]![build]!, {
    atPick: { alone: 0.45, together: 0.15 },
    moveBy: 0.3 * INCH,
  });
}

describe('a hard point in the decision', () => {
  it('that decides is named with what to do, and that raising the tub does not help', () => {
    const words = said(crowd);
    const name = result.hardPoints[1]!.name;
    expect(words).toContain(`${name} alone makes 45 % of what comes too close`);
    expect(words).toContain('Raising the tub does not help');
    expect(words).toContain(`move ${name} at least 5/16 in away`);
    const page = paper(withResult(demo, crowd), 'report.html').replaceAll('\u00a0', ' ');
    expect(page).toContain('Raising the tub does not help');
  });

  it('that only shares what the tub makes anyway does not decide', () => {
    const words = said((changed) => {
      crowd(changed);
      changed.hardPointFigures[1]![build]!.atPick = { alone: 0.01, together: 0.6 };
    });
    expect(words).not.toContain('Raising the tub');
  });

  it('that nobody comes near is told with its gap and with the bound that no touch gives', () => {
    const words = said(() => {});
    const nearest = result.hardPointFigures
      .map((tyres, h) => ({ h, least: Math.min(...tyres.map((row) => row.rare!)) }))
      .sort((a, b) => a.least - b.least)[0]!;
    expect(words).toContain(`${result.hardPoints[nearest.h]!.name} is the nearest`);
    expect(words).toMatch(
      /none of [\d,]+ simulated runs comes too close there, surely no more often than 1 in [\d,]+/,
    );
    expect(words).not.toContain('Raising the tub');
  });
});

describe('the place of a hard point on the papers', () => {
  it('is measured with the build tyre, and passes down to what the strictest tyre allows', () => {
    const cells = tableCells(paper(demo, 'check-sheet.html'), 'Hard points: the shortest way');
    expect(cells).toHaveLength(result.hardPoints.length);
    result.hardPoints.forEach(({ name }, h) => {
      const row = cells.find(([first]) => first!.startsWith(name))!;
      const figures = result.hardPointFigures[h]!;
      const limit = figures[build]!.atRest - Math.min(...figures.map(({ spare }) => spare ?? 0));
      expect(inchesOf(row[1]!.split(' (')[0]!)).toBeCloseTo(
        Math.ceil((figures[build]!.atRest / INCH) * 16) / 16,
        6,
      );
      const passes = inchesOf(row[2]!.split(' (')[0]!);
      expect(passes).toBeGreaterThanOrEqual(limit / INCH - 1e-6);
      expect(passes).toBeLessThan(limit / INCH + 1 / 16);
      expect(row[3]).toBe('');
    });
    const blanks = paper(demo, 'check-hard-points.csv').trim().split('\n');
    expect(blanks[0]).toBe('case,side,hard_point,static_gap_in,limit_in,measured_in');
    expect(blanks).toHaveLength(1 + 2 * result.hardPoints.length);
  });

  it('leaves nothing to chance that is not known: without a spare the gap to see is the limit', () => {
    const strict = withResult(demo, (changed) => {
      for (const row of changed.hardPointFigures.flat()) row.spare = null;
    });
    for (const [, see, passes] of tableCells(
      paper(strict, 'check-sheet.html'),
      'Hard points: the shortest way',
    ))
      expect(inchesOf(passes!.split(' (')[0]!)).toBe(inchesOf(see!.split(' (')[0]!));
  });

  it('is missing where the case has none', () => {
    const bare = withResult(demo, (changed) => {
      changed.hardPoints = [];
      changed.hardPointFigures = [];
      for (const tally of [...changed.runs.tyres, changed.runs.all, changed.seasons]) tally.hardTouches = [];
    });
    expect(paper(bare, 'check-sheet.html')).not.toMatch(/Hard points: the shortest|gaps to hard points/);
    expect(paper(demo, 'check-sheet.html')).toMatch(/gaps to hard points only pass or fail the car/);
    expect(paper(bare, 'report.html')).not.toMatch(/id="hard-points"/);
    expect(existsSync(join(bare, 'check-hard-points.csv'))).toBe(false);
    expect(paper(bare, 'hard-points.csv').trim().split('\n')).toHaveLength(1);
  });
});

describe('a car without room for any tub that the tyres fit', () => {
  const top = Math.max(...result.picks.flatMap(({ height }) => height?.topHeight ?? []));
  const least = Math.min(...result.picks.flatMap(({ height }) => height?.topHeight ?? []));
  const short = (changed: Result): void => {
    changed.envelope = { highestTop: least - INCH };
    changed.nearest = changed.picks.findIndex(({ height }) => height?.topHeight === least);
    changed.chosen = null;
    changed.bestPlaces = changed.bestPlaces.map(() => null);
    changed.tolerances = null;
    changed.asSetOut = null;
    changed.outlines.pick = null;
  };

  it('is told what would have to change and by how much, the least first', () => {
    const words = said(short);
    expect(words).toContain('no tub fits both the car and the tyres');
    const ways = [...words.matchAll(/(?:Change|or) (\S+), top [^:]*: ([^;]*? in) more room under/g)];
    expect(ways).toHaveLength(3);
    const amounts = ways.map((way) => inchesOf(way[2]!));
    expect(amounts).toEqual(amounts.toSorted((a, b) => a - b));
    expect(amounts[0]).toBeGreaterThanOrEqual(1);
    expect(amounts[0]).toBeLessThan(1 + (top - least) / INCH + 0.5);
    expect(words).toContain('fits the tyres, not the car');
    const page = paper(withResult(demo, short), 'report.html');
    expect(page).toMatch(/No tub fits both the car and the tyres/);
    expect(page).not.toMatch(/None of these tubs keeps the risk/);
    const sheet = paper(withResult(demo, short), 'build-sheet.html');
    expect(sheet).toMatch(/No tub fits both the car and the tyres/);
  });
});

describe('tubs whose sides are in the way', () => {
  const narrow = (changed: Result): void => {
    changed.chosen = null;
    changed.bestPlaces = changed.bestPlaces.map(() => null);
    changed.tolerances = null;
    changed.asSetOut = null;
    changed.outlines.pick = null;
    for (const tally of changed.runs.all.tubs) tally.legTouches = changed.runs.all.events;
    for (const pick of changed.picks) {
      Object.assign(pick, { verdict: 'does not fit', reason: 'no height helps' });
      delete pick.height;
    }
    changed.shares = changed.shares.map(() => []);
    changed.pickGaps = changed.pickGaps.map((tubs) => tubs.map(() => null));
  };

  it('are told the room that the widest tyre takes between them, its reserve on both sides', () => {
    // Derived: the widest tyre's largest radius bounds it from below and above, the reserve on either side.
    const radii = result.outlines.tyres.flatMap(({ quantiles }) => quantiles.at(-1)!);
    const needed = inchesOf(/takes about (.*? in) between/.exec(said(narrow))![1]!);
    expect(needed * INCH).toBeLessThan(2 * (Math.max(...radii) + result.build.reserve) + INCH / 16);
    expect(needed * INCH).toBeGreaterThan(2 * (Math.min(...radii) + result.build.reserve));
    expect(said(narrow)).toContain('enough if its centre stood elsewhere');
    const small = (changed: Result): void => {
      narrow(changed);
      for (const tub of changed.tubs) tub.radius = 0.4;
    };
    expect(said(small)).not.toContain('elsewhere');
  });
});
