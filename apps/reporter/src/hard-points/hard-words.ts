import { limitsOf, type Result } from '@tubgap/results';
import { angleWords, noneOf, oneIn, percentText, rareRun } from '@tubgap/units';
import { boundWords } from '@tubgap/wording';
import { figuresOf } from '../figures-of.ts';
import { decidingPoints, type HardFigures, type HardSight, nearestSights } from './hard-sight.ts';

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
  const { length } = figuresOf(result);
  const much = length(moveBy, 'up');
  const part =
    result.chosen === null && result.nearest === null
      ? `${name}: ${hardChance(figures)}`
      : `${name} alone makes ${percentText(alone)} of what comes too close at this height`;
  return (
    `${part} (${tyre}, ${figures.tightestMoment}, ${angleWords(figures.tightestAngle)}). ` +
    `Raising the tub does not help there: move ${name} at least ${much} away from the tyre and run the case again`
  );
}

/** What the run of the accepted risk leaves at a hard point. */
function rareWords(result: Result, { rare }: HardFigures, tyre: string): string {
  const run = rareRun(limitsOf(result, tyre).runRisk);
  if (rare === null) return `too few runs to say what ${run} leaves`;
  return `${run} leaves ${rare > 0 ? figuresOf(result).gapLeft(rare) : 'nothing'}`;
}

/** The nearest hard point in one line; undefined when the case has none. */
function nearestWords(result: Result): string | undefined {
  const { length } = figuresOf(result);
  const [nearest] = nearestSights(result);
  if (nearest === undefined) return undefined;
  const { name, atRest, tyre, figures } = nearest;
  return (
    `${name} is the nearest: ${length(atRest, 'up')} to see standing still; ${rareWords(result, figures, tyre)} ` +
    `(${tyre}, ${figures.tightestMoment}); ${hardChance(figures)}`
  );
}

/** What a decision says of the hard points: those that decide, or else the nearest one. */
export function hardPointWords(result: Result): string[] {
  const deciding = decidingPoints(result);
  if (deciding.length > 0) return deciding.map((sight) => moveWords(result, sight));
  const nearest = nearestWords(result);
  return nearest === undefined ? [] : [nearest];
}
