import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { readResults } from '@tubgap/results';
import { oneIn } from '@tubgap/units';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, inject, it } from 'vitest';
import { counted, counts, openBench } from './bench-page.ts';
import { canOpen, openBrowser } from './browser.ts';

const INCH = 0.0254;
const demo = inject('demo');
const PAGE = join(demo, 'at-the-car.html');
const result = readResults(demo);
const pick = result.picks[result.chosen!]!;
const height = pick.height!;

const texts = async (page: Page, place: string): Promise<string[]> =>
  (await page.locator(place).allTextContents()).map((text) => text.replaceAll('\u00a0', ' '));

const linkTo = (tub: string, tyre: string, topHeight: number): string =>
  new URLSearchParams({ case: result.case.name, tub, tyre, top: String(topHeight * 1000) }).toString();

describe.skipIf(!canOpen)('the page of a pick', () => {
  let browser: Browser;
  let context: BrowserContext;
  beforeAll(async () => {
    browser = await openBrowser();
  });
  afterAll(() => browser?.close());
  afterEach(() => context?.close());

  /** A page whose workers say nothing: what it shows it has not counted. */
  async function silent(link = ''): Promise<Page> {
    context = await browser.newContext();
    await context.addInitScript('window.Worker = class { postMessage() {} terminate() {} }');
    return (await openBench(context, PAGE, link)).page;
  }

  it('shows the decision’s own figures at its height, and counts nothing for them', async () => {
    const page = await silent(linkTo(pick.tub, height.limitingTyre, height.topHeight));
    const { runRisk, contactRisk, seasonRisk } = height;
    expect(await texts(page, '.chance .main')).toEqual(
      [runRisk, contactRisk, seasonRisk].map(({ estimate, high }) =>
        estimate === 0 ? `under ${oneIn(high)}` : oneIn(estimate),
      ),
    );
    for (const [i, { estimate, high }] of [runRisk, contactRisk, seasonRisk].entries()) {
      if (estimate > 0) expect((await texts(page, '.chance .worst'))[i]).toBe(`at worst ${oneIn(high)}`);
    }
    for (const verdict of await texts(page, '.chance .verdict'))
      expect(verdict).toMatch(/^within your limit/);
    expect(await texts(page, '.progress')).toEqual([expect.stringMatching(/^The pick’s own figures: /)]);
    const where = (await texts(page, '.where b'))[0]!;
    expect((await texts(page, '.moves .strong'))[0]).toBe(
      `It stands at the lowest within your limits with ${height.limitingTyre}: ${where}`,
    );
    const tight = (await texts(page, '.tight'))[0]!;
    const [, whole = '0', over = '0', under = '1'] =
      /the 1 run in 2,000 leaves (?:(\d+) ?)??(?:(\d+)\/(\d+))? in\./.exec(tight)!;
    const left = (Number(whole) + Number(over) / Number(under)) * INCH;
    expect(left, tight).toBeGreaterThanOrEqual(result.build.reserve - 1e-6);
  });

  it('stands so in the file, before any script has run', () => {
    const text = readFileSync(PAGE, 'utf8').replaceAll('\u00a0', ' ');
    const still = text.slice(0, text.indexOf('<!-- end of the page -->'));
    expect(still).toContain('The pick’s own figures');
    expect(still).toContain('within your limit');
  });

  it('knows every tyre and tub at every height without counting', async () => {
    let seen = 0;
    for (const [t, { name: tub }] of result.tubs.entries()) {
      for (const [i, { name: tyre }] of result.tyres.entries()) {
        const { steps, lowest } = result.runs.tyres[i]!.tubs[t]!;
        // Runs are told from the floor on: what needs less stands there.
        const floors = result.runs.tyres.map(({ tubs }) => tubs[t]!.steps.findIndex((count) => count > 0));
        const step = Math.max(...floors) + 8;
        const page = await silent(linkTo(tub, tyre, lowest + (step * INCH) / 16));
        const [close] = await counts(page);
        const touches = steps.slice(step + 1).reduce((sum, count) => sum + count, 0);
        expect(close).toEqual({ touches, events: result.draws });
        if (touches > 0) seen++;
        await context.close();
      }
    }
    expect(seen).toBeGreaterThan(2);
  });

  it('counts anew after a change, says so, and has the pick’s figures again when it is taken back', async () => {
    context = await browser.newContext();
    const { page, heard } = await openBench(context, PAGE);
    const before = await texts(page, '.answer');
    await page.getByRole('textbox', { name: 'Speed at the finish' }).fill('228');
    await page.keyboard.press('Enter');
    await page.locator('.progress', { hasText: /Counting anew|Counted anew/ }).waitFor();
    await counted(page);
    expect(await texts(page, '.progress')).toEqual([expect.stringMatching(/^Counted anew: /)]);
    expect(await texts(page, '.answer')).not.toEqual(before);
    await page.getByRole('button', { name: 'Undo' }).click();
    await page.locator('.progress', { hasText: 'The pick’s own figures' }).waitFor();
    expect(await texts(page, '.answer')).toEqual(before);
    await page.getByRole('button', { name: 'up', exact: true }).click();
    expect(await texts(page, '.progress')).toEqual([expect.stringMatching(/^The pick’s own figures/)]);
    expect(heard).toEqual([]);
  });
});
