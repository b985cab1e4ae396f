import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { DEMO, tubgap } from '../end-to-end/command.ts';
import { BENCH, counted, openBench } from './bench-page.ts';
import { canOpen, openBrowser } from './browser.ts';

interface SpokenFigure {
  verdict: string;
  gap: string;
}

/** What box and sentence say of the tub where it stands. */
const said = async (page: Page): Promise<SpokenFigure> =>
  (await page.evaluate(`({
    verdict: document.querySelector('.chance .verdict').textContent.replaceAll('\\u00a0', ' '),
    gap: document.querySelector('.tight b').textContent.replaceAll('\\u00a0', ' '),
  })`)) as SpokenFigure;

/** Inches of '7/16 in' or '1 1/2 in'; 0 for 'nothing'. */
function inches(text: string): number {
  const parts = /^(?:(\d+) ?)?(?:(\d+)\/(\d+))? in$/.exec(text);
  return parts === null ? 0 : Number(parts[1] ?? 0) + Number(parts[2] ?? 0) / Number(parts[3] ?? 1);
}

describe.skipIf(!canOpen)('rare run of the bench page', () => {
  let browser: Browser;
  let folder: string;
  beforeAll(async () => {
    browser = await openBrowser();
    folder = mkdtempSync(join(tmpdir(), 'tubgap-rare-'));
  });
  afterAll(async () => {
    rmSync(folder, { recursive: true, force: true });
    await browser?.close();
  });

  // 1 in 8,000 is weighed, not counted: no run of the plain count need stand there.
  it.each([
    { tyre: 'tall-slick', accepted: 1 / 2000, from: 38.25, to: 39.5 },
    { tyre: 'class-radial', accepted: 1 / 2000, from: 33.75, to: 35.25 },
    { tyre: 'tall-slick', accepted: 1 / 8000, from: 39, to: 40.5 },
  ])(
    'keeps the gap to be kept just where the risk of $tyre is within $accepted, and never more',
    async ({ tyre, accepted, from, to }) => {
      const made = join(folder, 'page.html');
      const set = ['--set', `accept.runRisk=${accepted}`];
      expect(tubgap(folder, 'show', join(DEMO, 'case.yaml'), ...set, '--no-open', '--out', made).code).toBe(
        0,
      );
      const context = await browser.newContext();
      const link = `case=winged-door-car&tub=street-42&tyre=${tyre}&top=${from * 25.4}`;
      const { page, heard } = await openBench(context, made, link);
      await page.locator('.progress', { hasText: 'weighed' }).waitFor();
      const seen: Record<'within' | 'not', number[]> = { within: [], not: [] };
      for (let top = from; top <= to; top += 1 / 16) {
        const { verdict, gap } = await said(page);
        const within = verdict.startsWith('within');
        seen[within ? 'within' : 'not'].push(inches(gap));
        expect(inches(gap) >= 0.5, `top ${top} in: ${verdict}, yet the rare run leaves ${gap}`).toBe(within);
        await page.getByRole('button', { name: 'up', exact: true }).click();
      }
      expect(seen.within.length).toBeGreaterThan(2);
      expect(seen.not.length).toBeGreaterThan(2);
      expect(heard).toEqual([]);
      await context.close();
    },
  );

  it('is named after the accepted risk, in the sentence and in the list of runs to follow', async () => {
    const context = await browser.newContext();
    const { page } = await openBench(context, BENCH);
    await counted(page);
    await page.getByRole('button', { name: 'Follow a run along the track' }).click();
    expect(await page.locator('.run option').allTextContents()).toEqual([
      'an ordinary run',
      'the 1 run in 2,000',
    ]);
    expect(await page.locator('.tight').textContent()).toContain('the 1 run in 2,000');
    await context.close();
  });
});
