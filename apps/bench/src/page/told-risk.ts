import type { Case } from '@tubgap/casefile';
import type { Risk } from '@tubgap/simulation';
import { countSuffices } from '@tubgap/statistics';
import { chanceText, noneOf } from '@tubgap/units';
import type { Known } from './estimate.ts';
import type { Risks } from './risks.ts';

/** Which chances can be told: those that no further counting or weighing changes. */
export interface Told {
  close: boolean;
  contact: boolean;
  season: boolean;
}

/**
 * A chance is told once, when it stands: one hit so far may make a season worse at a lower speed. Where nothing more is
 * going to be counted, what there is is told.
 */
export function toldOf({ runs, seasons, picked, problem }: Known, risks: Risks | undefined): Told {
  const ends = picked === true || problem !== undefined;
  const told = (risk: Risk | undefined): boolean =>
    risk !== undefined && (ends || (runs?.done === true && (runs.weighed || countSuffices(risk.touches))));
  return {
    close: told(risks?.close),
    contact: told(risks?.contact),
    season: risks?.season !== undefined && (ends || seasons?.done === true),
  };
}

export interface Figure {
  /** What is read first: '1 in 2,500'. */
  main: string;
  /** What it may be at worst. */
  worst: string;
}

/** A chance in words; without a touch only its upper end is known. */
export function figureOf(risk: Risk, event: string): Figure {
  if (risk.estimate === 0)
    return { main: `under ${chanceText(risk.high)}`, worst: noneOf(risk.events, event) };
  if (risk.estimate >= 0.5) return { main: chanceText(risk.estimate), worst: 'more often than not' };
  return { main: chanceText(risk.estimate), worst: `at worst ${chanceText(Math.min(1, risk.high))}` };
}

export interface Mark {
  word: string;
  name: 'within' | 'over' | 'unsure';
}

/** Whether a chance keeps what is accepted: only when its upper end does. */
export function verdict(risk: Risk, accepted: number): Mark {
  if (risk.high <= accepted) return { word: 'within your limit', name: 'within' };
  if (risk.low > accepted) return { word: 'OVER your limit', name: 'over' };
  return { word: 'too close to call', name: 'unsure' };
}

/** Whether run and season both keep what is accepted; undefined while one of them cannot be told and none is over. */
export function wholeVerdict(risks: Risks | undefined, told: Told, accept: Case['accept']): Mark | undefined {
  const marks = [
    told.close && risks ? verdict(risks.close, accept.runRisk) : undefined,
    told.season && risks?.season ? verdict(risks.season, accept.seasonRisk) : undefined,
  ];
  const over = marks.find((mark) => mark?.name === 'over');
  if (over !== undefined) return over;
  if (marks.some((mark) => mark === undefined)) return undefined;
  return marks.find((mark) => mark?.name === 'unsure') ?? { word: 'within your limits', name: 'within' };
}
