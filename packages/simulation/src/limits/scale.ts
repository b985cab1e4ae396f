import { SIXTEENTH } from '@tubgap/units';
import type { Found, RoughPoint } from './grid-search.ts';
import type { Limit } from './limit.ts';
import type { Quantity } from './quantities.ts';

/** A number on a scale of whole places that rises towards where more height is asked for, as a rule. */
export interface Scale {
  quantity: Quantity;
  valueAt: (place: number) => number;
  /** Places that are looked at, both ends included. */
  first: number;
  last: number;
  /** Where the number stands: on no whole place, as a rule. */
  now: number;
  /** About how much height its values lack, their places rising. */
  rough: RoughPoint[];
}

export function scaleOf(quantity: Quantity): Scale {
  const { grid, end, now } = quantity;
  const sign = end === 'most' ? 1 : -1;
  return {
    quantity,
    valueAt: (place) => grid.valueAt(sign * place),
    first: sign > 0 ? grid.first : -grid.last,
    last: sign > 0 ? grid.last : -grid.first,
    now: (sign * now) / grid.valueAt(1),
    rough: [],
  };
}

/** Whether less height is asked for further up: by more than a rough look may be out. */
export const turns = ({ rough }: Scale): boolean =>
  rough.some(({ margin }, k) => k > 0 && margin < rough[k - 1]!.margin - SIXTEENTH);

const limitAt = ({ quantity, valueAt, first, last }: Scale) => ({
  code: quantity.code,
  label: quantity.label,
  path: quantity.path,
  kind: quantity.kind,
  unit: quantity.grid.unit,
  end: quantity.end,
  now: quantity.now,
  from: valueAt(first),
  to: valueAt(last),
});

/** What a search has come to. */
export function limitOf(scale: Scale, { within, beyond }: Found): Limit {
  const { first, last, valueAt } = scale;
  const named = within === last ? 'any' : 'limit';
  const none = beyond === first ? 'none' : 'not known';
  return {
    ...limitAt(scale),
    outcome: within === undefined ? none : named,
    value: within === undefined ? null : valueAt(within),
    beyond: beyond === undefined ? null : valueAt(beyond),
    ranges: [],
  };
}

/** What is told where the height does not follow the number one way only. @param isWithin  places that were looked at */
export function rangesOf(scale: Scale, isWithin: ReadonlyMap<number, boolean>): Limit {
  const ranges: Limit['ranges'] = [];
  let isOpen = false;
  for (const [place, within] of [...isWithin].sort(([a], [b]) => a - b)) {
    const value = scale.valueAt(place);
    if (within && isOpen) ranges.at(-1)!.to = value;
    else if (within) ranges.push({ from: value, to: value });
    isOpen = within;
  }
  return { ...limitAt(scale), outcome: 'ranges', value: null, beyond: null, ranges };
}
