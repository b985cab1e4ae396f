#!/usr/bin/env node
import { openProgram, runProgram } from '@tubgap/casefile/command-line';
import { ask } from './index.ts';

await runProgram(
  openProgram('tubgap-interviewer', 'Turns what a caller knows into a case file.', [ask(() => undefined)]),
);
