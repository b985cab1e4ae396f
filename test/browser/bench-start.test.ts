import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { DEMO, tubgap } from '../end-to-end/command.ts';
import { BENCH, benchText, openBench } from './bench-page.ts';
import { canOpen, openBrowser } from './browser.ts';

const PICTURE = `document.querySelector('.picture svg[role=img]').outerHTML`;
const WORDS = `[...document.querySelectorAll('h1, .where, .answer, .moves .strong')].map((one) => one.textContent)`;
const GRIP = `JSON.stringify(document.querySelector('.grip').getBoundingClientRect())`;

interface Seen {
  picture: unknown;
  words: unknown;
  grip: unknown;
}

const seen = async (page: Page): Promise<Seen> => ({
  picture: await page.evaluate(PICTURE),
  words: await page.evaluate(WORDS),
  grip: await page.evaluate(GRIP),
});

describe.skipIf(!canOpen)('first picture of the bench page', () => {
  let browser: Browser;
  let context: BrowserContext;
  let folder: string;
  beforeAll(async () => {
    browser = await openBrowser();
    folder = mkdtempSync(join(tmpdir(), 'tubgap-start-'));
  });
  afterAll(async () => {
    rmSync(folder, { recursive: true, force: true });
    await browser?.close();
  });
  afterEach(async () => {
    await context?.close();
  });

  /** What is seen without any script. */
  async function still(file: string): Promise<Seen> {
    const text = readFileSync(file, 'utf8');
    const unscripted = join(folder, 'unscripted.html');
    // The browser runs scripts for this test, the page has none left.
    writeFileSync(unscripted, text.replace(/<script(?! type="application).*?<\/script>/gs, ''));
    const page = await context.newPage();
    page.setDefaultTimeout(0);
    await page.setViewportSize({ width: 1280, height: 900 });
    await page.goto(pathToFileURL(unscripted).href);
    return seen(page);
  }

  /** A page whose workers say nothing, so that it stays as its script first draws it. */
  async function silent(file: string, link = ''): Promise<Page> {
    await context.addInitScript(`
      window.Worker = class { postMessage() {} terminate() {} };
      addEventListener('readystatechange', () => { window.stood ??= document.querySelector('.picture svg'); }, true);
    `);
    const { page, heard } = await openBench(context, file, link);
    await page.waitForSelector('.files');
    expect(heard).toEqual([]);
    return page;
  }

  it('stands in the file before its scripts, as the script draws it itself', async () => {
    const text = benchText();
    expect(text.indexOf('data-part="tub"')).toBeGreaterThan(0);
    expect(text.indexOf('data-part="tub"')).toBeLessThan(text.indexOf('<script'));
    context = await browser.newContext();
    const first = await still(BENCH);
    expect(JSON.stringify(first.words)).toContain('39 5/16 in'.replaceAll(' ', '\u00a0'));
    const link = 'case=winged-door-car&tub=street-42&tyre=tall-slick&top=998.5375';
    const drawn = await seen(await silent(BENCH, link));
    expect(first).toEqual(drawn);
  });

  it('is taken over by the script and not drawn again', async () => {
    context = await browser.newContext();
    const page = await silent(BENCH);
    expect(await page.evaluate(`stood === document.querySelector('.picture svg[role=img]')`)).toBe(true);
    expect(await page.locator('h1').count()).toBe(1);
    expect(await seen(page)).toEqual(await still(BENCH));
    await page.getByRole('button', { name: 'up', exact: true }).click();
    expect(await page.locator('.where').textContent()).toContain('39\u00a03/8');
  });

  it('is of the place that a link names, never of another', async () => {
    context = await browser.newContext();
    const page = await silent(BENCH, 'case=winged-door-car&tub=street-42&tyre=class-radial&top=1016');
    expect(await page.locator('.where').textContent()).toContain('40\u00a0in');
    expect(await page.evaluate('window.stood?.textContent ?? ""')).not.toContain('39\u00a05/16');
  });

  it('is of the case that the command puts in', async () => {
    const made = join(folder, 'made.html');
    const set = ['--set', 'tyres[0].coldPressure=9 psi'];
    expect(tubgap(folder, 'show', join(DEMO, 'case.yaml'), ...set, '--no-open', '--out', made)).toMatchObject(
      { code: 0, err: '' },
    );
    context = await browser.newContext();
    const first = await still(made);
    expect(first).toEqual(await seen(await silent(made)));
    expect(first.picture).not.toEqual((await still(BENCH)).picture);
  });
});
