import { figuresIn, type LengthUnits, noneOf, oneIn } from '@tubgap/units';

/** What is told of a risk: events simulated, the estimate, and the upper end of its 95 % interval. */
export interface RiskReport {
  events: number;
  estimate: number;
  high: number;
}

/** What a run does that its risk is told of; where nothing is to be kept it touches. @param reserve  gap to be kept, m */
export const comesClose = (reserve: number, units?: LengthUnits): string =>
  reserve > 0 ? `comes ${closerThan(reserve, units)}` : 'touches';

/** The same of several runs. */
export const comeClose = (reserve: number, units?: LengthUnits): string =>
  reserve > 0 ? `come ${closerThan(reserve, units)}` : 'touch';

/** What such a run is, after a noun or a risk: 'closer than the 1/2 in to be kept'. */
export const closerThan = (reserve: number, units?: LengthUnits): string =>
  reserve > 0 ? `closer than the ${figuresIn(units).length(reserve, 'up')} to be kept` : 'touching';

/** What stands before the upper end of a risk's interval, wherever it is told. */
export const BOUND = 'surely no more often than';

/** The upper end of a risk's interval in words. */
export const boundWords = (high: number): string => `${BOUND} ${oneIn(high)}`;

/** What "surely" is worth, to be said once where bounds are told. */
export const SURELY =
  'by the number of simulated runs, 39 times in 40; what was assumed may be otherwise on the car';

/** A risk in words: what was seen, and how often it surely is at the most. */
export const riskWords = ({ events, estimate, high }: RiskReport, event: string): string =>
  `${estimate === 0 ? noneOf(events, event) : `about ${oneIn(estimate)} ${event}s`}, ${boundWords(high)}`;
