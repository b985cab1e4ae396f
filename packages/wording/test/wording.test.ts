import { expect, test } from 'vitest';
import { ofRuns } from '../src/chance.ts';
import {
  csvText,
  existingBrief,
  inputNamed,
  inputWords,
  panelWords,
  riskWords,
  seasonWords,
  unbroken,
  type VerdictReport,
  verdictLines,
} from '../src/index.ts';

test('what hardly ever happens is told in words', () => {
  expect([ofRuns(0), ofRuns(3e-9), ofRuns(1 / 54)]).toEqual([
    'hardly any run',
    'hardly any run',
    '1 in 54 runs',
  ]);
});

test('a risk is told with its bound, and nothing seen by the number of events', () => {
  expect(riskWords({ events: 131_072, estimate: 0, high: 1 / 43_000 }, 'run')).toBe(
    'none of 131,072 simulated runs, surely no more often than 1 in 43,000',
  );
  expect(riskWords({ events: 4000, estimate: 1 / 1000, high: 1 / 277 }, 'season')).toBe(
    'about 1 in 1,000 seasons, surely no more often than 1 in 277',
  );
});

test('a season is told of cars where few come too close and these often, else of seasons', () => {
  const tyres = [{ name: 'slick', runsPerSeason: 60 }];
  const told = (run: number, season: number): string =>
    seasonWords(
      {
        limitingTyre: 'slick',
        runRisk: { estimate: run },
        seasonRisk: { events: 4000, estimate: season, high: 1.5 * season },
      },
      tyres,
    );
  expect(told(1 / 2000, 1 / 100)).toBe(
    'about 1 car in 100 like this, and then often, surely no more often than 1 in 66',
  );
  expect(told(1 / 6000, 1 / 100)).toBe('about 1 in 100 seasons, surely no more often than 1 in 66');
});

test('a verdict reads in the units of its reader alone, and what it must be raised by is the difference of what is shown', () => {
  const risk = { events: 1000, touches: 10, estimate: 0.01, low: 0.005, high: 0.02, weighted: false };
  const verdict = {
    tub: 'street-42',
    topHeight: 0.97795,
    centreForward: 0.00635,
    standing: 'not within',
    belowRest: false,
    lowestHeight: 0.9,
    accepted: { runRisk: 0.001, seasonRisk: 0.01 },
    runRisk: risk,
    contactRisk: risk,
    seasonRisk: risk,
    limitingTyre: 'slick',
    tyres: [],
    sides: [],
    heightNeeded: 0.99695,
    narrowRuns: 0,
    whyNoHeight: undefined,
    drawsNeeded: 0,
    carsNeeded: 0,
    roomMissing: [0.0124],
  } as unknown as VerdictReport['verdict'];
  const report = {
    verdict,
    move: { by: 0.0254, centreForward: 0.0254, topHeight: 0.99, roomMissing: [] },
    tight: { tightestMoment: 'launch', tightestAngle: 0.2, p50: 0.0306, p05: 0.0123 },
  } as unknown as VerdictReport;
  const tyres = [{ name: 'slick', runsPerSeason: 60 }];
  const told = (units: 'inch' | 'mm', narrowRuns = 0): string => {
    verdict.narrowRuns = narrowRuns;
    const subject = { reserve: 0.0127, tyres, units };
    const brief = existingBrief({ verdict, limits: [] }, subject, 'sheet');
    return [...verdictLines(report, subject).map(({ text }) => text), brief.standing, brief.rest].join('\n');
  };
  expect(told('mm')).not.toMatch(/\d in\b(?! \d)/);
  expect(told('inch')).not.toMatch(/mm/);
  // 977.95 down is 977, 996.95 up is 997.
  expect(told('mm').match(/raise it by 20 mm, to 997 mm \(the car lacks 13 mm/g)).toHaveLength(2);
  expect(told('inch')).toContain('raise it by 3/4 in, to 39 1/4 in');
  expect(told('mm')).toContain('closer than the 13 mm to be kept');
  // A tub that only clears with its ends above the tyre is one to exchange, not to raise.
  expect(told('inch', 0.02)).not.toMatch(/raise it by/);
  expect(told('inch', 0.02)).toMatch(
    /a larger tub, or another place for its centre, is what to look for first: in 1 in 50 runs .*shoulders, 3\/4 in higher, top 39 1\/4 in/,
  );
});

test('a cell that a spreadsheet would run stands as text, a number as it is', async () => {
  const text = await csvText({
    columns: [
      { name: 'name', unit: '', about: 'what it is' },
      { name: 'value', unit: '', about: 'how much' },
    ],
    rows: [
      ['=1+1', -3.5],
      ['@x', '-3.5'],
      ['-x', '+1'],
      ["-2+3+cmd|' /C calc'!A0", '\uff1d1+1'],
      ['-1 1/16 in', '-5 %'],
      ['a, "b"', ''],
    ],
  });
  expect(text).toBe(
    "name,value\n'=1+1,-3.5\n'@x,-3.5\n'-x,'+1\n\"'-2+3+cmd|' /C calc'!A0\",'\uff1d1+1\n-1 1/16 in,-5 %\n" +
      '"a, ""b""",\n',
  );
});

test('a figure stays with its unit, and a chance with its number, while words still break', () => {
  const open = (text: string): string[] => unbroken(text).split(' ');
  expect(open('top 39 1/4 in (997 mm), at most 1 in 2,000 runs at 224 mph')).toEqual([
    'top',
    '39\u00a01/4\u00a0in',
    '(997\u00a0mm),',
    'at',
    'most',
    '1\u00a0in\u00a02,000',
    'runs',
    'at',
    '224\u00a0mph',
  ]);
  expect(open('put 2 inside, cut at 39 in 3 places')).toHaveLength(8);
});

test('an input is told by what it is in a workshop, and can still be found in the case', () => {
  expect(inputWords('growth scale')).toBe('how much the tyre grows with speed');
  expect(inputNamed('growth scale')).toMatch(/ \(growth scale\)$/);
  expect([inputWords('wheel rate'), inputNamed('wheel rate')]).toEqual(['wheel rate', 'wheel rate']);
});

test('what a run leaves is no less than the reserve that is a part of it, in either units', () => {
  const title = (gap: number, units: 'inch' | 'mm'): string =>
    panelWords({
      accepted: 1 / 2000,
      reserve: 0.0127,
      tyre: 'slick',
      rare: { moment: 'finish', gap, drop: 0.06 },
      ray: { angle: 0, seen: 0.15, left: 0.02 },
      units,
    }).title.replace(/^.*2,000: /, '');
  expect([title(0.0129, 'inch'), title(0.0129, 'mm')]).toEqual([
    '1/2 in left, all of it reserve',
    '12 mm left, all of it reserve',
  ]);
  expect([title(0.0145, 'inch'), title(0.0145, 'mm')]).toEqual([
    '9/16 in left, 1/2 in of it reserve',
    '14 mm left, 13 mm of it reserve',
  ]);
  expect(title(-0.001, 'mm')).toBe('none left');
});
