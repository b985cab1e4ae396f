import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { DEMO } from '../end-to-end/command.ts';
import { BENCH, openBench, whereText } from './bench-page.ts';
import { canOpen, openBrowser } from './browser.ts';

const PLACE = 'case=winged-door-car&tub=street-42&tyre=tall-slick';
const plain = (text: string | null): string => (text ?? '').replaceAll('\u00a0', ' ');
const atRisk = async (page: Page): Promise<string[]> =>
  (await page.locator('.hidden-settings li').allTextContents()).map(plain);
const listed = async (page: Page): Promise<string[]> =>
  (await page.locator('.brought li').allTextContents()).map(plain);

describe.skipIf(!canOpen)('what a link or a saved case brings to the bench page', () => {
  let browser: Browser;
  let context: BrowserContext;
  let folder: string;
  beforeAll(async () => {
    browser = await openBrowser();
    folder = mkdtempSync(join(tmpdir(), 'tubgap-brought-'));
    cpSync(DEMO, join(folder, 'demo'), { recursive: true });
  });
  afterAll(async () => {
    rmSync(folder, { recursive: true, force: true });
    await browser?.close();
  });
  afterEach(async () => {
    await context?.close();
  });

  it('is listed, and stands at the risk where no field shows it', async () => {
    context = await browser.newContext();
    const values = new URLSearchParams({
      'tyres[0].growthScale': '~1 %',
      'run.trapSpeed': '~230 mph',
      'suspension.wheelRate': '{ law: constant, value: 230 lbf/in, each: car }',
      'accept.runRisk': '0.01',
    });
    const { page, heard } = await openBench(context, BENCH, `${PLACE}&top=998.5375&${values}`);
    const risk = await atRisk(page);
    expect(risk).toHaveLength(3);
    expect(risk.join('\n')).toMatch(/growth.* of tall-slick: ~1 % \(the case: left out\)/);
    expect(risk.join('\n')).toMatch(/: 0\.01 \(the case: .+\)/);
    expect(risk.join('\n')).toMatch(/wheel rate.*law: constant/i);
    await page.waitForSelector('.files');
    expect(await listed(page)).toHaveLength(4);
    expect((await listed(page)).join('\n')).toContain('~230 mph');
    expect(heard).toEqual([]);
  });

  it('is told of a saved case too, against the case that the page was made with', async () => {
    const file = join(folder, 'demo', 'case.yaml');
    const text = readFileSync(file, 'utf8')
      .replace('mean: 224 mph, sd: 3 mph', 'mean: 226 mph, sd: 0.1 mph')
      .replace(/^title: .*$/m, 'title: saved');
    expect(text).toContain('sd: 0.1 mph');
    writeFileSync(file, text);
    context = await browser.newContext();
    const { page } = await openBench(context);
    expect(await atRisk(page)).toEqual([]);
    await page.waitForSelector('.files');
    expect(await listed(page)).toEqual([]);
    await page.getByLabel('Case file with its tables').setInputFiles(file);
    await page.locator('.hidden-settings').waitFor();
    const risk = await atRisk(page);
    expect(risk).toHaveLength(1);
    expect(risk[0]).toMatch(/0\.1 mph \(the case: 3 mph\)/);
    expect((await listed(page)).join('\n')).toContain('226 mph');
  });

  it('leaves out measures of a saved case whose car cannot be, and says so', async () => {
    const file = join(folder, 'demo', 'measured.yaml');
    const measures = {
      gaps: { 'left 0': '6' },
      marks: [],
      car: { tub: 'street-42', topHeight: -1e300, notches: {}, values: {} },
    };
    const remark = JSON.stringify({ tub: 'street-42', tyre: 'tall-slick', units: 'inch', measures });
    writeFileSync(file, `${readFileSync(join(DEMO, 'case.yaml'), 'utf8')}\n# shown: ${remark}\n`);
    context = await browser.newContext();
    const { page, heard } = await openBench(context);
    await page.waitForSelector('.files');
    await page.getByLabel('Case file with its tables').setInputFiles(file);
    await page.getByText('What was measured cannot be of this case and is left out').waitFor();
    expect(await page.getByRole('textbox', { name: 'Measured gap left, straight up' }).inputValue()).toBe('');
    expect(heard).toEqual([]);
  });

  it.each([
    ['top=-1e308', /top|heights/],
    ['top=1e24', /heights/],
    ['top=abc', /top: read "abc"/],
    ['top=998.5&centre=99999', /tubCentreForward/],
    [`top=998.5&${new URLSearchParams({ 'notch street-42': '9 9999' })}`, /notches/],
    [
      `top=998.5&${new URLSearchParams({
        measures: JSON.stringify({
          gaps: { 'left 0': '6' },
          marks: [],
          car: { tub: 'street-42', topHeight: -1e300, notches: {}, values: {} },
        }),
      })}`,
      /heights/,
    ],
  ])('is refused where it is out of range, and nothing is drawn of it: %s', async (said, why) => {
    context = await browser.newContext();
    const { page, heard } = await openBench(context, BENCH, `${PLACE}&${said}`);
    const told = plain(await page.locator('.fault[role=alert]').first().textContent());
    expect(told).toContain('The link cannot be used; the page begins as its case says');
    expect(told).toMatch(why);
    expect(await whereText(page)).toBe('Top 39 5/16 in above the track, centre 1/4 in ahead of the axle');
    const seen = String(await page.evaluate('document.body.innerText'));
    expect(seen).not.toMatch(/NaN|Infinity/);
    expect(heard).toEqual([]);
  });
});
