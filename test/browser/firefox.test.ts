import { existsSync } from 'node:fs';
import { answerCall, type Found, INVENTED_TUBS_TEXT } from '@tubgap/interview';
import { sixteenths } from '@tubgap/units';
import puppeteer, { type Browser, type Page } from 'puppeteer-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { ASKING } from './call-page.ts';

/** Another engine than the rest of these tests has. Firefox as the system's packages install it; TUBGAP_FIREFOX names another. */
const FIREFOX = process.env.TUBGAP_FIREFOX ?? '/usr/bin/firefox-esr';
const isThere = existsSync(FIREFOX);
if (!isThere) process.stderr.write(`\nSKIPPED: no Firefox at ${FIREFOX}: the page is not tried in it.\n\n`);

/** An invented caller. */
const ANSWERS = { tyres: [{ size: '33.5x17.0-16', build: 'bias slick' }], speed: '224 mph' };

const typed = (page: Page, question: string, text: string): Promise<void> =>
  page.locator(`::-p-aria([name="${question}"][role="textbox"])`).fill(text);

const text = async (page: Page, place: string): Promise<string> =>
  ((await page.$eval(place, (found) => found.textContent)) ?? '').replaceAll('\u00a0', ' ');

describe.skipIf(!isThere)('a call in Firefox', () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await puppeteer.launch({
      browser: 'firefox',
      executablePath: FIREFOX,
      headless: true,
      protocolTimeout: 0,
    });
  });
  afterAll(() => browser?.close());

  it('is answered after three fields, in the end with the figures that Node finds', async () => {
    const page = await browser.newPage();
    page.setDefaultTimeout(0);
    const problems: string[] = [];
    page.on('pageerror', (error) => problems.push(String(error)));
    await page.setViewport({ width: 390, height: 844 });
    await page.goto(`file://${ASKING}`);
    await page.waitForSelector('#page:not([inert]) .asking');
    const [{ size, build }] = ANSWERS.tyres as [{ size: string; build: string }];
    await typed(page, 'What is printed on the rear tyre?', size);
    await page.locator(`::-p-aria([name="${build}"][role="radio"])`).click();
    await typed(page, 'How fast is it at the finish?', ANSWERS.speed);
    await page.waitForSelector('.headline');
    await page.waitForFunction(`
      document.querySelector('.progress')?.textContent.includes('Settled') &&
      document.querySelector('.headline')?.textContent.includes('set out')`);

    let found: Found | undefined;
    await answerCall(
      { answers: ANSWERS, tubs: INVENTED_TUBS_TEXT, questionsOnly: true },
      {
        tell: (answer) => {
          if (answer.kind === 'found') found = answer.found;
        },
        goOn: async () => true,
      },
    );
    const { picks, chosen, look } = found!;
    const headline = await text(page, '.headline');
    expect(headline).toContain(picks[chosen!]!.tub);
    expect(headline).toContain(sixteenths(look!.setOut!.topHeight, 'up'));
    expect(await text(page, 'body')).toContain('Tyre contact at speed can kill');
    expect(problems).toEqual([]);
  });
});
