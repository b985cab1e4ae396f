import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import type { BrowserContext, Locator, Page } from 'playwright-core';
import { expect } from 'vitest';
import { type Heard, listenTo } from './bench-page.ts';

const require = createRequire(import.meta.url);

/** The page as it is built: it begins with its questions. */
export const ASKING = join(dirname(require.resolve('@tubgap/bench')), 'bench.html');

/** Opens the page that begins with its questions; `link` is what stands after #. */
export const openCall = (
  context: BrowserContext,
  size: { width: number; height: number },
  link = '',
): Promise<Heard> => listenTo(context, ASKING, link, size, '#page:not([inert]) .asking');

/** How a caller's answers get into the page: by what hand. */
export interface Hand {
  /** Types into the field of a question. */
  type: (question: string, text: string) => Promise<void>;
  /** Takes one of the choices of a question. */
  choose: (question: string, choice: string) => Promise<void>;
  press: (button: string) => Promise<void>;
}

const fieldOf = (page: Page, question: string): Locator => page.getByRole('textbox', { name: question });
const choiceOf = (page: Page, question: string, choice: string): Locator =>
  page.getByRole('group', { name: question }).getByRole('radio', { name: choice, exact: true });
const readUnder = (page: Page, question: string): Locator =>
  page.locator('.question', { has: fieldOf(page, question) }).locator('.understood:not(:empty)');

/** Mouse and keys, as at a desk. */
export const byMouse = (page: Page): Hand => ({
  type: async (question, text) => {
    await fieldOf(page, question).fill(text);
    await readUnder(page, question).waitFor();
  },
  choose: (question, choice) => choiceOf(page, question, choice).check(),
  press: (button) => page.getByRole('button', { name: button }).click(),
});

/** A thumb on a phone. */
export const byTouch = (page: Page): Hand => ({
  type: async (question, text) => {
    await fieldOf(page, question).tap();
    await page.keyboard.type(text);
    await readUnder(page, question).waitFor();
  },
  choose: (question, choice) => choiceOf(page, question, choice).tap(),
  press: (button) => page.getByRole('button', { name: button }).tap(),
});

/** Goes on with the tabulator until the focus is where it is wanted. */
async function tabTo(page: Page, place: Locator): Promise<void> {
  for (let k = 0; k < 300; k++) {
    await page.keyboard.press('Tab');
    if ((await place.and(page.locator(':focus')).count()) > 0) return;
  }
  throw new Error('no tabulator leads there');
}

/** The keyboard alone. */
export const byKeys = (page: Page): Hand => ({
  type: async (question, text) => {
    await tabTo(page, fieldOf(page, question));
    await page.keyboard.type(text);
    await readUnder(page, question).waitFor();
  },
  choose: async (question, choice) => {
    const group = page.getByRole('group', { name: question });
    const first = group.getByRole('radio').first();
    await tabTo(page, first);
    await page.keyboard.press('Space');
    for (let k = 0; k < 10 && !(await choiceOf(page, question, choice).isChecked()); k++)
      await page.keyboard.press('ArrowRight');
    expect(await choiceOf(page, question, choice).isChecked()).toBe(true);
  },
  press: async (button) => {
    await tabTo(page, page.getByRole('button', { name: button }));
    await page.keyboard.press('Enter');
  },
});

/** Waits until the answer is the one that the command line finds, set out as its papers have it. */
export async function settled(page: Page): Promise<void> {
  await page.locator('.progress', { hasText: 'Settled' }).waitFor();
  await page.locator('.headline', { hasText: 'set out' }).waitFor();
}

/** Lines of the answer by their label, and the counts of those that have some. */
export async function answerLines(
  page: Page,
): Promise<Map<string, { text: string; touches: number; events: number }>> {
  const lines = (await page.evaluate(`[...document.querySelectorAll('.answer .line')].map((line) => [
    line.querySelector('dt').textContent,
    { text: line.querySelector('dd').textContent.replaceAll('\\u00a0', ' '), touches: Number(line.dataset.touches), events: Number(line.dataset.events) },
  ])`)) as [string, { text: string; touches: number; events: number }][];
  return new Map(lines);
}

/** The headline of the answer. */
export const headline = async (page: Page): Promise<string> =>
  ((await page.locator('.headline').textContent()) ?? '').replaceAll('\u00a0', ' ');
