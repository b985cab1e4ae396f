/** Standard acceleration of free fall, m/s² (exact by convention, CGPM 1901). */
export const STANDARD_GRAVITY = 9.80665;

/** Molar gas constant used by CIPM-2007, J/(mol·K). */
export const MOLAR_GAS_CONSTANT = 8.314472;
