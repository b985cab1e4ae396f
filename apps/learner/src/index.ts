export { learn, plan } from './verbs.ts';
