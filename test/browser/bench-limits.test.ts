import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Limit } from '@tubgap/simulation';
import { limitLines } from '@tubgap/wording';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { DEMO, tubgap } from '../end-to-end/command.ts';
import { openBench } from './bench-page.ts';
import { canOpen, openBrowser } from './browser.ts';

const CASE = join(DEMO, 'case.yaml');
const FEW = ['--set', 'simulation.draws=8192', '--set', 'simulation.cars=128'];

describe.skipIf(!canOpen)('limits on the bench page', () => {
  let browser: Browser;
  let folder: string;
  beforeAll(async () => {
    browser = await openBrowser();
    folder = mkdtempSync(join(tmpdir(), 'tubgap-limits-page-'));
  });
  afterAll(async () => {
    rmSync(folder, { recursive: true, force: true });
    await browser?.close();
  });

  it('are those of the command, with the caution beside them, and are asked for again when the car is changed', async () => {
    const made = join(folder, 'page.html');
    expect(tubgap(folder, 'show', CASE, ...FEW, '--no-open', '--out', made).code).toBe(0);
    const place = ['--tub', 'street-42', '--height', '40 1/2 in'];
    const of = ['--of', 'speed,launch,pressure,spring', '--json'];
    const { limits } = JSON.parse(tubgap(folder, 'limits', CASE, ...FEW, ...place, ...of).out) as {
      limits: Limit[];
    };
    expect(limits.map(({ code }) => code)).toEqual(['speed', 'launch', 'pressure', 'spring']);
    expect(limits.some(({ outcome }) => outcome === 'limit')).toBe(true);

    const context = await browser.newContext();
    const link = `case=winged-door-car&tub=street-42&tyre=tall-slick&top=${40.5 * 25.4}`;
    const { page, heard } = await openBench(context, made, link);
    await page.getByRole('button', { name: 'How fast may it run like this?' }).click();
    const found = page.locator('.found-limits');
    await found.waitFor();
    expect(await found.locator('dd').allTextContents()).toEqual(limitLines(limits).map(({ text }) => text));
    expect(await found.locator('.caution').textContent()).toContain('Tyre contact at speed can kill');
    await page.getByRole('button', { name: 'down', exact: true }).click();
    expect(await found.count()).toBe(0);
    expect(await page.locator('.limits').textContent()).toContain('ask again');
    expect(heard).toEqual([]);
    await context.close();
  });
});
