export { assess, type HeightRisk, judge, riskRows } from './assess.ts';
export { drawSide } from './draw.ts';
export { type DrawnBlock, type DrawsAsked, eachBlock } from './draws.ts';
export { oneState, type StateAsked } from './one-state.ts';
export { CaseFault, type CaseFiles, openCase, withLaw } from './open-case.ts';
