import { cpSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { AxeBuilder } from '@axe-core/playwright';
import { openCase } from '@tubgap/casefile/node';
import { openWorkplace, performTask } from '@tubgap/simulation';
import type { Browser, Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { DEMO } from '../end-to-end/command.ts';
import { BENCH, counted, counts, openBench } from './bench-page.ts';
import { canOpen, openBrowser } from './browser.ts';

const INCH = 0.0254;
const button = (page: Page, name: string): Locator => page.getByRole('button', { name });

async function type(page: Page, gap: string): Promise<void> {
  for (const place of ['left, straight up', 'left, 15° ahead', 'right, straight up'])
    await page.getByRole('textbox', { name: `Measured gap ${place}` }).fill(gap);
}

describe.skipIf(!canOpen)('learning on the bench page', () => {
  let browser: Browser;
  let folder: string;
  beforeAll(async () => {
    browser = await openBrowser();
    folder = mkdtempSync(join(tmpdir(), 'tubgap-learn-page-'));
    cpSync(DEMO, join(folder, 'demo'), { recursive: true });
  });
  afterAll(async () => {
    rmSync(folder, { recursive: true, force: true });
    await browser?.close();
  });

  it('shows what measures change before it uses them, takes it back, and saves a case that counts the same', async () => {
    const context = await browser.newContext({ acceptDownloads: true });
    // Lower than any pick, so that there are touches to compare.
    const link = 'case=winged-door-car&tub=street-42&tyre=tall-slick&top=965.2';
    const { page, heard } = await openBench(context, BENCH, link);
    await counted(page);
    const before = await counts(page);
    await type(page, '4.8');
    await button(page, 'Add a mark').click();
    await page.getByRole('textbox', { name: 'in runs' }).fill('10');
    await page.getByRole('textbox', { name: 'witness' }).fill('1.25');
    await button(page, 'Learn from what was typed in').click();
    // The page works on while it learns.
    await button(page, 'up').click();
    await button(page, 'Undo').click();
    const lesson = page.locator('.lesson');
    await lesson.waitFor({ timeout: 90_000 });
    const words = ((await lesson.textContent()) ?? '').replaceAll('\u00a0', ' ');
    expect(words).toMatch(/before 39 \d+\/16 in, after 3[78]( \d+\/\d+)? in, because/);
    expect(words).toMatch(/growth scale was taken as 0\.036 .*makes it 0\.02/);
    expect(await counts(page)).toEqual(before);

    await button(page, 'Use what was learned').click();
    await counted(page);
    await expect.poll(async () => (await counts(page))[0]!.touches).not.toBe(before[0]!.touches);
    await counted(page);
    const after = await counts(page);
    expect(after[0]!.touches).toBeLessThan(0.5 * before[0]!.touches);
    expect(after[0]!.touches).toBeGreaterThan(20);
    expect(await page.locator('.in-use').textContent()).toContain('Learned from what was typed in');
    const faults = await new AxeBuilder({ page }).analyze();
    expect(faults.violations.map(({ id }) => id)).toEqual([]);

    for (const [name, file] of [
      ['Save case file', 'saved.yaml'],
      ['Save learned.yaml', 'learned.yaml'],
    ] as const) {
      const waiting = page.waitForEvent('download');
      await button(page, name).click();
      await (await waiting).saveAs(join(folder, 'demo', file));
    }
    expect(readFileSync(join(folder, 'demo', 'saved.yaml'), 'utf8')).toMatch(/^learned: learned\.yaml$/m);
    const opened = openCase(join(folder, 'demo', 'saved.yaml'));
    if (!opened.ok) throw new Error(opened.lines.join('\n'));
    const tub = opened.source.tubs.findIndex(({ name }) => name === 'street-42');
    const simulation = { ...opened.source.simulation, draws: after[0]!.events };
    const task = { kind: 'runs', firstBlock: 0, endBlock: Math.ceil(after[0]!.events / 1024) } as const;
    const found = performTask(openWorkplace({ ...opened.source, simulation }), task);
    if (found.kind !== 'runs') throw new Error('no runs');
    const runs = found.tallies.tyres[0]!;
    const below = Math.floor((38 * INCH - runs.tubs[tub]!.lowest) / (INCH / 16) + 1e-6);
    const touches = [...runs.tubs[tub]!.steps].slice(below + 1).reduce((sum, count) => sum + count, 0);
    expect({ touches, events: runs.events }).toEqual(after[0]);

    await button(page, 'Undo').click();
    await expect.poll(async () => counts(page), { timeout: 60_000 }).toEqual(before);
    expect(await page.locator('.in-use').count()).toBe(0);
    expect(heard).toEqual([]);
    await context.close();
  }, 240_000);

  it('learns nothing from measures that cannot be, names the worst, and can be stopped', async () => {
    const context = await browser.newContext();
    const { page, heard } = await openBench(context);
    expect(await button(page, 'Learn from what was typed in').isDisabled()).toBe(true);
    await type(page, '3');
    await button(page, 'Learn from what was typed in').click();
    await button(page, 'Stop learning').click();
    expect(await page.locator('.lesson').count()).toBe(0);
    await button(page, 'Learn from what was typed in').click();
    const lesson = page.locator('.lesson.refused');
    await lesson.waitFor({ timeout: 90_000 });
    expect(await lesson.textContent()).toMatch(/Nothing was learned.*Gap of 3 in at 0° left: at odds with/);
    expect(await button(page, 'Use what was learned').count()).toBe(0);
    expect(heard).toEqual([]);
    await context.close();
  }, 180_000);
});
