export { judge } from './verbs/judge.ts';
export { limits } from './verbs/limits.ts';
export { optimise } from './verbs/optimise.ts';
export { pick } from './verbs/pick.ts';
export { draws, evaluate } from './verbs/rows.ts';
export { merge, queue, work } from './verbs/shards.ts';
export { compare, place, sweep } from './verbs/studies.ts';
export type { PickHandler, Written, WrittenHandler } from './written.ts';
