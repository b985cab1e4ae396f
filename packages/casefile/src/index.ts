export { BOOK_NAME_WORDS, type BookFile, bookFileText, isBookName, readBookFile } from './book/book-file.ts';
export { untaughtText } from './book/untaught-text.ts';
export {
  type AssumedValue,
  type BookInUse,
  type Case,
  type CaseTub,
  type CaseTyre,
  type ClassNumbers,
  type Envelope,
  type Follows,
  type HardPoint,
  LOG_COLUMNS,
  type LogColumn,
  type RunLog,
  type UncertainInput,
} from './case.ts';
export { everyInput, withInputs } from './case-inputs.ts';
export { saysOutOfStock } from './catalogue/catalogue.ts';
export { carInputPlace, type InputPlace, TOSS_PATH, tyreInputPlace } from './defaults/input-place.ts';
export { COMMON, type Each, type Group, JUDGEMENT, type LawText } from './defaults/row.ts';
export { labelAt } from './defaults/table-path.ts';
export { STIFFNESS_OF_USUAL_DROP, USUAL_TYRES, usualDrop, usualMass } from './defaults/usual-tyre.ts';
export { allowedRange } from './defaults.ts';
export { type Issue, type IssueCode, issueLines, issueText, type Problem, type Read } from './issue.ts';
export { caseJsonSchema } from './json-schema.ts';
export { bookInUseWords, bookWords } from './learned/book-words.ts';
export { exactLawWords } from './learned/law-words.ts';
export { inputsOf, learnedCase, learnedTyre, plainLaw, withoutLearned } from './learned/learned-case.ts';
export {
  LEARNED_VERSION,
  type LearnedFile,
  type LearnedInput,
  learnedJsonSchema,
  learnedText,
  readLearned,
} from './learned/learned-file.ts';
export {
  type CommonPrior,
  isShopPriors,
  type MovedPrior,
  readShopPriors,
  SHOP_PRIORS_VERSION,
  type ShopPriors,
  shopPriorsJsonSchema,
  shopPriorsText,
} from './learned/shop-priors.ts';
export { markingProblem } from './marking/marking-fault.ts';
export {
  diameterPrior,
  type LengthRange,
  ruleDiameter,
  sectionOnRim,
  type Widths,
  widthsOf,
} from './marking/marking-size.ts';
export { readTyreMarking, type TyreMarking, type WidthMeaning } from './marking/tyre-marking.ts';
export { type CaseSource, parseCase } from './parse-case.ts';
export { CASE_UNITS, type CaseUnits } from './parts/case-units.ts';
export { tyreNamed } from './parts/class-name.ts';
export { numbersIn } from './parts/tyre-class.ts';
export { dateProblem, type Reading } from './quantity.ts';
export { readAt, type StandingDefault, standingDefaults } from './read-at.ts';
export { type Fault, faultsOf } from './schema-issue.ts';
export { leaf, section } from './schema-parts.ts';
export { standIns, swappedEntry } from './stand-ins.ts';
export { type CaseText, readCaseText } from './text/case-text.ts';
export { type Cell, type CsvFault, csvRows, readCsv, type Table } from './text/csv.ts';
export type { Setting } from './text/setting.ts';
export { COMMAND_LINE } from './text/setting.ts';
export { placeIn } from './text/value-path.ts';
