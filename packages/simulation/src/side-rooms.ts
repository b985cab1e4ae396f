import type { Case, CaseTyre } from '@tubgap/casefile';
import { sideRoom } from '@tubgap/core';
import { centralValue } from '@tubgap/statistics';

/** Room beside a tyre at rest, m; a gap is null where the case does not say enough. */
export interface TyreSides {
  /** Inside width of a tub that leaves the tyre its play and reserve on both sides. */
  widthNeeded: number;
  innerGap: number | null;
  outerGap: number | null;
  /** Gap that must remain on each side; 0 where the case is silent. */
  sideReserve: number;
}

/** Room at the sides of one of a case's tyres, its section at the middle value. */
export function tyreSides(source: Case, tyre: CaseTyre): TyreSides {
  const space = source.sideRoom ?? { innerPanel: 0, bodySide: 0, sidePlay: 0, sideReserve: 0 };
  const sectionWidth = centralValue(tyre.inputs.sectionWidth.law);
  const { rim } = tyre;
  const room = sideRoom(
    {
      sectionWidth,
      rimWidth: rim?.width ?? 0,
      backspacing: rim?.backspacing ?? 0,
      flange: rim?.flange ?? 0,
    },
    space,
  );
  const known = source.sideRoom !== undefined && rim !== undefined;
  return {
    widthNeeded: room.widthNeeded,
    innerGap: known ? room.innerGap : null,
    outerGap: known ? room.outerGap : null,
    sideReserve: space.sideReserve,
  };
}
