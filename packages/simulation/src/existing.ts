import type { Case } from '@tubgap/casefile';
import { withCentre } from './study/places.ts';

/** A tub of a case at its height; the case has it where it stands. */
export interface ExistingPlace {
  source: Case;
  tub: number;
  /** m */
  topHeight: number;
}

/**
 * The tub that is in the car, in a case that can judge it: one that the case lists stands among the others, so that its
 * figures are theirs; any other stands alone. Undefined when the case has none.
 */
export function existingPlace(source: Case): ExistingPlace | undefined {
  if (source.existing === undefined) return undefined;
  const { tub, topHeight } = source.existing;
  const listed = source.tubs.findIndex(({ name }) => name === tub.name);
  if (listed < 0) return { source: { ...source, tubs: [tub] }, tub: 0, topHeight };
  const isThere = source.tubs[listed]!.centreForward === tub.centreForward;
  return {
    source: isThere ? source : withCentre(source, listed, tub.centreForward),
    tub: listed,
    topHeight,
  };
}
