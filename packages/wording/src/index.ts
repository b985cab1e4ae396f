export { angleWords } from './angle.ts';
export { oneIn, wholeText } from './chance.ts';
export { inputNamed, inputWords } from './input.ts';
export { sixteenths, unbroken } from './length.ts';
export { shareWords } from './share.ts';
export { csvText, type SheetTable } from './table.ts';
