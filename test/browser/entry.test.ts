import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { AxeBuilder } from '@axe-core/playwright';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { DEMO, tubgap } from '../end-to-end/command.ts';
import { openBench } from './bench-page.ts';
import { canOpen, openBrowser } from './browser.ts';
import { openCall } from './call-page.ts';

const PHONE = { width: 390, height: 844 };

describe.skipIf(!canOpen)('an entry of the shop’s book, typed at the car', () => {
  let folder: string;
  let browser: Browser;
  let context: BrowserContext;
  const at = (...parts: string[]): string => join(folder, ...parts);
  const history = (): string => at('shop/cars/grey/history.csv');
  const book = (...words: string[]) => tubgap(folder, 'book', ...words);

  beforeAll(async () => {
    folder = mkdtempSync(join(tmpdir(), 'tubgap-entry-'));
    cpSync(DEMO, at('demo'), { recursive: true });
    book('new', 'shop', '--name', 'back-street', '--invented');
    book('add', 'shop', 'demo/case.yaml', '--name', 'grey');
    browser = await openBrowser();
  });
  afterAll(async () => {
    await browser.close();
    rmSync(folder, { recursive: true, force: true });
  });
  afterEach(() => context?.close());

  const open = async (size = PHONE) => {
    context = await browser.newContext({ viewport: size, hasTouch: true, acceptDownloads: true });
    const opened = await openCall(context, size);
    await opened.page.locator('.entries summary').tap();
    return opened;
  };
  const choose = (page: Page, words: string) => page.getByRole('radio', { name: words, exact: true }).check();
  const type = (page: Page, label: string | RegExp, text: string) =>
    page.locator('.entries').getByLabel(label).fill(text);
  const add = (page: Page) => page.getByRole('button', { name: 'Add this entry' }).tap();
  const saved = async (page: Page, button: string): Promise<{ name: string; text: string }> => {
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: button }).tap(),
    ]);
    return { name: download.suggestedFilename(), text: readFileSync((await download.path())!, 'utf8') };
  };

  it('goes from a thumb into the car’s history, and stops a car with a mark', async () => {
    const { page, heard } = await open();
    await type(page, 'Which car?', 'grey');
    await choose(page, 'tub moved or changed');
    await type(page, 'On which day?', '2026-03-01');
    await type(page, 'Which tub is in the car?', 'street-42');
    await type(page, /How high is its inside top/, '38 1/2');
    await add(page);
    await choose(page, 'runs made');
    await type(page, 'On which day?', '2026-05-02');
    await add(page);
    const faults = page.locator('.entries .fault');
    expect((await faults.allTextContents()).join(' ')).toMatch(
      /This is needed.*runs after which nobody looked say nothing.*Not added yet/,
    );
    await type(page, 'Which tyre ran?', 'tall-slick');
    await type(page, 'How many runs?', '12');
    await type(page, 'Slowest at the finish (mph)', '220');
    await type(page, 'Fastest at the finish (mph)', '2260');
    await faults.filter({ hasText: /^This cannot be: 20.mph to 345.mph\.$/ }).waitFor();
    await type(page, 'Fastest at the finish (mph)', '210');
    await choose(page, 'a mark');
    await page
      .getByRole('alert')
      .filter({ hasText: /Stop: do not run this car again/ })
      .waitFor();
    await add(page);
    await page
      .getByRole('alert')
      .filter({ hasText: /slower speed .* above the faster/ })
      .waitFor();
    await type(page, 'Fastest at the finish (mph)', '226');
    await type(page, 'Where is the mark, and how large?', 'left, 30° ahead, "thumb"');
    await add(page);
    await page
      .getByRole('alert')
      .filter({ hasText: /^A mark was found. Stop/ })
      .waitFor();
    const rows = await saved(page, 'Save history-rows.csv');
    expect(rows.name).toBe('history-rows.csv');
    writeFileSync(history(), rows.text);
    // A telephone drops a page: what was typed is still there.
    await page.reload();
    await page.locator('summary', { hasText: '2 not handed over yet' }).tap();
    const out = () => book('list', 'shop').out;
    expect(out()).toMatch(/SEEN\s+0 readings, 0 runs without a mark, 1 mark; newest of 2026-05-02/);
    expect(out()).toMatch(/grey: runs of 2026-05-02 left a mark \(history\.csv:3\)/);
    await page.getByRole('button', { name: 'All handed over' }).tap();

    // With the car's own history opened the row stands in its columns, and the whole file is saved.
    await page.getByLabel('Open a car’s history').setInputFiles(history());
    await page.getByRole('status').filter({ hasText: '2 entries read' }).waitFor();
    await choose(page, 'a mark looked into');
    await type(page, 'On which day?', '2026-05-03');
    await type(page, 'What was it, and what was done?', 'a stone');
    await add(page);
    const whole = await saved(page, 'Save history.csv');
    expect(whole.text).toBe(`${rows.text}2026-05-03,looked into,,,,,,,,,,,,a stone\n`);
    writeFileSync(history(), whole.text);
    expect(out()).not.toMatch(/left a mark/);
    expect(heard).toEqual([]);
  });

  it('is the same told as a command, typed in metric units', async () => {
    const { page } = await open();
    await page.getByRole('button', { name: 'Show mm' }).tap();
    await type(page, 'Which car?', 'grey');
    await type(page, 'On which day?', '2026-06-01');
    await type(page, 'Which tyre ran?', 'tall-slick');
    await type(page, 'How many runs?', '3');
    await type(page, 'Slowest at the finish (km/h)', '350');
    await type(page, 'Fastest at the finish (km/h)', '360');
    await type(page, /How high was its inside top/, '980');
    await type(page, 'Which tub was in the car?', 'street-42');
    await choose(page, 'no mark');
    await add(page);
    const command = (await page.locator('.entered pre').last().textContent())!;
    expect(command).toMatch(/^tubgap book enter SHOP grey --entry runs .* --mark none$/);
    const before = readFileSync(history(), 'utf8');
    const words = [...command.replace('SHOP', 'shop').matchAll(/"([^"]*)"|(\S+)/g)].map(
      ([, a, b]) => a ?? b!,
    );
    expect(tubgap(folder, ...words.slice(1))).toMatchObject({ code: 0, err: '' });
    const { text } = await saved(page, 'Save history-rows.csv');
    expect(readFileSync(history(), 'utf8')).toBe(before + text.split('\n').slice(1).join('\n'));
  });

  it.each([320, 390, 1280])('passes the accessibility checker and fits at %i px', async (width) => {
    const { page } = await open({ width, height: 844 });
    await type(page, 'On which day?', '2026-05-02');
    await type(page, 'Which tyre ran?', 'tall-slick');
    await type(page, 'How many runs?', '12');
    await choose(page, 'a mark');
    await add(page);
    await add(page);
    const { violations } = await new AxeBuilder({ page }).analyze();
    expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)).toEqual([]);
    expect(await page.evaluate('document.documentElement.scrollWidth')).toBeLessThanOrEqual(width);
  });

  it('offers the tyres and tubs of the case where the page has one', async () => {
    context = await browser.newContext({ viewport: PHONE, hasTouch: true });
    const { page } = await openBench(context, undefined, '', PHONE);
    await page.getByRole('button', { name: 'Learn', exact: true }).tap();
    await page.locator('.entries summary').tap();
    expect(await page.getByLabel('Which car?').inputValue()).not.toBe('');
    const names = await page.evaluate(
      `[...document.querySelectorAll('#entry-tyre-names option')].map((one) => one.value)`,
    );
    expect(names).toContain('tall-slick');
    expect(await page.evaluate('document.documentElement.scrollWidth')).toBeLessThanOrEqual(390);
  });
});
