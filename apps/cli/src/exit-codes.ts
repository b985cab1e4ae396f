/** Something in the input is to be mended. */
export const BAD_INPUT = 2;
/** Too few simulated runs for the accepted risk. */
export const TOO_FEW = 3;
