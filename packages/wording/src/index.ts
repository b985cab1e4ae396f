export { angleWords } from './angle.ts';
export { ofRuns, oneIn, wholeText } from './chance.ts';
export { inputNamed, inputWords } from './input.ts';
export { sixteenths, unbroken } from './length.ts';
export { riskWords, type ToldRisk } from './risk.ts';
export { row, wrapped } from './row.ts';
export { shareWords } from './share.ts';
export { csvText, type SheetTable } from './table.ts';
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
