export { conclude, type Ending, endingOf, printRemarks, Stop, stop } from './ending.ts';
export { BAD_INPUT, DONE, EXIT_CODES, FAULT, NOT_WITHIN, TOO_FEW } from './exit-codes.ts';
export { indexNamed } from './named.ts';
export {
  CARS,
  CASE,
  DRAWS,
  example,
  NAME,
  RESULTS,
  RESULTS_FOLDER,
  SEED,
  SET,
  UNITS,
  WORKERS,
} from './options.ts';
export { printJson } from './output.ts';
export { type Mount, openProgram, runProgram } from './program.ts';
export {
  centreOption,
  gapOption,
  hubAngleOption,
  repeated,
  settingOption,
  topHeightOption,
  trapSpeedOption,
  unitsSetting,
  wholeNumber,
  withUnits,
} from './readers.ts';
