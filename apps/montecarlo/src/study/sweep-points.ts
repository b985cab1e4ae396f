import type { Setting } from '@tubgap/casefile';
import type { StudySetup } from '@tubgap/simulation';
import type { ReadCase } from '../options.ts';
import { AS_IN_CASE } from './change.ts';
import { StudyFault } from './fault.ts';
import type { Mode } from './mode.ts';
import { swapsFirst } from './swap.ts';
import type { VariedInput } from './varied-input.ts';

/** Which value of each input a point has; null: the case's own. */
export type PointAt = (number | null)[];

/** Number of points of a sweep, the case as it stands not counted. */
export function pointCount(mode: Mode, lengths: readonly number[]): number {
  if (lengths.length === 0) return 0;
  if (mode === 'points') return lengths[0]!;
  return mode === 'grid'
    ? lengths.reduce((product, n) => product * n, 1)
    : lengths.reduce((sum, n) => sum + n, 0);
}

/**
 * The points of a sweep: every combination, the last input changing fastest; each input alone; or, of values that are as many
 * of every input, the first of each, the second of each and so on.
 */
export function pointsOf(mode: Mode, lengths: readonly number[]): PointAt[] {
  if (lengths.length === 0) return [];
  if (mode === 'one at a time') {
    return lengths.flatMap((n, input) =>
      Array.from({ length: n }, (_, value) => lengths.map((_n, i) => (i === input ? value : null))),
    );
  }
  if (mode === 'points') return Array.from({ length: lengths[0]! }, (_, value) => lengths.map(() => value));
  return lengths.reduce<PointAt[]>(
    (points, n) => points.flatMap((at) => Array.from({ length: n }, (_, value) => [...at, value])),
    [[]],
  );
}

/** The setup of a point. @throws StudyFault when its values do not go together */
export function pointSetup(
  { again }: ReadCase,
  set: readonly Setting[],
  inputs: readonly VariedInput[],
  at: PointAt,
): StudySetup {
  const given = inputs.flatMap(({ path, texts, settings }, i) => {
    const value = at[i];
    return value === null || value === undefined
      ? []
      : [{ path, text: texts[value]!, settings: settings[value]! }];
  });
  const label = pointLabel(given);
  const opened = again(swapsFirst([...set, ...given.flatMap(({ settings }) => settings)]));
  if (!opened.ok) throw new StudyFault([`With ${label}:`, ...opened.lines]);
  return { label, source: opened.source };
}

/** What a point is called in messages. */
export const pointLabel = (given: readonly { path: string; text: string }[]): string =>
  given
    .filter(({ text }) => text !== AS_IN_CASE)
    .map(({ path, text }) => `${path} = ${text}`)
    .join(', ') || 'the case as it stands';
