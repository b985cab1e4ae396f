export { angleWords } from './angle.ts';
export { oneIn, wholeText } from './chance.ts';
export { sixteenths } from './length.ts';
export { csvText, type SheetTable } from './table.ts';
