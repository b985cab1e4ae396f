import { cpSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { AxeBuilder } from '@axe-core/playwright';
import { openCase } from '@tubgap/casefile/node';
import { NO_CENTRES, openWorkplace, performTask } from '@tubgap/simulation';
import type { Browser, Download, Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { DEMO } from '../end-to-end/command.ts';
import { BENCH, counted, counts, openBench, whereText } from './bench-page.ts';
import { canOpen, openBrowser } from './browser.ts';

const INCH = 0.0254;
const button = (page: Page, name: string): Locator => page.getByRole('button', { name });

/** Adds a mark that is said to be none, after some runs at 35°, on a witness that was stuck there. */
async function addAbsence(page: Page, runs: string): Promise<void> {
  await button(page, 'Add a mark').click();
  await page.getByRole('combobox', { name: 'mark', exact: true }).selectOption('no');
  await page.getByRole('combobox', { name: 'stuck on that place' }).selectOption('yes');
  await page.getByRole('textbox', { name: 'angle, °' }).fill('35');
  await page.getByRole('textbox', { name: 'in runs' }).fill(runs);
}

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
    await addAbsence(page, '10');
    await page.getByRole('textbox', { name: 'witness' }).fill('1.25');
    await button(page, 'Learn from what was typed in').click();
    // The page works on while it learns.
    await button(page, 'up').click();
    await button(page, 'Undo').click();
    const lesson = page.locator('.lesson');
    await lesson.waitFor();
    const words = ((await lesson.textContent()) ?? '').replaceAll('\u00a0', ' ');
    // Less growth lets a smaller tub in than the one shown.
    expect(words).toMatch(/before street-42 at 39 \d+\/\d+ in, after short-39 at 38( \d+\/\d+)? in/);
    expect(words).toMatch(/street-4239 \d+\/\d+ in3[78]( \d+\/\d+)? in/);
    expect(words).toMatch(/growth of tall-slick at 224 mph was taken as 1\.2 in .*makes it 0\.9\d in/);
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

    const waiting = page.waitForEvent('download');
    await button(page, 'Save case file').click();
    await (await waiting).saveAs(join(folder, 'demo', 'saved.yaml'));
    expect(readFileSync(join(folder, 'demo', 'saved.yaml'), 'utf8')).toMatch(
      /^learned:\n(.*\n)* {2}format: tubgap learned$/m,
    );
    const opened = openCase(join(folder, 'demo', 'saved.yaml'));
    if (!opened.ok) throw new Error(opened.lines.join('\n'));
    const tub = opened.source.tubs.findIndex(({ name }) => name === 'street-42');
    const simulation = { ...opened.source.simulation, draws: after[0]!.events };
    const task = {
      kind: 'runs',
      firstBlock: 0,
      endBlock: Math.ceil(after[0]!.events / 1024),
      centres: NO_CENTRES,
    } as const;
    const found = performTask(openWorkplace({ ...opened.source, simulation }), task);
    if (found.kind !== 'runs') throw new Error('no runs');
    const runs = found.tallies.tyres[0]!;
    const below = Math.floor((38 * INCH - runs.tubs[tub]!.lowest) / (INCH / 16) + 1e-6);
    const touches = [...runs.tubs[tub]!.steps].slice(below + 1).reduce((sum, count) => sum + count, 0);
    expect({ touches, events: runs.events }).toEqual(after[0]);

    await button(page, 'Undo').click();
    await expect.poll(async () => counts(page)).toEqual(before);
    expect(await page.locator('.in-use').count()).toBe(0);

    // Opened again, and by the link: the same counts, the same readings, and the way back.
    await page.getByLabel('Case file with its tables').setInputFiles(join(folder, 'demo', 'saved.yaml'));
    await page.locator('.in-use').waitFor();
    await expect.poll(async () => counts(page)).toEqual(after);
    const travel = page.getByRole('textbox', { name: 'Bump travel' });
    expect(await travel.getAttribute('readonly')).not.toBeNull();
    expect(await page.locator('.settings').textContent()).toContain('cannot be set by hand as well');
    expect(await page.getByRole('textbox', { name: 'witness' }).inputValue()).toBe('1.25');
    await expect.poll(() => page.url()).toContain('learned=');
    const linked = await openBench(context, BENCH, new URL(page.url()).hash.slice(1));
    await counted(linked.page);
    await expect.poll(async () => counts(linked.page)).toEqual(after);
    await linked.page.close();
    await button(page, 'Go back to the case as it was').click();
    await expect.poll(async () => counts(page)).toEqual(before);
    expect(await travel.getAttribute('readonly')).toBeNull();
    expect(heard).toEqual([]);
    await context.close();
  });

  it('keeps the place that readings were taken in when the tub is moved, and asks before more are typed', async () => {
    const context = await browser.newContext({ acceptDownloads: true });
    const { page, heard } = await openBench(context);
    const saved = async (): Promise<Record<string, string>> => {
      const files: Record<string, string> = {};
      const keep = async (one: Download): Promise<void> => {
        files[one.suggestedFilename()] = readFileSync(await one.path(), 'utf8');
      };
      page.on('download', keep);
      await button(page, 'Save what was measured').click();
      await expect.poll(() => Object.keys(files).length).toBe(3);
      page.off('download', keep);
      return files;
    };
    const gap = page.getByRole('textbox', { name: 'Measured gap left, straight up' });
    await gap.fill('6');
    await addAbsence(page, '1');
    const first = await saved();
    expect(first['as-built.csv']).toContain('street-42,39.3125,0.2500');
    expect(first['marks.csv']).toContain('tall-slick,35,not touched');

    await button(page, 'down').click();
    await button(page, 'forward').click();
    await page.locator('.picks select').first().selectOption('middle-44');
    await page.locator('.picks select').last().selectOption('class-radial');
    await page.getByRole('textbox', { name: 'Speed at the finish' }).fill('230');
    await page.keyboard.press('Enter');
    expect(await saved()).toEqual(first);
    const asked = page.locator('.measured[role=alert]');
    expect(((await asked.textContent()) ?? '').replaceAll('\u00a0', ' ')).toMatch(
      /Measured in street-42, top at 39 5\/16 in.*now shows middle-44, top at 39 1\/4 in.*other values of the car/,
    );
    await page.locator('.picks select').last().selectOption('tall-slick');
    expect(await gap.getAttribute('readonly')).not.toBeNull();
    await button(page, 'Show the car as it was measured').click();
    expect(await whereText(page)).toBe('Top 39 5/16 in above the track, centre 1/4 in ahead of the axle');
    expect(await asked.count()).toBe(0);
    expect(await gap.getAttribute('readonly')).toBeNull();

    await button(page, 'up').click();
    await button(page, 'It was measured as shown now').click();
    expect((await saved())['as-built.csv']).toContain('street-42,39.3750,0.2500');
    await button(page, 'Clear all measures').click();
    expect(await gap.inputValue()).toBe('');
    expect(await button(page, 'Save what was measured').isDisabled()).toBe(true);
    await button(page, 'Undo').click();
    expect(await gap.inputValue()).toBe('6');
    expect(heard).toEqual([]);
    await context.close();
  });

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
    await lesson.waitFor();
    expect(await lesson.textContent()).toMatch(/Nothing was learned.*Gap of 3 in at 0° left: at odds with/);
    expect(await button(page, 'Use what was learned').count()).toBe(0);
    expect(heard).toEqual([]);
    await context.close();
  });
});
