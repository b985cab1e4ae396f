#!/usr/bin/env node
import { openProgram, runProgram } from '@tubgap/casefile/command-line';
import { report, revision, state, year } from './index.ts';

await runProgram(
  openProgram(
    'tubgap-reporter',
    'Writes tables and papers from a results folder, and shows one state of a case.',
    [report, year, revision, state],
  ),
);
