// SI values of the units of a shop. All but the last are exact by definition; sources: the international yard and pound
// agreement of 1959 (1 yd = 0.9144 m, 1 lb = 0.45359237 kg), and NIST SP 811 (2008), appendix B, for what follows from it.

/** The inch, m: a thirty-sixth of the yard. */
export const INCH = 0.0254;
/** Millimetres to the inch. */
export const MM_PER_INCH = 25.4;
/** A sixteenth of an inch, m: the step in which a shop reads and cuts. */
export const SIXTEENTH = INCH / 16;
/** The foot, m: a third of the yard. */
export const FOOT = 0.3048;
/** The mile an hour, m/s: 5,280 ft in 3,600 s. */
export const MPH = 0.44704;
/** The kilometre an hour, m/s. */
export const KMH = 1 / 3.6;
/** The avoirdupois pound, kg. */
export const POUND = 0.45359237;
/** Standard gravity, m/s²: 3rd General Conference on Weights and Measures, 1901. */
export const STANDARD_GRAVITY = 9.80665;
/** The pound-force, N: the weight of a pound under standard gravity. */
export const POUND_FORCE = POUND * STANDARD_GRAVITY;
/** The pound-force a square inch, Pa. */
export const PSI = POUND_FORCE / INCH ** 2;
/** The mechanical horsepower, W: 550 ft·lbf a second. */
export const HORSEPOWER = 550 * FOOT * POUND_FORCE;
/** The degree of angle, rad. */
export const DEGREE = Math.PI / 180;
/** The conventional inch of mercury, Pa: mercury of 13,595.1 kg/m³ under standard gravity. */
export const INCH_OF_MERCURY = 13_595.1 * STANDARD_GRAVITY * INCH;
