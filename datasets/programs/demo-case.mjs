import { readFileSync } from 'node:fs';
import { openCase } from '@tubgap/kit';

const demo = (name) => readFileSync(new URL(`../demo/${name}`, import.meta.url), 'utf8');

/** The invented demo, with values in place of its own. */
export const demoCase = (set = {}) =>
  openCase(demo('case.yaml'), {
    files: { 'tubs.csv': demo('tubs.csv'), 'tyres.csv': demo('tyres.csv') },
    set,
  });
