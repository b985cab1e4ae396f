import type { Case } from '@tubgap/casefile';
import type { CallQuestion, Piece, PieceResult } from '@tubgap/interview';
import type {
  CountedSteps,
  JudgedLimits,
  Limited,
  OutlineCloud,
  RunSteps,
  Tally,
  TightestRuns,
  WeighedSteps,
} from '@tubgap/simulation';

import type { Learnt } from './learning.ts';
import type { Lesson } from './lesson.ts';

/** What to work out: the newest question stops the work on any before it. */
export interface Question {
  id: number;
  /** look: at the outlines alone; count plain runs and seasons; refine: weigh the rare ones beside those counted. */
  kind: 'look' | 'count' | 'refine';
  source: Case;
  tub: number;
  tyre: number;
  /** Runs and cars to count at most. */
  draws: number;
  cars: number;
  /** Outlines are as they were when only the tub was moved. */
  withCloud: boolean;
  /** What the counted runs did, to refine. */
  counted?: RunSteps;
}

/** A call to be answered: the newest question stops the work on any before it. */
export interface AskedCall extends CallQuestion {
  id: number;
  kind: 'ask';
}

/** To a worker: another one at the far end of the port works out pieces of its calls; it says itself when it is there. */
export interface MateOffered {
  kind: 'mate';
  port: MessagePort;
}

/** To a worker: it is to work out what comes through the port. */
export interface MateWanted {
  kind: 'serve';
  port: MessagePort;
}

/** A piece for a mate. */
export interface AskedPiece {
  /** Of what the piece is: it is made ready once. */
  number: number;
  piece: Piece;
}

/** What a mate answers: that it is there, or of the last piece the result or what stopped it. */
export type MateAnswer =
  | { kind: 'there' }
  | { kind: 'result'; result: PieceResult }
  | { kind: 'problem'; error: unknown };

/** What is to be learned, by a worker of its own: it is asked once and then ended. */
export interface LearnQuestion {
  kind: 'learn';
  lesson: Lesson;
}

/** How learning goes on, and what came of it. */
export type LearnAnswer =
  | { kind: 'doing'; words: string }
  | { kind: 'learnt'; learnt: Learnt }
  | { kind: 'problem'; message: string };

/** How far numbers of a case may go for a tub that stands so, by a worker of its own: it is asked once and then ended. */
export interface LimitsQuestion {
  kind: 'limits';
  source: Case;
  tub: number;
  /** m. */
  topHeight: number;
  codes: readonly Limited[];
}

/** How that goes on, and what came of it. */
export type LimitsAnswer =
  | { kind: 'doing'; share: number }
  | { kind: 'limits'; found: LimitsFound }
  | { kind: 'problem'; message: string };

export interface LimitsFound extends Pick<JudgedLimits, 'limits'> {
  standing: JudgedLimits['judged']['verdict']['standing'];
  /** Plain runs that the tub was judged by. */
  draws: number;
}

/**
 * What came out, as soon as there is something to show and again when it is better known; `counted` with the last of the
 * runs.
 */
export type Answer = { id: number } & (
  | { kind: 'runs'; tally: Tally; tightest: TightestRuns; done: boolean; counted?: RunSteps }
  | { kind: 'cloud'; cloud: OutlineCloud; quantiles: readonly number[] }
  | { kind: 'seasons'; tally: Tally; done: boolean }
  | { kind: 'weighted'; tally: WeighedSteps; unseen: CountedSteps; tightest: TightestRuns }
  | { kind: 'problem'; message: string }
);
