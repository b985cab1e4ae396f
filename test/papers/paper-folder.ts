import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type Result, readResults, resultText } from '@tubgap/results';
import { expect } from 'vitest';
import { ROOT, tubgap } from '../end-to-end/command.ts';

/** A results folder that holds a result with something changed, and no papers. */
export function changedResult(folder: string, change: (result: Result) => void): string {
  const copy = mkdtempSync(join(tmpdir(), 'tubgap-paper-'));
  const result = readResults(folder);
  change(result);
  writeFileSync(join(copy, 'result.json'), resultText(result));
  return copy;
}

/** The same with its papers. */
export function withResult(folder: string, change: (result: Result) => void): string {
  const copy = changedResult(folder, change);
  const done = tubgap(ROOT, 'report', copy);
  expect(done.err).toBe('');
  expect(done.code).toBe(0);
  return copy;
}

export const paper = (folder: string, file: string): string => readFileSync(join(folder, file), 'utf8');

/** Inches of a tape: '39 3/8 in' or '3/8 in', no-break spaces or plain ones. */
export function inchesOf(text: string): number {
  const match = /^(-?)(?:(\d+)[\s\u00a0]?)?(?:(\d+)\/(\d+))?[\s\u00a0]in$/.exec(text.trim());
  if (match === null) throw new Error(`no inches: ${text}`);
  const fraction = match[3] === undefined ? 0 : Number(match[3]) / Number(match[4]);
  return (match[1] === '-' ? -1 : 1) * (Number(match[2] ?? 0) + fraction);
}

/** Cells of the rows of the table under a line that holds `about`, as text. */
export function tableCells(html: string, about: string): string[][] {
  const from = html.indexOf('<tbody>', html.indexOf(about));
  if (!html.includes(about) || from < 0) throw new Error(`no table under "${about}"`);
  const body = html.slice(from, html.indexOf('</tbody>', from));
  return [...body.matchAll(/<tr[^>]*>(.*?)<\/tr>/gs)].map((row) =>
    [...row[1]!.matchAll(/<t[hd][^>]*>(.*?)<\/t[hd]>/gs)].map((cell) =>
      cell[1]!.replace(/<[^>]*>/g, '').replaceAll('\u00a0', ' '),
    ),
  );
}

/** Names that would be markup, formulas or group codes if nobody took care. */
export const HOSTILE =
  '</title><script>alert(1)</script>"\'& %%c ^J <img src=x onerror=alert(2)>' +
  '\n0\nCIRCLE\n8\nCUT\n10\n0.0\n20\n0.0\n40\n9.0\n1\n';

export function nameHostile(result: Result): void {
  result.case.title = HOSTILE;
  const old = result.tyres.map((tyre) => tyre.name);
  const renamed = (name: string): string => (old.includes(name) ? `${HOSTILE} ${old.indexOf(name)}` : name);
  for (const tyre of result.tyres) tyre.name = renamed(tyre.name);
  result.build.tyre = renamed(result.build.tyre);
  if (result.asSetOut !== null) result.asSetOut.limitingTyre = renamed(result.asSetOut.limitingTyre);
  for (const input of result.inputs) input.tyre = renamed(input.tyre);
  if (result.outlines.pick !== null) result.outlines.pick.gaps.tyre = renamed(result.outlines.pick.gaps.tyre);
  for (const point of result.hardPoints) point.name = HOSTILE;
  for (const [t, pick] of result.picks.entries()) {
    pick.tub = `${HOSTILE} ${t}`;
    result.tubs[t]!.name = pick.tub;
    if (pick.height) pick.height.limitingTyre = renamed(pick.height.limitingTyre);
    const best = result.bestPlaces[t]?.best;
    if (best) best.limitingTyre = renamed(best.limitingTyre);
  }
}
