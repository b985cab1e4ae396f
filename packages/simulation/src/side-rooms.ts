import type { Case, CaseTub, CaseTyre } from '@tubgap/casefile';
import { sideRoom } from '@tubgap/core';
import { centralValue } from '@tubgap/statistics';
import { sixteenths } from '@tubgap/units';

/** Room beside a tyre at rest, m; a gap is null where the case does not say enough. */
export interface TyreSides {
  /** Inside width of a tub that leaves the tyre its play and reserve on both sides. */
  widthNeeded: number;
  innerGap: number | null;
  outerGap: number | null;
  /** Gap that must remain on each side; 0 where the case is silent. */
  sideReserve: number;
}

/** What keeps a tyre out of a tub at the sides, m: the width or gap that is there, and the one that is needed. */
export interface SideFault {
  tyre: string;
  at: 'inside width' | 'inner panel' | 'body side';
  has: number;
  needs: number;
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

/** What keeps the car's tyres out of a tub at the sides; none when they go in or the case does not say. */
export const sideFaults = (source: Case, tub: CaseTub): SideFault[] =>
  source.tyres.flatMap((tyre) => {
    const { widthNeeded, innerGap, outerGap, sideReserve } = tyreSides(source, tyre);
    const checks = [
      ['inside width', tub.insideWidth, widthNeeded],
      ['inner panel', innerGap, sideReserve],
      ['body side', outerGap, sideReserve],
    ] as const;
    return checks.flatMap(([at, has, needs]): SideFault[] =>
      has !== null && has < needs ? [{ tyre: tyre.name, at, has, needs }] : [],
    );
  });

/** Why a tub's sides do not take the car's tyres, in words. */
export const sideWords = (faults: readonly SideFault[]): string =>
  faults
    .map(({ tyre, at, has, needs }) =>
      at === 'inside width'
        ? `too narrow for ${tyre}: ${sixteenths(has, 'down')} inside, ${sixteenths(needs, 'up')} needed`
        : `${tyre} comes within ${sixteenths(has, 'down')} of the ${at}`,
    )
    .join('; ');
