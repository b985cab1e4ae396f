export { type CarHeights, openCarHeights } from './car-heights.ts';
export type { CarSpace, CarState } from './car-space.ts';
export { type Conflict, findConflicts } from './conflicts.ts';
export {
  type Agreement,
  agreementOf,
  type LearnedSummary,
  learnedFile,
  type Origin,
  summarise,
} from './learned.ts';
export { readLog } from './log/read-log.ts';
export type { EvidenceKind, Part } from './parts/part.ts';
export { evidenceParts } from './parts/parts.ts';
export { type Believed, believe, type Effort, priorPoints, spaceOf } from './posterior.ts';
export {
  type AsBuilt,
  type LogReading,
  noReadings,
  type Readings,
  type Rejected,
} from './readings.ts';
export { BUILT_FILE, HAND_TABLES, readAsBuilt, readHandTable } from './tables/hand-tables.ts';
