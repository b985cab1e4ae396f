import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { AxeBuilder } from '@axe-core/playwright';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest';
import { tubgap } from '../end-to-end/command.ts';
import { nameHostile, withResult } from '../papers/paper-folder.ts';
import { canOpen, openBrowser } from './browser.ts';

const demo = inject('demo');

describe.skipIf(!canOpen)('sheets in a browser', () => {
  let browser: Browser;
  let pages: Record<string, string>;
  beforeAll(async () => {
    browser = await openBrowser();
    const limited = withResult(demo, (result) => {
      const tub = result.tubs[result.chosen!]!;
      const top = result.picks[result.chosen!]!.height!.topHeight;
      // A car too small for every tub: the fullest page.
      result.envelope = {
        highestTop: top - 0.01,
        lowestLeg: top - 0.5 * tub.diameter,
        furthestAhead: 0.45,
        furthestBehind: 0.45,
      };
    });
    const none = withResult(demo, (result) => {
      result.chosen = null;
      result.bestPlaces = result.bestPlaces.map(() => null);
      result.tolerances = null;
      result.asSetOut = null;
    });
    const hostile = withResult(demo, nameHostile);
    const year = mkdtempSync(join(tmpdir(), 'tubgap-year-'));
    expect(tubgap(year, 'year', demo, limited, hostile, none).code).toBe(0);
    pages = {
      'build sheet': join(demo, 'build-sheet.html'),
      'build sheet of a car without room': join(limited, 'build-sheet.html'),
      'build sheet without a tub': join(none, 'build-sheet.html'),
      'build sheet with hostile names': join(hostile, 'build-sheet.html'),
      'check sheet': join(demo, 'check-sheet.html'),
      'check sheet with hostile names': join(hostile, 'check-sheet.html'),
      'shop year': join(year, 'shop-year.html'),
    };
  });
  afterAll(() => browser?.close());

  it('open without a word on the console, ask for nothing, run nothing, and fit a phone', async () => {
    for (const [name, file] of Object.entries(pages)) {
      const page = await browser.newPage({ viewport: { width: 360, height: 740 } });
      const said: string[] = [];
      page.on('console', (message) => said.push(message.text()));
      page.on('pageerror', (error) => said.push(String(error)));
      page.on('dialog', (dialog) => {
        said.push(dialog.message());
        void dialog.dismiss();
      });
      page.on('request', (request) => said.push(request.url()));
      await page.goto(pathToFileURL(file).href);
      expect(said, name).toEqual([pathToFileURL(file).href]);
      const beyond = await page.evaluate('document.documentElement.scrollWidth - innerWidth');
      expect(beyond, name).toBeLessThanOrEqual(0);
      await page.close();
    }
  });

  it('show every column of every table on a phone, without scrolling sideways, and with letters twice as large', async () => {
    for (const [name, file] of Object.entries(pages)) {
      for (const [width, letters] of [
        [390, 100],
        [320, 100],
        [390, 200],
      ]) {
        const page = await browser.newPage({ viewport: { width: width!, height: 844 } });
        await page.goto(pathToFileURL(file).href);
        await page.addStyleTag({ content: `html { font-size: ${letters}% }` });
        const { wide, cells, hidden } = (await page.evaluate(`(() => {
          const cells = [...document.querySelectorAll('tbody th, tbody td')].filter(
            (cell) => cell.textContent !== '' || cell.className === 'blank',
          );
          const isHidden = (cell) => {
            const { left, right, height } = cell.getBoundingClientRect();
            return left < 0 || right > innerWidth || height < 10 || cell.scrollWidth > cell.clientWidth + 1;
          };
          return {
            wide: document.documentElement.scrollWidth,
            cells: cells.length,
            hidden: cells.filter(isHidden).map((cell) => cell.dataset.head ?? cell.textContent),
          };
        })()`)) as { wide: number; cells: number; hidden: string[] };
        const where = `${name}, ${width} px, ${letters} %`;
        expect(wide, where).toBeLessThanOrEqual(width!);
        if (!name.includes('without a tub')) expect(cells, where).toBeGreaterThan(10);
        expect(hidden, where).toEqual([]);
        await page.close();
      }
    }
  });

  it('have no serious finding of the accessibility checker', async () => {
    for (const name of ['build sheet of a car without room', 'check sheet', 'shop year']) {
      const file = pages[name]!;
      const context = await browser.newContext();
      const page = await context.newPage();
      page.setDefaultTimeout(0);
      await page.goto(pathToFileURL(file).href);
      const { violations } = await new AxeBuilder({ page }).analyze();
      const serious = violations.filter(({ impact }) => impact === 'serious' || impact === 'critical');
      expect(
        serious.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`),
        name,
      ).toEqual([]);
      await context.close();
    }
  });

  it('and the report’s figures, and the check sheet’s in print, are read on a phone and in print: 12 px at 390 px, 9 pt on A4', async () => {
    const page = await browser.newPage();
    const least = `Math.min(...[...document.querySelectorAll('figure svg text')].map((text) => {
      const svg = text.ownerSVGElement;
      return Number(text.getAttribute('font-size')) * svg.getScreenCTM().a;
    }))`;
    await page.goto(pathToFileURL(join(demo, 'report.html')).href);
    await page.setViewportSize({ width: 390, height: 844 });
    expect(await page.evaluate(least)).toBeGreaterThanOrEqual(12);
    // A4 without the margins that the page names; 12 px of CSS are 9 pt.
    await page.emulateMedia({ media: 'print' });
    await page.setViewportSize({ width: Math.round(((210 - 2 * 9) / 25.4) * 96), height: 1000 });
    expect(await page.evaluate(least)).toBeGreaterThanOrEqual(12);
    await page.goto(pathToFileURL(pages['check sheet']!).href);
    await page.setViewportSize({ width: Math.round(((210 - 2 * 7) / 25.4) * 96), height: 1000 });
    expect(await page.evaluate(least)).toBeGreaterThanOrEqual(12);
    await page.close();
  });

  it('letter the bench drawing at least 2.5 mm high in print, and nothing of it over the paper’s edge', async () => {
    const page = await browser.newPage({ viewport: { width: 750, height: 1000 } });
    await page.emulateMedia({ media: 'print' });
    for (const name of ['build sheet', 'build sheet of a car without room']) {
      await page.goto(pathToFileURL(pages[name]!).href);
      const { sizes, beyond } = (await page.evaluate(`(() => {
        const svg = document.querySelector('figure.sheet svg');
        const box = svg.getBoundingClientRect();
        const scale = box.width / svg.viewBox.baseVal.width;
        const texts = [...svg.querySelectorAll('text')];
        const isBeyond = (own) => own.left < box.left || own.right > box.right || own.top < box.top;
        return {
          sizes: texts.map((text) => (Number(text.getAttribute('font-size')) * scale * 25.4) / 96),
          beyond: texts.filter((text) => isBeyond(text.getBoundingClientRect())).map((text) => text.textContent),
        };
      })()`)) as { sizes: number[]; beyond: string[] };
      // Capitals and figures stand some 0.714 of a letter's size high in the fonts that the sheet names.
      for (const size of sizes) expect(0.714 * size, name).toBeGreaterThanOrEqual(2.5);
      expect(beyond, name).toEqual([]);
    }
    await page.close();
  });

  it('print on one page of A4 and of Letter, the build sheet with its drawing on two', async () => {
    const page = await browser.newPage();
    for (const [name, file] of Object.entries(pages)) {
      if (name.includes('hostile')) continue;
      await page.goto(pathToFileURL(file).href);
      for (const format of ['A4', 'Letter']) {
        const pdf = await page.pdf({ format });
        expect(pdf.toString('latin1').match(/\/Type\s*\/Page\b(?!s)/g), `${name}, ${format}`).toHaveLength(
          /^build sheet(?! without)/.test(name) ? 2 : 1,
        );
      }
    }
    await page.close();
  });
});
