#!/usr/bin/env node
import { openProgram, runProgram } from '@tubgap/casefile/command-line';
import { show } from './index.ts';

await runProgram(
  openProgram('tubgap-bench', 'Writes a page on which the tub of a case can be dragged and the risk seen.', [
    show,
  ]),
);
