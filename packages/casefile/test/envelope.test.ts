import { expect, test } from 'vitest';
import { lines, smallCase, sound } from './small-case.ts';

test('limits of the car are read in any unit of length, and only those that are given', () => {
  const envelope = { highestTop: '41 1/4 in', furthestBehind: '560 mm' };
  const read = sound({ ...smallCase(), envelope }).envelope;
  // International inch of 1959: 25.4 mm exactly.
  expect(read).toEqual({ highestTop: 41.25 * 0.0254, furthestBehind: 0.56 });
  expect(sound(smallCase()).envelope).toEqual({});
});

test('a window below the standing tyre, a limit without a unit and an unknown one are told', () => {
  expect(lines({ ...smallCase(), envelope: { highestTop: '30 in' } })).toEqual([
    expect.stringMatching(
      /envelope\.highestTop: read "30 in"; 30 in is below the top of the standing tyre, about 31\.6 in .*lowest place of the body/,
    ),
  ]);
  expect(lines({ ...smallCase(), envelope: { furthestAhead: 22 } })).toEqual([
    expect.stringMatching(/envelope\.furthestAhead: read "22"; the unit is missing/),
  ]);
  expect(lines({ ...smallCase(), envelope: { furthestahead: '22 in' } })).toEqual([
    expect.stringMatching(/Did you mean furthestAhead\?/),
  ]);
});
