import type { Construction } from '@tubgap/core';
import { INCH, POUND, POUND_FORCE, PSI } from '@tubgap/units';
import { JUDGEMENT, type LawText } from './row.ts';

/** What a tyre is taken to be that nobody has measured further than its free diameter. SI; shares have no unit. */
interface UsualTyre {
  /** Section width over free diameter; tread and rim width over section width. */
  sectionShare: number;
  treadShare: number;
  rimShare: number;
  /** kg/m²: over free diameter times section width. 23 to 47 lb are told of slicks, 25 to 37 lb of radials. */
  massPerSize: number;
  referencePressure: number;
  /** Drop of the axle under a load at a gauge pressure, and what the carcass adds to that. */
  drop: { drop: number; load: number; pressure: number; carcass: number };
}

const POUND_PER_SQUARE_INCH = POUND / INCH ** 2;

/** The usual tyre of a construction, judgement throughout. */
export const USUAL_TYRES: Readonly<Record<Construction, UsualTyre>> = {
  bias: {
    sectionShare: 0.48,
    treadShare: 0.86,
    rimShare: 0.85,
    massPerSize: 0.08 * POUND_PER_SQUARE_INCH,
    referencePressure: 6 * PSI,
    drop: { drop: 0.85 * INCH, load: 1400 * POUND_FORCE, pressure: 6.5 * PSI, carcass: 2 * PSI },
  },
  radial: {
    sectionShare: 0.42,
    treadShare: 0.86,
    rimShare: 0.85,
    massPerSize: 0.09 * POUND_PER_SQUARE_INCH,
    referencePressure: 17 * PSI,
    drop: { drop: 0.8 * INCH, load: 1300 * POUND_FORCE, pressure: 16 * PSI, carcass: 6 * PSI },
  },
};

/** Drop of the axle, m, under a load, N, at a gauge pressure, Pa: it falls as pressure and carcass together rise. */
export function usualDrop(construction: Construction, pressure: number): { drop: number; load: number } {
  const { drop, load, pressure: at, carcass } = USUAL_TYRES[construction].drop;
  return { drop: (drop * (at + carcass)) / (pressure + carcass), load };
}

/** Mass of a tyre, kg, from its free diameter and section width, m. */
export const usualMass = (construction: Construction, diameter: number, section: number): number =>
  USUAL_TYRES[construction].massPerSize * diameter * section;

/** Stiffness of a sidewall whose drop nobody has measured, over the usual one. */
export const STIFFNESS_OF_USUAL_DROP: LawText = { law: 'log-normal', median: 1, cov: 0.25, each: 'car' };

/** Standard deviations of what is assumed of a tyre's size and mass, as shares of it. */
export const USUAL_SPREADS = { sectionWidth: '8 %', treadWidth: '6 %', mass: '15 %' } as const;

/** Where an assumed value of a tyre comes from. */
export const usualBasis = (construction: Construction): string =>
  `${JUDGEMENT}; a usual ${construction} tyre of this free diameter`;
