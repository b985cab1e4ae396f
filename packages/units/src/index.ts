export { angleHeading, angleWords, toDegrees, wholeDegrees } from './angle.ts';
export { chanceCell, degreeCell, inchCell } from './cell.ts';
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
export { type Figures, figuresIn } from './figures.ts';
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
export { shopWords, usualUnit } from './shop-words.ts';
export {
  alongText,
  ceilTo,
  gapWords,
  isOnTape,
  offsetText,
  onTape,
  type Rounding,
  type ShownLength,
  shownChange,
  shownLength,
  sixteenths,
  tapeText,
  wholeMarks,
} from './tape.ts';
export { type LengthUnits, unitsOfMost } from './told.ts';
export { whole } from './whole.ts';
