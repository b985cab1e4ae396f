import { noneOf, oneIn } from '@tubgap/units';

/** What is told of a risk: events simulated, the estimate, and the upper end of its 95 % interval. */
export interface RiskReport {
  events: number;
  estimate: number;
  high: number;
}

/** A risk in words: what was seen, and what it can be at most. */
export const riskWords = ({ events, estimate, high }: RiskReport, event: string): string =>
  `${estimate === 0 ? noneOf(events, event) : `about ${oneIn(estimate)} ${event}s`}; at most ${oneIn(high)}`;
