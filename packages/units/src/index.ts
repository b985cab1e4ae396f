export { angleHeading, angleWords, toDegrees, wholeDegrees } from './angle.ts';
export { chanceCell, degreeCell, inchCell, inchCellDown, inchCellUp } from './cell.ts';
export {
  chanceOfFew,
  chanceText,
  HARDLY_EVER,
  noneOf,
  oneIn,
  outOf,
  percentText,
  rareRun,
  wholeText,
} from './chance.ts';
export {
  DEGREE,
  FOOT,
  HORSEPOWER,
  INCH,
  KMH,
  MM_PER_INCH,
  MPH,
  POUND,
  POUND_FORCE,
  PSI,
  SIXTEENTH,
  STANDARD_GRAVITY,
} from './factors.ts';
export { harmless, harmlessLines } from './harmless.ts';
export {
  findUnit,
  formatQuantity,
  kindsWithUnit,
  OTHER_NAMES,
  type QuantityKind,
  UNITS,
  type Unit,
  unitList,
} from './quantity.ts';
export {
  fractionOfDate,
  type Measure,
  parseMeasure,
  plainLetters,
  readLength,
  readNumber,
  TYPED_NUMBER,
} from './read.ts';
export { feetText, hundredths, mphText, psiText, shownQuantity } from './shop-text.ts';
export { shopWords } from './shop-words.ts';
export {
  alongText,
  ceilTo,
  changeOnTape,
  gapWords,
  isOnTape,
  moreText,
  offsetText,
  onTape,
  type Rounding,
  type ShownLength,
  shownChange,
  shownLength,
  sixteenths,
  tapeDifference,
  tapeText,
  wholeMarks,
} from './tape.ts';
export { type LengthUnits, unitsOfMost } from './told.ts';
export { whole } from './whole.ts';
