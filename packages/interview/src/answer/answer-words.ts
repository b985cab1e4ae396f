import type { Pick, PickedHeight } from '@tubgap/simulation';
import type { LengthUnits } from '@tubgap/units';
import { SIXTEENTH, shownLength } from '@tubgap/units';
import type { Found } from './found.ts';

/** The picked tub and its height; undefined where none fits. */
export function pickedOf({ picks, chosen }: Found): (Pick & { height: PickedHeight }) | undefined {
  const pick = chosen === undefined ? undefined : picks[chosen];
  return pick?.height && { ...pick, height: pick.height };
}

/** The tub in words: by its name, and to be ordered where none in stock fits. */
export function tubWords(found: Found, pick: Pick, units: LengthUnits): string {
  const tub = found.source.tubs.find(({ name }) => name === pick.tub)!;
  const inside = `${pick.tub}, ${shownLength(tub.diameter, 'down')[units]} inside`;
  return found.order ? `order ${inside}` : inside;
}

/** The least height as far as it is known: a range while more runs would move it. */
export function leastWords(
  { topHeight, mayFall }: PickedHeight,
  settled: boolean,
  units: LengthUnits,
): string {
  const most = shownLength(topHeight, 'up')[units];
  return settled || mayFall < SIXTEENTH / 2
    ? most
    : `${shownLength(topHeight - mayFall, 'down')[units]} to ${most}`;
}
