import { oneIn, wholeText } from '@tubgap/units';

/** What is told of a risk: events simulated, the estimate, and the upper end of its 95 % interval. */
export interface RiskReport {
  events: number;
  estimate: number;
  high: number;
}

/** A risk in words: what was seen, and what it can be at most. */
export function riskWords({ events, estimate, high }: RiskReport, event: string): string {
  if (estimate === 0) return `no touch in ${wholeText(events)} simulated ${event}s; at most ${oneIn(high)}`;
  return `about ${oneIn(estimate)} ${event}s; at most ${oneIn(high)}`;
}
