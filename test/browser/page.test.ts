import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { AxeBuilder } from '@axe-core/playwright';
import { readResults } from '@tubgap/results';
import { inputWords } from '@tubgap/wording';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, inject, it } from 'vitest';
import { withResult } from '../papers/paper-folder.ts';
import { canOpen, openBrowser } from './browser.ts';

const INCH = 0.0254;
/** CSS pixels a millimetre, by definition of the CSS inch of 96 px (CSS Values and Units 4, section 6.2). */
const PX_PER_MM = 96 / 25.4;

const place = inject('demo');
const result = readResults(place);
const report = join(place, 'report.html');
let browser: Browser;
let context: BrowserContext;

/** Opens a file in a window of a size; whatever it says on the console or asks of the network ends up in `heard`. */
async function opened(file: string, width = 1280, height = 800): Promise<{ page: Page; heard: string[] }> {
  const page = await context.newPage();
  page.setDefaultTimeout(0);
  await page.setViewportSize({ width, height });
  const heard: string[] = [];
  page.on('console', (message) => heard.push(`${message.type()}: ${message.text()}`));
  page.on('pageerror', (error) => heard.push(String(error)));
  page.on('request', (request) => {
    if (request.url() !== pathToFileURL(file).href) heard.push(`asked for ${request.url()}`);
  });
  await page.goto(pathToFileURL(file).href);
  return { page, heard };
}

