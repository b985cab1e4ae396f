export { report, revision, state, year } from './verbs.ts';
