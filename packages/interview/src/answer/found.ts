import type { Case } from '@tubgap/casefile';
import {
  type CaseRisks,
  type Caution,
  caseSetup,
  chosenTub,
  type GapFigures,
  type HeightRisks,
  nearestTub,
  type Perform,
  type Pick,
  pickHeights,
  type RunTallies,
  type ShareFigures,
  type ShownRun,
} from '@tubgap/simulation';
import type { CallFiles } from './call-files.ts';
import type { RefusedTub } from './shelf.ts';

/** How a picked tub is tight, and what the height that is set out is. */
export interface CloseLook {
  tight: GapFigures;
  /** Of the limiting tyre at every moment. */
  shares: ShareFigures[];
  /** Height that the papers of a pick set out, its gaps in the order of GAP_ANGLES, and its risks; once that is settled. */
  setOut?: {
    topHeight: number;
    passes: number;
    staticGaps: readonly number[];
    risks: HeightRisks;
    /** The worst run accepted, with the limiting tyre at the moment that leaves it least; undefined: none was found. */
    rare: ShownRun | undefined;
  };
}

/** What follows from the counts of some tubs. */
export interface Counted {
  picks: Pick[];
  /** Index of the tub to build, else of the nearest. */
  chosen: number | undefined;
  nearest: number | undefined;
  /** Plain runs and seasons that were counted. */
  runs: number;
  seasons: number;
}

/** What is found for a call. */
export interface Found extends Counted {
  /** The first plain counts, or all that the case asks for. */
  settled: boolean;
  source: Case;
  files: CallFiles;
  /** No tub in stock fits: those found are to be ordered. */
  order: boolean;
  /** Tubs that are not looked at: why. */
  refused: RefusedTub[];
  cautions: Caution[];
  look?: CloseLook;
}

/** What the counts of a case's tubs come to. */
export function countedOf(source: Case, risks: CaseRisks, runs: RunTallies, seasons: number): Counted {
  const picks = pickHeights(source, caseSetup(source), risks, runs);
  const chosen = chosenTub(source, picks);
  return {
    picks,
    chosen,
    nearest: chosen === undefined ? nearestTub(source, picks) : undefined,
    runs: runs.all.events,
    seasons,
  };
}

/** Where a picked tub is tight, and what closes its gap. */
export async function closeLook(found: Found, perform: Perform): Promise<CloseLook | undefined> {
  const { source, picks, chosen } = found;
  const height = chosen === undefined ? undefined : picks[chosen]!.height;
  if (height === undefined) return undefined;
  const tyre = source.tyres.findIndex(({ name }) => name === height.limitingTyre);
  const only = (t: number): boolean => t === chosen;
  const results = await perform(
    [
      { kind: 'gaps', heights: picks.map((_, t) => (only(t) ? [height.topHeight] : [])) },
      {
        kind: 'shares',
        picks: picks.map((pick, t): Pick => {
          const { height: own, ...rest } = pick;
          return only(t) && own ? { ...rest, height: own } : rest;
        }),
      },
    ],
    () => {},
  );
  const [gaps, shares] = results;
  if (gaps?.kind !== 'gaps' || shares?.kind !== 'shares')
    throw new TypeError('gaps and shares were asked for');
  return { tight: gaps.gaps[tyre]![chosen!]![0]!, shares: shares.shares[chosen!]![tyre]! };
}
