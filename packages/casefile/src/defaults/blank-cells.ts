import type { Construction } from '@tubgap/core';
import { INCH, POUND, POUND_FORCE, PSI } from '@tubgap/units';
import { JUDGEMENT, type LawText } from './row.ts';

/** What stands in for a value that a tyre's row leaves blank. SI; a share is of what the words name. */
interface BlankCells {
  /** Share of the free diameter. */
  sectionWidth: number;
  /** Shares of the section width. */
  treadWidth: number;
  rimWidth: number;
  /** Pa */
  referencePressure: number;
}

/**
 * A tyre of plausible shape of each construction, from its free diameter alone. Widths and mass get the spreads beside
 * them.
 */
export const BLANK_CELLS: Readonly<Record<Construction, BlankCells>> = {
  bias: {
    sectionWidth: 0.48,
    treadWidth: 0.86,
    rimWidth: 0.92,
    referencePressure: 6 * PSI,
  },
  radial: {
    sectionWidth: 0.42,
    treadWidth: 0.86,
    rimWidth: 0.95,
    referencePressure: 17 * PSI,
  },
};

/** Standard deviations of what is assumed from the free diameter, as shares of it. */
export const BLANK_SPREADS = { sectionWidth: '8 %', treadWidth: '6 %', mass: '15 %' } as const;

/** Mass over diameter and section width, lb/in², judgement: 23 to 47 lb are told of slicks, 25 to 37 lb of radials. */
const MASS_PER_SIZE: Readonly<Record<Construction, number>> = { bias: 0.08, radial: 0.09 };

/** Mass of a tyre, kg, from its free diameter and section width, m. */
export const tyreMass = (construction: Construction, diameter: number, section: number): number =>
  MASS_PER_SIZE[construction] * (diameter / INCH) * (section / INCH) * POUND;

/** Drop of the axle, in, under a load, lbf, at a pressure, psi, and what the carcass adds to it, psi. Judgement. */
const DROP: Readonly<
  Record<Construction, { drop: number; load: number; pressure: number; carcass: number }>
> = {
  bias: { drop: 0.85, load: 1400, pressure: 6.5, carcass: 2 },
  radial: { drop: 0.8, load: 1300, pressure: 16, carcass: 6 },
};

/**
 * Drop of the axle, m, under a load, N, when nobody has measured it. It falls as pressure and carcass together rise.
 * @param pressure  gauge, Pa
 */
export function usualDrop(construction: Construction, pressure: number): { drop: number; load: number } {
  const { drop, load, pressure: at, carcass } = DROP[construction];
  const share = (at + carcass) / (pressure / PSI + carcass);
  return { drop: drop * share * INCH, load: load * POUND_FORCE };
}

/** The stiffness of a sidewall whose drop nobody has measured, over the usual one: wider than of a measured drop. */
export const STIFFNESS_OF_BLANK: LawText = { law: 'log-normal', median: 1, cov: 0.3, each: 'car' };

/** Where an assumed value of a tyre comes from. */
export const blankBasis = (construction: Construction): string =>
  `${JUDGEMENT}; a ${construction} tyre of this free diameter`;
