import { buildOf } from '@tubgap/results';

/** This program and its build. */
export const { madeBy: MADE_BY } = buildOf(new URL('./main.js', import.meta.url));
