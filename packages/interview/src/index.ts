export { answerCall, type CallQuestion } from './answer/answer-call.ts';
export { leastWords, pickedOf, tubWords } from './answer/answer-words.ts';
export {
  BOOK_FILE,
  CALL_FILE,
  type CallFault,
  type CallFiles,
  callFiles,
  TUBS_FILE,
} from './answer/call-files.ts';
export type { Found } from './answer/found.ts';
export {
  type CallAnswer,
  Outdated,
  openPiece,
  type Piece,
  type PieceResult,
} from './answer/listener.ts';
export { changeText, costlyOf, costName, moveWords, nextQuestion } from './answer/next-question.ts';
export { KIND } from './answer/other-kinds.ts';
export {
  type Answers,
  answersSchema,
  readAnswers,
  type Told,
  type TyreAnswers,
  type WrittenAnswers,
} from './answers.ts';
export {
  type Answered,
  answerTo,
  MOST_TYRES,
  pathParts,
  type Typed,
  tyresOf,
  withAnswer,
} from './call-answers.ts';
export type { AssumedItem, CaseValue, ToldItem } from './case-draft.ts';
export { commentedCase, commentedText } from './commented-case.ts';
export { type Doubt, doubtText } from './doubts.ts';
export { withExisting } from './existing-tub.ts';
export { INVENTED_REMARK, INVENTED_TUBS, INVENTED_TUBS_TEXT } from './invented-tubs.ts';
export {
  KINDS_OF_CAR,
  type KindOfCar,
  type KindQuantity,
  type KindRange,
  type Mark,
  RANGES,
} from './kind-ranges.ts';
export {
  carPriors,
  KIND_WORDS,
  type KnownOfCar,
  launchLaw,
  likelyKind,
  PARACHUTES,
  type Parachutes,
  type PriorRow,
  TYRE_BUILDS,
  type TyreBuild,
  usualParachutes,
  WINGS,
  type Wing,
} from './kinds-of-car.ts';
export { type PutQuestion, putQuestions } from './put-questions.ts';
export { questionLabel } from './question-label.ts';
export { type AnswerKind, QUESTIONS, type Question } from './questions.ts';
export { exampleOf, type ReadCall, readCall, withUnit, withUsualUnits } from './read-call.ts';
export {
  chuteDeceleration,
  type Estimate,
  type Launch,
  launchOf,
  lineSpeed,
  ROLL_OUT,
  rollOut,
  type WholeRun,
  wholeRun,
} from './slip.ts';
export { type InterviewedCase, toCase } from './to-case.ts';
export { toldUnits } from './told-units.ts';
export { CONSTRUCTION_OF, coldPressure, type TyreSize, tyreSize } from './tyre-priors.ts';
export { understoodWords } from './understood.ts';
