import type { CaseSetup } from '../setup.ts';

/** Which part of a case is looked at: one tub, and one tyre or, left out, all of the car's. */
export interface Focus {
  tub: number;
  tyre?: number;
}

/**
 * A case's setup reduced to one tub and, if asked for, one tyre. Streams are named and heights stay as they are, so the
 * same seed counts the same touches as in the whole case. The build tyre stays beside the one asked for where the axle
 * height follows from it.
 * @returns setup, and the place of the tyre asked for among its tyres
 */
export function focusOn(setup: CaseSetup, { tub, tyre }: Focus): { setup: CaseSetup; tyre: number } {
  const kept = setup.tyres.flatMap((_, i) => {
    const builds = i === setup.buildIndex && setup.axleHeight === undefined;
    return tyre === undefined || i === tyre || builds ? [i] : [];
  });
  return {
    setup: {
      ...setup,
      tyres: kept.map((i) => setup.tyres[i]!),
      // Where the axle height was measured nobody asks for the build tyre.
      buildIndex: Math.max(0, kept.indexOf(setup.buildIndex)),
      lowestHeights: [setup.lowestHeights[tub]!],
      clearance: { ...setup.clearance, tubs: [setup.clearance.tubs[tub]!] },
    },
    tyre: tyre === undefined ? 0 : kept.indexOf(tyre),
  };
}
