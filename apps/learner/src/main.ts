#!/usr/bin/env node
import { openProgram, runProgram } from '@tubgap/casefile/command-line';
import { book, learn, plan } from './index.ts';

await runProgram(
  openProgram('tubgap-learner', 'Learns from what a shop measures of its car, and plans a first test.', [
    learn,
    plan,
    book,
  ]),
);
