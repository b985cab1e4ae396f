import type { Construction } from '@tubgap/core';
import { INCH, POUND, POUND_FORCE, PSI } from '@tubgap/units';
import { JUDGEMENT } from './row.ts';

/** What stands in for a value that a tyre's row leaves blank. SI; a share is of what the words name. */
interface BlankCells {
  /** Share of the free diameter. */
  sectionWidth: number;
  /** Shares of the section width. */
  treadWidth: number;
  rimWidth: number;
  /** kg a metre of free diameter. */
  mass: number;
  /** Share of the free diameter by which the axle drops under `deflectionLoad`, N, at the reference pressure, Pa. */
  deflection: number;
  deflectionLoad: number;
  referencePressure: number;
}

const LOAD = 1350 * POUND_FORCE;

/**
 * A tyre of plausible shape of each construction, from its free diameter alone. Widths and mass get the spreads beside
 * them, and the stiffness found from an assumed drop is told twice as wide as from a measured one.
 */
export const BLANK_CELLS: Readonly<Record<Construction, BlankCells>> = {
  bias: {
    sectionWidth: 0.48,
    treadWidth: 0.86,
    rimWidth: 0.92,
    mass: (1.25 * POUND) / INCH,
    deflection: 0.027,
    deflectionLoad: LOAD,
    referencePressure: 6 * PSI,
  },
  radial: {
    sectionWidth: 0.42,
    treadWidth: 0.86,
    rimWidth: 0.95,
    mass: (1.15 * POUND) / INCH,
    deflection: 0.027,
    deflectionLoad: LOAD,
    referencePressure: 17 * PSI,
  },
};

/** Standard deviations of what is assumed from the free diameter, as shares of it. */
export const BLANK_SPREADS = { sectionWidth: '8 %', treadWidth: '6 %', mass: '15 %' } as const;

/** Coefficient of variation of the stiffness factor where the drop itself is assumed. */
export const BLANK_STIFFNESS_COV = 0.3;

/** Where an assumed value of a tyre comes from. */
export const blankBasis = (construction: Construction): string =>
  `${JUDGEMENT}; a ${construction} tyre of this free diameter`;
