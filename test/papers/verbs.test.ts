import { mkdirSync, mkdtempSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { readResults, STUDY_FILE } from '@tubgap/results';
import { describe, expect, inject, it } from 'vitest';
import { tubgap } from '../end-to-end/command.ts';
import { changedResult, inchesOf } from './paper-folder.ts';

const INCH = 0.0254;
const demo = inject('demo');
const here = mkdtempSync(join(tmpdir(), 'tubgap-verbs-'));

/** As a run of the changed case would leave it: two inputs moved, every height 5/16 in less, one tub without any. */
const faster = changedResult(demo, (result) => {
  const speed = result.inputs.find(({ path }) => path === 'run.trapSpeed')!;
  speed.middle += 10 * 0.44704;
  speed.shown = speed.shown.replace('224 mph', '234 mph');
  const travel = result.inputs.find(({ path }) => path === 'suspension.bumpTravel')!;
  travel.middle -= 0.5 * INCH;
  travel.shown = travel.shown.replace('1.9 in', '1.4 in');
  for (const pick of result.picks) if (pick.height) pick.height.topHeight -= 0.3125 * INCH;
  delete result.picks.at(-1)!.height;
});

describe('tubgap revision', () => {
  const done = tubgap(here, 'revision', demo, faster);

  it('names what changed, by how much, and what that asks for', () => {
    expect(done.err).toBe('');
    expect(done.code).toBe(0);
    const said = done.out.replace(/\s+/g, ' ');
    expect(said).toMatch(/free bump travel to the stop 1\/2 in less, speed at the finish \+10 mph: /);
    expect(said).toMatch(/normal, mean 234 mph.*; was normal, mean 224 mph/);
    expect(said.match(/; was /g)).toHaveLength(2);
  });

  it('gives for each tub the difference of the two picks', () => {
    const [before, after] = [readResults(demo), readResults(faster)];
    let compared = 0;
    for (const [t, pick] of after.picks.entries()) {
      const [old, now] = [before.picks[t]!.height?.topHeight, pick.height?.topHeight];
      if (old === undefined || now === undefined) continue;
      const line = done.out.split('\n').find((text) => text.startsWith(`  ${pick.tub}: `))!;
      const much = /needs (.* in) (more|less)/.exec(line);
      const said = much === null ? 0 : inchesOf(much[1]!) * (much[2] === 'more' ? 1 : -1);
      expect(said, line).toBeCloseTo((now - old) / INCH, 6);
      compared++;
    }
    expect(compared).toBeGreaterThan(2);
    expect(done.out).toMatch(new RegExp(`${after.picks.at(-1)!.tub}: .* in, now none`));
  });

  it('finds nothing between a result and itself', () => {
    const same = tubgap(here, 'revision', demo, demo);
    expect(same.out.replace(/\s+/g, ' ')).toMatch(/Nothing of the case changed: needs the same height\./);
    expect(same.out).not.toMatch(/; was /);
  });

  it('warns of a tub that was built to the old result and asks for more now', () => {
    const higher = changedResult(demo, (result) => {
      result.picks[result.chosen!]!.height!.topHeight += 0.5 * INCH;
    });
    expect(tubgap(here, 'revision', demo, higher).out).toMatch(/needs 1\/2 in more.*do not run it so/s);
    expect(tubgap(here, 'revision', higher, demo).out).toMatch(/needs 1\/2 in less.*stays within/s);
  });
});

describe('tubgap year', () => {
  it('lists every car, and bounds the chance of one of them by the sum of their bounds', () => {
    const done = tubgap(here, 'year', demo, faster, '--to', here);
    expect(done.err).toBe('');
    expect(done.code).toBe(0);
    const lines = readFileSync(join(here, 'shop-year.csv'), 'utf8').trimEnd().split('\n');
    expect(lines).toHaveLength(3);
    const risks = [demo, faster].map((folder) => {
      const result = readResults(folder);
      return result.picks[result.chosen!]!.height!.seasonRisk.high;
    });
    const most = Number(/surely no more often than 1 in (\d+)/.exec(done.out.replace(/\s+/g, ' '))![1]);
    const sum = risks.reduce((total, risk) => total + risk, 0);
    expect(1 / most).toBeGreaterThanOrEqual(sum);
    expect(1 / most).toBeLessThan(1.1 * sum);
    expect(readFileSync(join(here, 'shop-year.html'), 'utf8')).toMatch(/can kill/);
  });

  it('says in one sentence which folder holds no result', () => {
    const done = tubgap(here, 'year', demo, 'nowhere');
    expect(done.code).toBe(2);
    expect(done.err).toMatch(/^nowhere\/result\.json: no result to read/);
    expect(done.err).not.toMatch(/\bat .*\.js:\d+/);
  });

  it('leaves out folders that hold no pick and names each, but writes nothing when no pick is left', () => {
    const place = mkdtempSync(join(here, 'mixed-'));
    for (const name of ['empty', 'sweep', 'out']) mkdirSync(join(place, name));
    writeFileSync(join(place, 'sweep', STUDY_FILE), '{}');
    const done = tubgap(place, 'year', 'empty', demo, 'sweep', '--to', 'out');
    expect(done.err).toBe(
      'empty: left out, it holds no pick.\nsweep: left out, it holds no pick but a study.\n',
    );
    expect(done.code).toBe(0);
    expect(
      readFileSync(join(place, 'out', 'shop-year.csv'), 'utf8')
        .trimEnd()
        .split('\n'),
    ).toHaveLength(2);
    const none = tubgap(place, 'year', 'empty', 'sweep', '--to', 'empty');
    expect(none.err).toMatch(/None of these folders holds a pick\. Run the cases first: tubgap pick CASE\n$/);
    expect([none.code, none.out, readdirSync(join(place, 'empty'))]).toEqual([2, '', []]);
  });
});
