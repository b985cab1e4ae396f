/** A figure with all that belongs to it on one line. */
export const whole = (text: string): string => text.replaceAll(' ', '\u00a0');
