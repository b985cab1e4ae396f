export { ofRuns } from './chance.ts';
export { inputNamed, inputWords } from './input.ts';
export { riskWords, type ToldRisk } from './risk.ts';
export { row, wrapped } from './row.ts';
export { shareWords } from './share.ts';
export { csvText, type SheetTable } from './table.ts';
export { unbroken } from './unbroken.ts';
export {
  centreWords,
  leastLine,
  raiseWords,
  standingWords,
  type ToldLine,
  type ToldVerdict,
  type VerdictSubject,
  verdictLines,
} from './verdict.ts';
