import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { demoPage } from '@tubgap/bench/page';
import type { BrowserContext, Page } from 'playwright-core';

const folder = mkdtempSync(join(tmpdir(), 'tubgap-demo-page-'));
process.on('exit', () => rmSync(folder, { recursive: true, force: true }));

/** The bench page as it is built, with the demo in it. */
export const BENCH = join(folder, 'bench.html');
writeFileSync(BENCH, demoPage());

export const benchText = (): string => readFileSync(BENCH, 'utf8');

/** A page with what it said on the console, asked of the network or tried against its own policy; its own workers are no network. */
export interface Heard {
  page: Page;
  heard: string[];
}

/** Opens a page and hears what it says; `link` is what stands after #, `ready` is there once its script has taken it over. */
export async function listenTo(
  context: BrowserContext,
  file: string,
  link: string,
  size: { width: number; height: number },
  ready: string,
): Promise<Heard> {
  const page = await context.newPage();
  page.setDefaultTimeout(0);
  await page.setViewportSize(size);
  const heard: string[] = [];
  const address = pathToFileURL(file).href;
  await page.addInitScript(`addEventListener('securitypolicyviolation', (event) =>
    console.error('forbidden: ' + event.violatedDirective + ' ' + event.blockedURI))`);
  page.on('console', (message) => heard.push(`${message.type()}: ${message.text()}`));
  page.on('pageerror', (error) => heard.push(String(error)));
  page.on('request', (request) => {
    const url = request.url();
    if (!url.startsWith(address) && !url.startsWith('blob:')) heard.push(`asked for ${url}`);
  });
  await page.goto(link === '' ? address : `${address}#${link}`);
  await page.waitForSelector(ready);
  return { page, heard };
}

/** Opens a bench page. Waits until its script has taken it over. */
export const openBench = (
  context: BrowserContext,
  file = BENCH,
  link = '',
  size = { width: 1280, height: 900 },
): Promise<Heard> => listenTo(context, file, link, size, '#page:not([inert]) .picture svg[role=img]');

/** Waits until every run and season is counted. */
export async function counted(page: Page): Promise<void> {
  await page.locator('.progress', { hasText: /Weighing|weighed/ }).waitFor();
}

/** Counts behind the chances shown: too close, contact, season. */
export const counts = async (page: Page): Promise<{ touches: number; events: number }[]> =>
  (await page.evaluate(
    `[...document.querySelectorAll('.chance')].map((one) => ({ touches: Number(one.dataset.touches), events: Number(one.dataset.events) }))`,
  )) as { touches: number; events: number }[];

/** Words of the tub's place: 'Top 39 5/16 in above the track, centre 1/4 in ahead of the axle'. */
export const whereText = async (page: Page): Promise<string> =>
  ((await page.locator('.where').textContent()) ?? '').replaceAll('\u00a0', ' ');