describe.skipIf(!canOpen)('report.html of the demo', () => {
  beforeAll(async () => {
    browser = await openBrowser();
    context = await browser.newContext();
  });

  afterEach(async () => {
    await Promise.all(context.pages().map((page) => page.close()));
  });

  afterAll(() => browser?.close());

  it('opens without a word on the console, asks for nothing, and holds no script', async () => {
    const { heard } = await opened(report);
    expect(heard).toEqual([]);
    const text = readFileSync(report, 'utf8');
    expect(text).not.toMatch(/<script|javascript:|\son\w+=/i);
    expect(text.replaceAll('http://www.w3.org/2000/svg', '')).not.toMatch(/https?:\/\//);
    expect(text.length).toBeLessThan(400_000);
  });

  it('says on the first screen what to build, how sure that is, and that contact can kill', async () => {
    const { page } = await opened(report);
    const card = page.locator('.answer');
    const words = ((await card.textContent()) ?? '').replaceAll('\u00a0', ' ').replaceAll('\n', ' ');
    const pick = result.picks[result.chosen!]!;
    const sixteenths = Math.round((result.tolerances!.setOut.topHeight / INCH) * 16);
    expect(words).toContain(`Build ${pick.tub}, top at ${Math.floor(sixteenths / 16)}`);
    // At worst the accepted 1 in 2,000, however the last sixteenth of the height falls.
    const worst = /Too close.*?surely no more often than 1 in ([\d,]+)/.exec(words);
    expect(Number(worst?.[1]?.replaceAll(',', ''))).toBeGreaterThanOrEqual(2000);
    expect(Number(worst?.[1]?.replaceAll(',', ''))).toBeLessThan(10_000);
    expect(words).toMatch(/Contact.*surely no more often than 1 in/);
    expect(words).toMatch(/can kill/);
    const box = (await card.boundingBox())!;
    expect(box.y + box.height).toBeLessThan(800);
  });

  it('decides on the first screen of a phone, takes six in all, and opens what is folded by a tap and on paper', async () => {
    const { page, heard } = await opened(report, 390, 844);
    const caution = (await page.locator('.answer .caution').boundingBox())!;
    expect(caution.y + caution.height).toBeLessThanOrEqual(844);
    // Whose spread matters most, of those that are assumed.
    const assumed = result.inputs.filter(({ source }) => source === 'assumed').map(({ label }) => label);
    const told = result.measureNext!.filter(({ label }) => assumed.includes(label)).slice(0, 3);
    const named = page.locator('.answer dt', { hasText: 'Assumed' }).locator('+ dd');
    expect(await named.locator('b').allTextContents()).toEqual(told.map(({ label }) => inputWords(label)));
    expect(await page.evaluate('document.documentElement.scrollHeight')).toBeLessThanOrEqual(6 * 844);
    expect(await page.locator('details[open]').count()).toBe(0);
    const inputs = page.locator('#inputs');
    const isShown = (): Promise<boolean> =>
      inputs.evaluate((node) => node.checkVisibility({ contentVisibilityAuto: true }));
    expect(await isShown()).toBe(false);
    await page.emulateMedia({ media: 'print' });
    expect(await isShown()).toBe(true);
    await page.emulateMedia({ media: 'screen' });
    await page.locator('summary', { hasText: 'inputs' }).click();
    expect(await isShown()).toBe(true);
    expect(await inputs.locator('tbody tr').count()).toBeGreaterThanOrEqual(result.inputs.length);
    expect(heard).toEqual([]);
  });

  it('breaks nothing with letters twice as large on a phone', async () => {
    const { page } = await opened(report, 390, 844);
    await page.addStyleTag({ content: 'html { font-size: 200% }' });
    await page.evaluate('for (const fold of document.querySelectorAll("details")) fold.open = true');
    expect(await page.evaluate('document.documentElement.scrollWidth')).toBeLessThanOrEqual(390);
  });

  it.each([320, 360, 768, 1280])('needs no sideways scrolling at %i px', async (width) => {
    const { page } = await opened(report, width, 740);
    expect(await page.evaluate('document.documentElement.scrollWidth')).toBeLessThanOrEqual(width);
  });

  it.each([360, 1280])('passes the accessibility checker at %i px', async (width) => {
    const { page } = await opened(report, width, 740);
    const { violations, passes } = await new AxeBuilder({ page }).analyze();
    expect(passes.length).toBeGreaterThan(15);
    expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)).toEqual([]);
  });

  it('draws tub, top height and gaps where the result has them, as the browser measures them', async () => {
    const { page } = await opened(report);
    const seen = (await page.evaluate(`(() => {
      const svg = document.querySelector('[data-units-per-metre]');
      const scale = Number(svg.dataset.unitsPerMetre);
      const tub = svg.querySelector('[data-part="tub"]').getBBox();
      const track = svg.querySelector('[data-part="track"]').getBBox();
      const gaps = [...svg.querySelectorAll('[data-part="gap"]')].map((line) => line.getTotalLength() / scale);
      return { width: tub.width / scale, top: (track.y - tub.y) / scale, gaps };
    })()`)) as { width: number; top: number; gaps: number[] };
    const t = result.chosen!;
    const { setOut, rows, angles } = result.tolerances!;
    const gapAt = (degrees: number): number =>
      rows[setOut.row]!.staticGaps[
        angles.findIndex((angle) => Math.abs(angle - (degrees * Math.PI) / 180) < 1e-6)
      ]!;
    expect(seen.width).toBeCloseTo(2 * result.tubs[t]!.radius, 3);
    expect(seen.top).toBeCloseTo(setOut.topHeight, 3);
    // Those to see standing, and in the other panel that of the run.
    expect(seen.gaps).toHaveLength(4);
    seen.gaps.slice(0, 3).forEach((gap, i) => {
      expect(gap).toBeCloseTo(gapAt(15 * i), 3);
    });
  });

  it.each([
    { format: 'A4', width: 210, height: 297 },
    { format: 'Letter', width: 215.9, height: 279.4 },
  ])(
    'prints to $format at its own size, with no figure taller than a page and no page to spare',
    async (paper) => {
      const inside = { width: paper.width - 18, height: paper.height - 24 };
      const { page } = await opened(report, Math.floor(inside.width * PX_PER_MM), 1000);
      await page.emulateMedia({ media: 'print' });
      const measured = (await page.evaluate(`({
      wide: document.documentElement.scrollWidth,
      whole: document.documentElement.scrollHeight,
      pieces: [...document.querySelectorAll('figure, .answer, table:not(.inputs)')].map((node) => node.getBoundingClientRect().height),
    })`)) as { wide: number; whole: number; pieces: number[] };
      const tall = inside.height * PX_PER_MM;
      // Anything wider would be shrunk in print, to scale drawings included.
      expect(measured.wide).toBeLessThanOrEqual(Math.floor(inside.width * PX_PER_MM));
      expect(measured.pieces.length).toBeGreaterThan(8);
      for (const piece of measured.pieces) expect(piece).toBeLessThan(tall);
      const pdf = (await page.pdf({ format: paper.format })).toString('latin1');
      const pages = pdf.match(/\/Type\s*\/Page\b(?!s)/g)?.length ?? 0;
      expect(pages).toBeGreaterThanOrEqual(Math.ceil(measured.whole / tall));
      // Whole figures leave some paper white, a third at most.
      expect(pages).toBeLessThanOrEqual(Math.ceil((1.34 * measured.whole) / tall));
    },
  );

  it('shows names as they are, whatever is in them, and runs none of it', async () => {
    const hostile = '</title><script>window.hit = 1</script><img src=x onerror="window.hit = 1"> & "\'';
    const target = withResult(place, (copy) => {
      copy.case.title = hostile;
      const chosen = copy.chosen!;
      copy.tubs[chosen]!.name = hostile;
      copy.picks[chosen]!.tub = hostile;
      copy.build.tyre = hostile;
      copy.tyres[0]!.name = hostile;
      for (const pick of copy.picks) if (pick.height) pick.height.limitingTyre = hostile;
      for (const search of copy.bestPlaces) if (search?.best) search.best.limitingTyre = hostile;
      if (copy.asSetOut !== null) copy.asSetOut.limitingTyre = hostile;
      if (copy.outlines.pick?.gaps) copy.outlines.pick.gaps.tyre = hostile;
      for (const point of copy.hardPoints) point.name = hostile;
      for (const input of copy.inputs) Object.assign(input, { label: hostile, basis: hostile });
      copy.warnings = [hostile];
    });
    const { page, heard } = await opened(join(target, 'report.html'));
    expect(heard).toEqual([]);
    expect(await page.evaluate('window.hit')).toBeUndefined();
    expect(await page.locator('img, script').count()).toBe(0);
    expect(await page.locator('h1').textContent()).toBe(hostile);
    expect(await page.title()).toContain(hostile);
    const { page: picture, heard: more } = await opened(join(target, 'decision.svg'));
    expect(more).toEqual([]);
    expect(await picture.evaluate('document.documentElement.nodeName')).toBe('svg');
    expect(await picture.evaluate('window.hit')).toBeUndefined();
  });

  it('says why there is no tub to build, and what would help', async () => {
    const target = withResult(place, (copy) => {
      copy.chosen = null;
      copy.bestPlaces = copy.bestPlaces.map(() => null);
      copy.outlines.pick = null;
      copy.tolerances = null;
      copy.asSetOut = null;
      for (const pick of copy.picks) {
        delete pick.height;
        Object.assign(pick, { verdict: 'does not fit', reason: 'no height helps: touches the cage bar' });
      }
      copy.shares = copy.shares.map(() => []);
      copy.pickGaps = copy.pickGaps.map((tubs) => tubs.map(() => null));
    });
    const { page, heard } = await opened(join(target, 'report.html'));
    expect(heard).toEqual([]);
    const words = await page.locator('.answer').textContent();
    expect(words).toMatch(/No tub can be named/);
    expect(words).toMatch(/touches the cage bar/);
    expect(words).toMatch(/can kill/);
    expect(await page.locator('[data-units-per-metre]').count()).toBe(0);
    expect(await page.locator('#risk svg').count()).toBeGreaterThan(0);
  });

  it('is the same to the byte when it is written again', () => {
    const again = withResult(place, () => {});
    for (const file of ['report.html', 'decision.svg'])
      expect(readFileSync(join(again, file)).equals(readFileSync(join(place, file)))).toBe(true);
  });
});
