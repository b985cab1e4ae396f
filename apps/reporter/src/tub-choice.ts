import type { DecidedResult } from '@tubgap/results';
import { oneIn, sixteenths } from '@tubgap/units';

/** What a tub that was passed over needs more than the one to build, and what it saves. */
export function extraWords(result: DecidedResult, t: number): string {
  const built = result.chosen!;
  const higher = result.picks[t]!.height!.topHeight - result.picks[built]!.height!.topHeight;
  const smaller = result.tubs[built]!.diameter - result.tubs[t]!.diameter;
  return `needs ${sixteenths(higher, 'down')} more height for ${sixteenths(smaller, 'up')} less diameter`;
}

/** Why smaller tubs than the one to build were passed over, and why that one may itself be too narrow; one row each. */
export function choiceWords(result: DecidedResult): { label: string; text: string }[] {
  const { chosen, passedOver, picks, tubs } = result;
  if (chosen === null) return [];
  const smaller = passedOver.map(
    (t) => `${tubs[t]!.name} ${extraWords(result, t)} (top ${sixteenths(picks[t]!.height!.topHeight, 'up')})`,
  );
  const beside = narrowRuns(result, chosen);
  return [
    ...(smaller.length > 0 ? [{ label: 'Passed over', text: smaller.join('; ') }] : []),
    ...(beside > 0
      ? [
          {
            label: 'Narrow',
            text:
              `in ${oneIn(beside)} runs the tyre comes too close to the sides of this tub; it clears only because its ends ` +
              'then stand above the tyre’s shoulders. A larger tub, or another place for its centre, is what to look for first',
          },
        ]
      : []),
  ];
}

/** Share of the runs in which the tub's sides are in the way until its ends stand above the tyre; 0 where few enough are. */
function narrowRuns(result: DecidedResult, t: number): number {
  const { all } = result.runs;
  const share = all.tubs[t]!.legTouches / all.events;
  return share > result.accept.runRisk / 2 ? share : 0;
}
