#!/usr/bin/env node
import { runProgram } from '@tubgap/casefile/command-line';
import { frontDoor } from './front-door.ts';

await runProgram(frontDoor());
