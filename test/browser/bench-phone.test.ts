import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { AxeBuilder } from '@axe-core/playwright';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { DEMO, tubgap } from '../end-to-end/command.ts';
import { BENCH, openBench, whereText } from './bench-page.ts';
import { canOpen, openBrowser } from './browser.ts';

const PHONE = { width: 390, height: 664 };
const LYING = { width: 844, height: 390 };
const plain = (text: string | null): string => (text ?? '').replaceAll('\u00a0', ' ');

interface Box {
  top: number;
  bottom: number;
  left: number;
  right: number;
}

const boxOf = async (page: Page, place: string): Promise<Box> =>
  (await page.evaluate(`(() => {
    const { top, bottom, left, right } = document.querySelector(${JSON.stringify(place)}).getBoundingClientRect();
    return { top, bottom, left, right };
  })()`)) as Box;

const overlap = (a: Box, b: Box): boolean =>
  a.left < b.right - 1 && b.left < a.right - 1 && a.top < b.bottom - 1 && b.top < a.bottom - 1;

describe.skipIf(!canOpen)('bench page on a phone', () => {
  let browser: Browser;
  let context: BrowserContext;
  let folder: string;
  beforeAll(async () => {
    browser = await openBrowser();
    folder = mkdtempSync(join(tmpdir(), 'tubgap-phone-'));
  });
  afterAll(async () => {
    rmSync(folder, { recursive: true, force: true });
    await browser?.close();
  });
  afterEach(async () => {
    await context?.close();
  });
  const opened = async (size: typeof PHONE, file = BENCH, link = ''): Promise<Page> => {
    context = await browser.newContext({ hasTouch: true, isMobile: true, viewport: size });
    const { page } = await openBench(context, file, link, size);
    await page.waitForSelector('.files', { state: 'attached' });
    await page.waitForSelector('.scene.near');
    return page;
  };
  const screen = (page: Page, name: string): Promise<void> =>
    page.getByRole('navigation', { name: 'Screens' }).getByRole('button', { name }).tap();

  it.each([PHONE, LYING])(
    'keeps crown, risk and buttons in sight while a thumb moves the tub: %o',
    async (size) => {
      const page = await opened(size);
      const caution = await boxOf(page, '.at-the-car > .caution');
      expect(caution.bottom).toBeLessThan(size.height);
      for (const scrolled of [0, 400]) {
        await page.evaluate(`scrollTo(0, ${scrolled})`);
        const [risk, crown, buttons, screens] = [
          await boxOf(page, '.risk-line'),
          await boxOf(page, '.picture [data-part="tub"]'),
          await boxOf(page, '.nudges'),
          await boxOf(page, '.screens'),
        ];
        expect(risk.top).toBeGreaterThanOrEqual(0);
        expect(crown.top).toBeGreaterThanOrEqual(risk.bottom);
        // At least 100 px of the crown's gap are seen over the buttons.
        expect(crown.top + 100).toBeLessThan(size.width > size.height ? size.height : buttons.top);
        expect(screens.bottom).toBeCloseTo(size.height, 0);
        expect([overlap(risk, buttons), overlap(buttons, screens)]).toEqual([false, false]);
      }
      for (const name of ['up', 'forward']) await page.getByRole('button', { name, exact: true }).tap();
      expect(await whereText(page)).toBe('Top 39 3/8 in above the track, centre 5/16 in ahead of the axle');
    },
  );

  it('takes a reading by its keys and says PASS or FAIL at once, place by place', async () => {
    const small = join(folder, 'small.html');
    const few = ['--set', 'simulation.draws=20480', '--set', 'simulation.cars=128'];
    expect(tubgap(folder, 'show', join(DEMO, 'case.yaml'), ...few, '--no-open', '--out', small).code).toBe(0);
    const page = await opened(PHONE, small, 'case=winged-door-car&tub=street-42&tyre=tall-slick&top=1016');
    await page.locator('.progress', { hasText: 'weighed' }).waitFor({ state: 'attached' });
    await screen(page, 'Measure');
    expect(await page.locator('.gaps').isVisible()).toBe(false);
    const press = (name: string): Promise<void> =>
      page.locator('.pad').getByRole('button', { name, exact: true }).tap();
    const reading = async (): Promise<string> => plain(await page.locator('.reading').textContent());
    await page.getByRole('combobox', { name: /of 26/ }).selectOption('left 0');
    for (const name of ['7', '1/16']) await press(name);
    expect(await reading()).toMatch(/^7 1\/16 in.*PASS/);
    for (const name of ['3', '13/16']) await press(name);
    expect(await reading()).toMatch(/^3 13\/16 in.*FAIL by \d/);
    expect(plain(await page.locator('.fault[role=alert]:visible').textContent())).toContain('STOP');
    await press('Next: right');
    expect(await reading()).toMatch(/right: not measured/);
    await page.getByRole('combobox', { name: /of 26/ }).selectOption('left point cage bar');
    await press('2');
    expect(await reading()).toMatch(/^2 in.*no limit known/);
    await page.getByRole('combobox', { name: /of 26/ }).selectOption('right top');
    for (const name of ['3', '9', '1/2']) await press(name);
    expect(await reading()).toMatch(/^39 1\/2 in/);
    await expect.poll(() => decodeURIComponent(page.url())).toContain('3+13/16');
    await screen(page, 'Learn');
    expect(await page.getByRole('button', { name: 'Learn from what was typed in' }).isVisible()).toBe(true);
    expect(await page.locator('.pad').isVisible()).toBe(false);
  });

  it('is sound on every screen, upright, lying and with text twice as large', async () => {
    for (const size of [PHONE, LYING, { width: 320, height: 568 }]) {
      const page = await opened(size);
      const text = await page.evaluate(`(() => {
        const svg = document.querySelector('.picture svg[role=img]');
        const scale = svg.clientWidth / svg.viewBox.baseVal.width;
        return Math.min(...[...svg.querySelectorAll('text')].map((one) => scale * parseFloat(getComputedStyle(one).fontSize)));
      })()`);
      if (size.width >= 390) expect(text).toBeGreaterThanOrEqual(12);
      for (const name of ['Place', 'Measure', 'Learn']) {
        await screen(page, name);
        const { violations } = await new AxeBuilder({ page }).analyze();
        expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)).toEqual([]);
      }
      await page.addStyleTag({ content: 'html { font-size: 200% }' });
      for (const name of ['Place', 'Measure', 'Learn']) {
        await screen(page, name);
        expect(await page.evaluate('document.documentElement.scrollWidth')).toBeLessThanOrEqual(size.width);
      }
      await context.close();
    }
  });
});
