import type { Result } from '@tubgap/results';
import { angleWords, gapWords, noneOf, oneIn, percentText, sixteenths } from '@tubgap/units';
import { boundWords } from '@tubgap/wording';
import { decidingPoints, type HardFigures, type HardSight, hardSights } from './hard-sight.ts';

/** A chance so far below its bound that the figure itself says nothing, beside its bound. */
const FAR_BELOW = 100;

/** A chance in words: what was seen, and what it can be at most. */
export function hardChance({ risk }: Pick<HardFigures, 'risk'>): string {
  return risk.touches === 0 && risk.estimate * FAR_BELOW < risk.high
    ? `${noneOf(risk.events, 'run')} comes too close there, ${boundWords(risk.high)}`
    : `about ${oneIn(risk.estimate)} runs come too close there, ${boundWords(risk.high)}`;
}

/** What to do about a hard point that decides. */
export function moveWords(result: Result, { name, alone, moveBy, figures, tyre }: HardSight): string {
  const much = sixteenths(moveBy, 'up');
  const part =
    result.chosen === null && result.nearest === null
      ? `${name}: ${hardChance(figures)}`
      : `${name} alone makes ${percentText(alone)} of what comes too close at this height`;
  return (
    `${part} (${tyre}, ${figures.tightestMoment}, ${angleWords(figures.tightestAngle)}). ` +
    `Raising the tub does not help there: move ${name} at least ${much} away from the tyre and run the case again`
  );
}

/** The nearest hard point in one line; undefined when the case has none. */
function nearestWords(result: Result): string | undefined {
  const [nearest] = hardSights(result).sort((a, b) => a.figures.p001 - b.figures.p001);
  if (nearest === undefined) return undefined;
  const { name, atRest, tyre, figures } = nearest;
  return (
    `${name} is the nearest: ${sixteenths(atRest, 'up')} to see standing still; 1 run in 1,000 leaves ` +
    `${figures.p001 > 0 ? `less than ${gapWords(figures.p001)}` : 'nothing'} (${tyre}, ${figures.tightestMoment}); ${hardChance(figures)}`
  );
}

/** What a decision says of the hard points: those that decide, or else the nearest one. */
export function hardPointWords(result: Result): string[] {
  const deciding = decidingPoints(result);
  if (deciding.length > 0) return deciding.map((sight) => moveWords(result, sight));
  const nearest = nearestWords(result);
  return nearest === undefined ? [] : [nearest];
}
