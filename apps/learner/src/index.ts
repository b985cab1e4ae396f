export { book } from './book-verbs.ts';
export { learn, plan } from './verbs.ts';
