import { INCH, KMH, MPH } from '@tubgap/units';
import { describe, expect, it } from 'vitest';
import { enteredHistory, enterLine, type NewEntry, readHistory, typedEntry } from '../src/index.ts';

const runs = (fields: object) => ({
  date: '2026-05-02',
  kind: 'runs' as const,
  fields: { tyre: 'tall-slick', runs: '48', mark: 'none', ...fields },
});

describe('an entry that is typed at the car', () => {
  it('is read in the shop’s units, a unit behind a number first', () => {
    const typed = runs({ speed_low: '354', speed_high: '226 mph', top_height: '38 1/2"' });
    expect(typedEntry(typed, 'mm')).toMatchObject({
      entry: {
        kind: 'runs',
        words: { tyre: 'tall-slick', mark: 'none' },
        numbers: { runs: 48, speed_low: 354 * KMH, speed_high: 226 * MPH, top_height: 38.5 * INCH },
      },
    });
    expect(typedEntry(runs({ top_height: '978,5' }), 'mm')).toMatchObject({
      entry: { numbers: { top_height: expect.closeTo(0.9785, 12) } },
    });
  });

  it('says head by head what is missing or cannot be', () => {
    expect(
      typedEntry(
        { ...runs({ runs: '4.5', mark: ' ', speed_high: '226 in', top_height: '385' }), date: '2026-02-30' },
        'inch',
      ),
    ).toMatchObject({
      problems: {
        date: { code: 'unreadable' },
        runs: { code: 'unreadable' },
        mark: { code: 'missing' },
        speed_high: { code: 'unreadable' },
        top_height: { code: 'range' },
      },
    });
  });

  it('goes into a history in its own columns, or says why not', () => {
    const { entry } = typedEntry(runs({ speed_low: '220', speed_high: '226' }), 'inch') as {
      entry: NewEntry;
    };
    const own =
      'date;entry;tyre;runs;speed_low_km_h;speed_high_km_h;mark\n2026-13-01;runs;tall-slick;1;;;none\n';
    const added = enteredHistory(own, entry);
    expect(added).toEqual({ text: `${own}2026-05-02;runs;tall-slick;48;354.05568;363.711744;none\n` });
    expect(readHistory((added as { text: string }).text).entries).toHaveLength(1);
    expect(enteredHistory('date,entry,tyre,runs\n', entry)).toEqual({
      lacking: ['mark', 'speed_low', 'speed_high'],
    });
    const turned = { ...entry, numbers: { ...entry.numbers, speed_low: 300 * MPH } };
    expect(enteredHistory(undefined, turned)).toEqual({ problems: [expect.stringMatching(/slower speed/)] });
  });

  it('is told as a command where every shell takes it as one', () => {
    const { entry } = typedEntry(runs({ speed_low: '220', note: "left, at the driver's side" }), 'inch') as {
      entry: NewEntry;
    };
    expect(enterLine('SHOP', 'grey', entry)).toBe(
      `tubgap book enter SHOP grey --entry runs --date 2026-05-02 --tyre tall-slick --runs 48 --speed "220 mph" --mark none --note "left, at the driver's side"`,
    );
    expect(enterLine('SHOP', 'grey', { ...entry, words: { ...entry.words, note: '$HOME' } })).toBeUndefined();
  });
});
