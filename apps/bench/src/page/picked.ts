import { keptRisks, openKept, openRun } from '@tubgap/simulation';
import { rareRun, SIXTEENTH, wholeText } from '@tubgap/units';
import type { Carried } from '../carried/carried.ts';
import { type BenchCase, caseIn } from './bench-case.ts';
import type { BenchState } from './bench-state.ts';
import type { Known } from './estimate.ts';

type ReadCase = Extract<BenchCase, { ok: true }>;

/** All that a case says, and the places of its tubs: what a sample of it depends on. */
const sourceText = ({ whole }: ReadCase): string => JSON.stringify(whole);

/** The case of which a page carries the pick's sample, to be known again; undefined where it carries none. */
export function pickedCase(carried: Carried, first: BenchState): string | undefined {
  const begun = caseIn(carried, { ...first, notches: {}, centre: undefined });
  return carried.sample !== undefined && begun.ok ? sourceText(begun) : undefined;
}

/**
 * What the pick knows of the tyre and tub in hand, so that the page shows the figures of the decision without counting;
 * undefined where anything stands otherwise than in the case that was picked for, and for a top so low that the pick has
 * asked for no figure there: what needs less than its floor is kept as needing that.
 * @param picked  by `pickedCase`
 * @param topHeight  m
 */
export function pickedKnown(
  { sample }: Carried,
  picked: string | undefined,
  now: ReadCase,
  topHeight: number,
): Known | undefined {
  const { source, setup, tyre, tub } = now;
  if (sample === undefined || picked === undefined || sourceText(now) !== picked) return undefined;
  // A season has runs on every tyre.
  const floors = sample.tyres.map(
    ({ tubs }) => tubs[tub]!.lowest + (tubs[tub]!.touch.steps[0] ?? 0) * SIXTEENTH,
  );
  if (topHeight < Math.max(...floors) - 1e-9) return undefined;
  const runs = openKept(sample.tyres[tyre]!, tub);
  const seasons = openKept(sample.seasons, tub);
  const { middling, rare, tightestOf } = sample.named[tyre]![tub]!;
  const named = (run: typeof rare, name: string) => run && { run: openRun(setup, tyre, run), name };
  const seldom = named(
    rare,
    tightestOf === null ? rareRun(source.accept.runRisk) : `the tightest of ${wholeText(tightestOf)} runs`,
  );
  return {
    picked: true,
    runs: { tally: runs.tally, risks: keptRisks(runs), weighed: runs.weighted !== undefined, done: true },
    seasons: { tally: seasons.tally, risk: keptRisks(seasons).touch, done: true },
    ...(seldom && {
      ranked: {
        rare: seldom,
        middling: named(middling, 'an ordinary run') ?? { ...seldom, name: 'an ordinary run' },
      },
    }),
  };
}
