#!/usr/bin/env node
import { openProgram, runProgram } from '@tubgap/casefile/command-line';
import { compare, draws, evaluate, judge, merge, pick, place, queue, sweep, work } from './index.ts';
import { printPickPlace, printPlace } from './written.ts';

/** The simulating app alone, for machines that only work out: it says where results stand, and writes no papers. */
const reported = [sweep, merge, compare, place].map((verb) => verb(printPlace));
const verbs = [pick(printPickPlace), ...reported, judge, draws, evaluate, work, queue];
await runProgram(openProgram('tubgap-montecarlo', 'Simulates cases and writes results folders.', verbs));
