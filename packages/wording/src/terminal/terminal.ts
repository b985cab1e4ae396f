/** What a text is printed to. */
export interface Terminal {
  /** Columns. */
  width: number;
  bold: boolean;
}

/** Columns of whatever does not say how many it has, a pipe among it, and the fewest that are laid out for. */
const USUAL = 100;
const LEAST = 40;

/**
 * The terminal that this process prints to: its own width, or what COLUMNS says; bold where it is one and NO_COLOR does
 * not forbid it (no-color.org).
 */
export function terminal(): Terminal {
  const { stdout, env } = process;
  const said = Number(env.COLUMNS);
  const width = Number.isSafeInteger(said) && said > 0 ? said : (stdout.columns ?? USUAL);
  return { width: Math.max(LEAST, width), bold: stdout.isTTY === true && !env.NO_COLOR };
}
