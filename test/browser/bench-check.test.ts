import { cpSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';
import { AxeBuilder } from '@axe-core/playwright';
import { csvRows } from '@tubgap/casefile';
import type { Browser, BrowserContext, Locator, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, inject, it } from 'vitest';
import { tubgap } from '../end-to-end/command.ts';
import { paper } from '../papers/paper-folder.ts';
import { BENCH, openBench } from './bench-page.ts';
import { canOpen, openBrowser } from './browser.ts';

const field = (page: Page, name: string): Locator => page.getByRole('textbox', { name, exact: true });
const heading = (degrees: number): string =>
  degrees === 0 ? 'straight up' : `${Math.abs(degrees)}° ${degrees > 0 ? 'ahead' : 'behind'}`;
const plain = async (one: Locator): Promise<string> =>
  ((await one.textContent()) ?? '').replaceAll('\u00a0', ' ');

/** Rows of a table of the results folder, by head. */
function rowsOf(folder: string, file: string): Record<string, string>[] {
  const [head, ...rows] = Array.from(
    csvRows(paper(folder, file), () => {}),
    (row) => row.map(({ text }) => text),
  );
  return rows.map((cells) => Object.fromEntries(head!.map((name, i) => [name, cells[i]!])));
}

describe.skipIf(!canOpen)('check sheet on the bench page', () => {
  const demo = inject('demo');
  let browser: Browser;
  let context: BrowserContext;
  let folder: string;
  let made: string;
  beforeAll(async () => {
    browser = await openBrowser();
    folder = mkdtempSync(join(tmpdir(), 'tubgap-check-'));
    const results = join(folder, basename(demo));
    cpSync(demo, results, { recursive: true });
    made = join(results, 'at-the-car.html');
    expect(tubgap(folder, 'show', results, '--no-open').code).toBe(0);
  });
  afterAll(async () => {
    rmSync(folder, { recursive: true, force: true });
    await browser?.close();
  });
  afterEach(async () => {
    await context?.close();
  });

  it('is judged value by value against the limits of the results, and stops where one fails', async () => {
    context = await browser.newContext();
    const { page, heard } = await openBench(context, made);
    await page.waitForSelector('.files');
    const limits: [name: string, limit: number][] = [
      ...rowsOf(demo, 'check-sheet.csv').map(({ side, angle_deg, limit_in }): [string, number] => [
        `Measured gap ${side}, ${heading(Number(angle_deg))}`,
        Number(limit_in),
      ]),
      ...rowsOf(demo, 'check-hard-points.csv').map((row): [string, number] => [
        `Measured gap ${row.side}, to ${row.hard_point}`,
        Number(row.limit_in),
      ]),
      ...rowsOf(demo, 'check-tub.csv').flatMap((row): [string, number][] => [
        [`Measured top above the track, ${row.side}`, Number(row.top_least_in)],
        [`Measured centre ahead of the axle, ${row.side}`, Number(row.centre_least_in)],
      ]),
    ];
    expect(limits.length).toBeGreaterThan(20);
    for (const [name, limit] of limits) await field(page, name).fill((limit + 0.001).toFixed(4));
    const whole = page.locator('.sheet');
    expect(await plain(whole)).toContain(`PASS: all ${limits.length} values of the check sheet`);
    expect(await plain(page.locator('.gaps'))).not.toContain('FAIL');

    for (const [name, limit] of [limits[0]!, limits.at(-1)!, limits.at(-2)!]) {
      await field(page, name).fill((limit - 0.1).toFixed(4));
      const stop = page.locator('.fault[role=alert]', { hasText: 'STOP: the car does not run' });
      expect(await plain(stop)).toMatch(/FAIL: .*Tyre contact at speed can kill.*qualified chassis builder/);
      expect(await plain(page.locator('td', { has: field(page, name) }))).toMatch(/FAIL by 1\/8 in/);
      expect(await whole.count()).toBe(0);
      await field(page, name).fill((limit + 0.001).toFixed(4));
      expect(await whole.count()).toBe(1);
    }

    await field(page, limits[0]![0]).fill('');
    expect(await plain(whole)).toMatch(/NOT PASSED YET: .*1 not measured: .*or the car does not run/);
    const { violations } = await new AxeBuilder({ page }).analyze();
    expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)).toEqual([]);
    expect(heard).toEqual([]);
  });

  it('is judged by the lowest height within the limits where the page lies beside no results', async () => {
    context = await browser.newContext();
    // 1/4 in below what the page counts as the lowest: every gap to see is itself too little.
    const link = `case=winged-door-car&tub=street-42&tyre=tall-slick&top=${39.0625 * 25.4}`;
    const { page } = await openBench(context, BENCH, link);
    // A lowest height is told once nothing moves it any more.
    await page.locator('.progress', { hasText: 'weighed' }).waitFor();
    const name = 'Measured gap left, straight up';
    const see = page
      .locator('tr', { has: field(page, name) })
      .locator('td')
      .first();
    const [, whole, part, , over] =
      /^(\d+)(?: (\d+)\/(\d+))? in.*passes at (.*) in$/.exec(await plain(see)) ?? [];
    expect(over).toBeDefined();
    await field(page, name).fill(`${whole}${part === undefined ? '' : ` ${part}/16`}`);
    expect(await plain(page.locator('td', { has: field(page, name) }))).toMatch(/FAIL by/);
    expect(await plain(page.locator('.fault', { hasText: 'STOP: the car does not run' }))).toContain(
      'counted on this page',
    );
    await field(page, name).fill('9');
    expect(await plain(page.locator('td', { has: field(page, name) }))).toMatch(/PASS/);
  });

  it.each(['600', '-2 in', '-0.1 mm'])(
    'takes no %s for a gap, and says so where it is typed',
    async (typed) => {
      context = await browser.newContext();
      const { page } = await openBench(context);
      const gap = field(page, 'Measured gap left, straight up');
      await gap.fill(typed);
      expect(await plain(page.locator('td', { has: gap }))).toContain('cannot be: 0 in to 20 in');
      expect(await gap.getAttribute('aria-invalid')).toBe('true');
      expect(await page.getByRole('button', { name: 'Learn from what was typed in' }).isDisabled()).toBe(
        true,
      );
      expect(await plain(page.locator('.sheet'))).toContain('NOT PASSED YET');
    },
  );

  it('presets nothing of a mark, and counts no mark on bare skin as none', async () => {
    context = await browser.newContext();
    const { page } = await openBench(context);
    await page.getByRole('button', { name: 'Add a mark' }).click();
    const row = page.locator('.mark');
    const mark = page.getByRole('combobox', { name: 'mark', exact: true });
    const witness = page.getByRole('combobox', { name: 'chalk, tape or clay was stuck on that place' });
    const learn = page.getByRole('button', { name: 'Learn from what was typed in' });
    expect([await mark.inputValue(), await witness.inputValue()]).toEqual(['', '']);
    for (const name of ['angle, °', 'in runs']) expect(await page.getByLabel(name).inputValue()).toBe('');
    expect(await plain(row)).toContain('Not used yet: say whether it was touched');
    await mark.selectOption('no');
    await page.getByLabel('angle, °').fill('0');
    await page.getByLabel('in runs').fill('6');
    expect(await plain(row)).toContain('Not used yet: say whether something was stuck there');
    expect(await learn.isDisabled()).toBe(true);
    await witness.selectOption('no');
    expect(await plain(row)).toContain('bare skin may be touched and show nothing');
    expect(await learn.isDisabled()).toBe(true);
    await witness.selectOption('yes');
    expect(await plain(row)).not.toContain('Not used');
    expect(await learn.isDisabled()).toBe(false);
  });
});
