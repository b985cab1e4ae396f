/** What a command ends with, each code once: the help of the front door names them in these words. */
export const EXIT_CODES = {
  done: { code: 0, means: 'done' },
  fault: { code: 1, means: 'a fault of the program, or a disk that refuses' },
  badInput: { code: 2, means: 'something in the input to mend' },
  tooFew: { code: 3, means: 'too few draws for the accepted risk' },
  notWithin: {
    code: 4,
    means: 'the tub that was judged is not within the accepted risk, or the measured car must not run',
  },
} as const;

export const DONE = EXIT_CODES.done.code;
export const FAULT = EXIT_CODES.fault.code;
export const BAD_INPUT = EXIT_CODES.badInput.code;
export const TOO_FEW = EXIT_CODES.tooFew.code;
/** Also a measured car that must not run. */
export const NOT_WITHIN = EXIT_CODES.notWithin.code;
