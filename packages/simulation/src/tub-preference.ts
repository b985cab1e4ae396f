/** What a tub takes of the car: its inside diameter lengthwise and its top height upward, both m. */
export interface TubSize {
  diameter: number;
  topHeight: number;
}

/** A tub that would do, as a pick weighs it. */
export interface TubRoom extends TubSize {
  /** Whether it would have to be ordered. */
  order: boolean;
}

const SAME = 1e-9;

/**
 * Whether one tub takes less of the car than another. An inch of top height eats as much of the car as an inch of
 * diameter, so the lesser sum wins: the smaller tub, as long as it does not need more extra height than it saves in
 * diameter. A tub that only clears with its ends above the tyre's shoulders so gives way to the next one. Of equal sums
 * the smaller diameter. Common practice as to its aim, no source for its rate.
 */
export function takesLessRoom(one: TubSize, other: TubSize): boolean {
  const more = one.diameter + one.topHeight - (other.diameter + other.topHeight);
  return Math.abs(more) > SAME ? more < 0 : one.diameter < other.diameter - SAME;
}

/** Whether a shop would rather build one tub than another: one that lies in its rack, and of those the one that takes less room. */
export const preferred = (one: TubRoom, other: TubRoom): boolean =>
  one.order === other.order ? takesLessRoom(one, other) : other.order;

/**
 * Tubs that would do and are smaller than the one to build, but need more extra height than they save in diameter.
 * @param rooms  a tub; undefined where it does not do
 */
export function passedOver(rooms: readonly (TubRoom | undefined)[], chosen: number | undefined): number[] {
  const built = chosen === undefined ? undefined : rooms[chosen];
  if (built === undefined) return [];
  return rooms.flatMap((room, t) =>
    room !== undefined && room.diameter < built.diameter - SAME && takesLessRoom(built, room) ? [t] : [],
  );
}
