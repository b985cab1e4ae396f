export { show } from './verbs.ts';
