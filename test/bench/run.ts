import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { demoRows } from './demo-rows.ts';
import { kernelRows } from './kernel-rows.ts';
import { machineName } from './machine.ts';
import { pickRows } from './pick-rows.ts';
import { riskRows } from './risk-rows.ts';
import { tableText, writeTable } from './table.ts';
import { tailRows } from './tail-rows.ts';

/**
 * Measures the built packages and their peers: processor time, contestants in turn, best and median of the rounds.
 * Prints a table and writes it to bench.csv beside this file; example.csv is one such. Never fails a build: a machine is no test.
 */
const room = mkdtempSync(join(tmpdir(), 'tubgap-bench-'));
try {
  const rows = [
    ...(await demoRows()),
    ...(await pickRows()),
    ...(await kernelRows(room)),
    ...(await riskRows(room)),
    ...(await tailRows()),
  ];
  const machine = machineName();
  console.log(`${machine}\n\n${tableText(rows)}`);
  writeTable(fileURLToPath(new URL('bench.csv', import.meta.url)), machine, rows);
} finally {
  rmSync(room, { recursive: true, force: true });
}
