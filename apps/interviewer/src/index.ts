export { ask } from './verbs.ts';
