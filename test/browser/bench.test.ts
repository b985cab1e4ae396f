import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { AxeBuilder } from '@axe-core/playwright';
import { openCase } from '@tubgap/casefile/node';
import { HAND_TABLES, noReadings, readAsBuilt, readHandTable } from '@tubgap/evidence';
import { readResults } from '@tubgap/results';
import { NO_CENTRES, openWorkplace, performTask } from '@tubgap/simulation';
import type { Browser, BrowserContext, Locator, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, inject, it } from 'vitest';
import { DEMO, tubgap } from '../end-to-end/command.ts';
import { BENCH, benchText, counted, counts, openBench, whereText } from './bench-page.ts';
import { canOpen, openBrowser } from './browser.ts';

const INCH = 0.0254;
const result = readResults(inject('demo'));
const SMALL = ['--set', 'simulation.draws=20480', '--set', 'simulation.cars=128'];

/** Touches that a result counted at a top height, with a tyre in a tub. */
function touchesIn(steps: readonly number[], lowest: number, topHeight: number): number {
  const below = Math.floor((topHeight - lowest) / (INCH / 16) + 1e-9);
  return steps.slice(below + 1).reduce((sum, count) => sum + count, 0);
}

const field = (page: Page, name: string): Locator => page.getByRole('textbox', { name });

describe.skipIf(!canOpen)('bench page', () => {
  let browser: Browser;
  let context: BrowserContext;
  let folder: string;
  beforeAll(async () => {
    browser = await openBrowser();
    folder = mkdtempSync(join(tmpdir(), 'tubgap-bench-'));
    cpSync(DEMO, join(folder, 'demo'), { recursive: true });
  });
  afterAll(async () => {
    rmSync(folder, { recursive: true, force: true });
    await browser?.close();
  });
  afterEach(async () => {
    await context?.close();
  });
  const fresh = async (options: Parameters<Browser['newContext']>[0] = {}): Promise<BrowserContext> => {
    context = await browser.newContext(options);
    return context;
  };

  it('is one file of at most 400 kB that names no address, and carries what the command puts in', () => {
    expect(Buffer.byteLength(benchText())).toBeLessThanOrEqual(400 * 1024);
    const addresses = benchText().match(/(src|href)="(?!data:|#)[^"]*"/g) ?? [];
    expect(addresses).toEqual([]);
    const shown = tubgap(folder, 'show', 'demo/case.yaml', '--no-open', '--out', 'page.html');
    expect(shown).toMatchObject({ code: 0, err: '' });
    expect(shown.out).toMatch(/file:\/\/.*page\.html/);
    const parts = (text: string): { page: string; carried: { file: string; files: unknown } } => {
      const place = /(id="carried">)(.*)(<\/script>)/;
      const still = /<div id="page" inert>.*<!-- end of the page -->/s;
      return {
        page: text.replace(place, '$1$3').replace(still, ''),
        carried: JSON.parse(place.exec(text)![2]!),
      };
    };
    const made = parts(readFileSync(join(folder, 'page.html'), 'utf8'));
    const built = parts(benchText());
    expect(made.page).toBe(built.page);
    expect(made.carried).toEqual({ file: built.carried.file, files: built.carried.files });
  });

  it('counts what the command line counts: the same touches at every height, tyre and season', async () => {
    const page = join(folder, 'small.html');
    expect(tubgap(folder, 'show', 'demo/case.yaml', ...SMALL, '--no-open', '--out', page).code).toBe(0);
    await fresh();
    for (const [i, tyre] of result.tyres.entries()) {
      for (const [t, inches] of [
        [1, 38.5],
        [2, 38.9375],
      ] as const) {
        const tub = result.tubs[t]!;
        const link = new URLSearchParams({
          case: result.case.name,
          tub: tub.name,
          tyre: tyre.name,
          top: String(inches * 25.4),
        });
        const { page: opened, heard } = await openBench(context, page, link.toString());
        await counted(opened);
        const [close, contact, season] = await counts(opened);
        const runs = result.runs.tyres[i]!;
        const at = (steps: readonly number[]): number =>
          touchesIn(steps, runs.tubs[t]!.lowest, inches * INCH);
        expect(close).toEqual({ touches: at(runs.tubs[t]!.steps), events: runs.events });
        expect(contact).toEqual({ touches: at(runs.tubs[t]!.contactSteps), events: runs.events });
        expect(season).toEqual({
          touches: touchesIn(result.seasons.tubs[t]!.steps, result.seasons.tubs[t]!.lowest, inches * INCH),
          events: result.seasons.events,
        });
        expect(heard).toEqual([]);
        await opened.close();
      }
    }
  });

  it('moves the tub to scale under the mouse, follows with the risk, and takes it back', async () => {
    const { page, heard } = await openBench(await fresh());
    await counted(page);
    const before = await whereText(page);
    const [first] = await counts(page);
    const scale = (await page.evaluate(`(() => {
      const svg = document.querySelector('.picture svg[role=img]');
      return (Number(svg.dataset.unitsPerMetre) * svg.clientWidth) / svg.viewBox.baseVal.width;
    })()`)) as number;
    const grip = (await page.locator('.grip').boundingBox())!;
    const [x, y] = [grip.x + grip.width / 2, grip.y + grip.height / 2];
    await page.mouse.move(x, y);
    await page.mouse.down();
    for (let k = 1; k <= 10; k++)
      await page.mouse.move(x + 0.05 * k * INCH * scale, y + 0.1 * k * INCH * scale);
    await page.mouse.up();
    expect(await whereText(page)).toBe('Top 38 5/16 in above the track, centre 3/4 in ahead of the axle');
    const drawn = (await page.evaluate(`(() => {
      const svg = document.querySelector('.picture svg[role=img]');
      const part = (name) => svg.querySelector('[data-part="' + name + '"]').getBBox();
      return (part('track').y - part('tub').y) / Number(svg.dataset.unitsPerMetre);
    })()`)) as number;
    expect(drawn).toBeCloseTo(38.3125 * INCH, 3);
    await counted(page);
    const [lower] = await counts(page);
    expect(lower!.touches).toBeGreaterThan(10 * first!.touches);
    await page.getByRole('button', { name: 'Undo' }).click();
    expect(await whereText(page)).toBe(before);
    await page.getByRole('button', { name: 'Redo' }).click();
    expect(await whereText(page)).toContain('38 5/16 in');
    expect(heard).toEqual([]);
  });

  it('is worked by keys alone', async () => {
    const { page } = await openBench(await fresh());
    await page.locator('.grip').focus();
    for (let k = 0; k < 3; k++) await page.keyboard.press('ArrowUp');
    await page.keyboard.press('Shift+ArrowLeft');
    expect(await whereText(page)).toBe('Top 39 1/2 in above the track, centre 3/4 in behind the axle');
    await page.keyboard.press('Control+z');
    expect(await whereText(page)).not.toContain('39 1/2');
    await field(page, 'Speed at the finish').fill('231.5');
    await page.keyboard.press('Enter');
    await expect
      .poll(() => decodeURIComponent(new URL(page.url()).hash))
      .toContain('run.trapSpeed=~231.5+mph');
    await page.keyboard.press('ArrowUp');
    await expect.poll(() => field(page, 'Speed at the finish').inputValue()).toBe('232');
    await page.getByRole('button', { name: /^back to 224 mph/ }).press('Enter');
    await expect.poll(() => field(page, 'Speed at the finish').inputValue()).toBe('224');
  });

  it('moves the tub under a finger', async () => {
    await fresh({ hasTouch: true, isMobile: true, viewport: { width: 390, height: 800 } });
    const { page } = await openBench(context, BENCH, '', { width: 390, height: 800 });
    await page.locator('.grip').scrollIntoViewIfNeeded();
    const grip = (await page.locator('.grip').boundingBox())!;
    const finger = await context.newCDPSession(page);
    const [x, y] = [grip.x + grip.width / 2, grip.y + grip.height / 2];
    const touch = (type: 'touchStart' | 'touchMove' | 'touchEnd', dy: number): Promise<unknown> =>
      finger.send('Input.dispatchTouchEvent', {
        type,
        touchPoints: type === 'touchEnd' ? [] : [{ x, y: y + dy }],
      });
    await touch('touchStart', 0);
    for (let dy = 2; dy <= 20; dy += 2) await touch('touchMove', dy);
    await touch('touchEnd', 20);
    const height = /Top (\d+)/.exec(await whereText(page));
    expect(Number(height?.[1])).toBeLessThanOrEqual(37);
    expect(await page.evaluate('scrollY')).toBeLessThan(400);
  });

  it('saves a case file that it opens again and that the command line reads with the same numbers', async () => {
    const small = join(folder, 'small-again.html');
    expect(tubgap(folder, 'show', 'demo/case.yaml', ...SMALL, '--no-open', '--out', small).code).toBe(0);
    const { page } = await openBench(
      await fresh({ acceptDownloads: true }),
      small,
      'case=winged-door-car&tub=street-42&tyre=tall-slick&top=977.9',
    );
    const set = async (label: string, value: string): Promise<void> => {
      await field(page, label).fill(value);
      await page.keyboard.press('Enter');
    };
    await set('Speed at the finish', '229');
    await set('Tyre pressure, cold', '6.5');
    await set('Bump travel to the stop', '2.125');
    await set('Wing', '1200');
    await set('Notch, depth', '0.5');
    await page.getByRole('button', { name: 'forward' }).click();
    await counted(page);
    const before = await counts(page);
    const where = await whereText(page);
    const waiting = page.waitForEvent('download');
    await page.getByRole('button', { name: 'Save case file' }).click();
    const saved = join(folder, 'demo', 'saved.yaml');
    await (await waiting).saveAs(saved);
    const text = readFileSync(saved, 'utf8');
    expect(text).toContain('mean: 229 mph');
    expect(text).toContain('# with driver, half the fuel');

    const { page: other } = await openBench(context);
    // Under the name of the case that the page holds already.
    const again = { name: 'case.yaml', mimeType: 'text/yaml', buffer: Buffer.from(text) };
    await counted(other);
    await other.getByLabel('Case file with its tables').setInputFiles(again);
    await expect.poll(() => field(other, 'Speed at the finish').inputValue()).toBe('229');
    await counted(other);
    expect(await whereText(other)).toBe(where);
    await expect.poll(() => counts(other)).toEqual(before);

    // As `tubgap pick` opens and counts it.
    const opened = openCase(saved);
    if (!opened.ok) throw new Error(opened.lines.join('\n'));
    const { draws } = opened.source.simulation;
    const task = { kind: 'runs', firstBlock: 0, endBlock: draws / 1024, centres: NO_CENTRES } as const;
    const found = performTask(openWorkplace(opened.source), task);
    if (found.kind !== 'runs') throw new Error('no runs');
    const t = opened.source.tubs.findIndex(({ name }) => name === 'street-42');
    const runs = found.tallies.tyres[0]!;
    expect(before[0]).toEqual({
      touches: touchesIn([...runs.tubs[t]!.steps], runs.tubs[t]!.lowest, 38.5 * INCH),
      events: runs.events,
    });
    expect(before[0]!.touches).toBeGreaterThan(20);
  });

  it('says what is wrong with a value or a file and keeps what it had', async () => {
    const { page, heard } = await openBench(await fresh());
    await field(page, 'Speed at the finish').fill('900');
    await page.keyboard.press('Enter');
    expect(await page.locator('#set-speed-fault').textContent()).toMatch(/30 mph to 350 mph/);
    expect(decodeURIComponent(page.url())).not.toContain('900');
    const bad = join(folder, 'bad.yaml');
    writeFileSync(bad, 'name: [\n');
    await page.getByLabel('Case file with its tables').setInputFiles(bad);
    expect(await page.locator('.files .fault').textContent()).toMatch(/bad\.yaml:\d+:\d+ .*never closed/);
    const { page: linked } = await openBench(context, BENCH, 'case=another&tub=street-42&top=990');
    expect(await linked.locator('.fault').first().textContent()).toMatch(/link is of the case another/);
    expect(heard).toEqual([]);
  });

  it('takes in measured gaps and marks, says how far off they are, and saves them as tables that can be learned from', async () => {
    const { page, heard } = await openBench(await fresh({ acceptDownloads: true }));
    await field(page, 'Measured gap left, straight up').fill('5 7/8');
    await field(page, 'Measured gap right, 15° ahead').fill('158 mm');
    await field(page, 'Measured gap right, straight up').fill('about six');
    const said = (await page.locator('.gaps').textContent())!.replaceAll('\u00a0', ' ');
    expect(said).toMatch(/(PASS|FAIL by [\d /]+ in|no limit known), (1\/4|5\/16) in LESS/);
    expect(said).toContain('not a length');
    await page.getByRole('button', { name: 'Add a mark' }).click();
    await page.getByRole('combobox', { name: 'mark', exact: true }).selectOption('no');
    await page.getByRole('combobox', { name: 'stuck on that place' }).selectOption('yes');
    await field(page, 'angle, °').fill('35');
    await field(page, 'in runs').fill('3');
    await field(page, 'witness').fill('3/4');
    const files = new Map<string, string>();
    page.on('download', async (one) => {
      files.set(one.suggestedFilename(), readFileSync((await one.path())!, 'utf8'));
    });
    await page.getByRole('button', { name: 'Save what was measured' }).click();
    await expect.poll(() => files.size).toBe(3);
    const names = { tubs: ['street-42'], tyres: [{ name: 'tall-slick', tyre: 'tall-slick' }] };
    const { built, rejected } = readAsBuilt(files.get('as-built.csv')!, names.tubs);
    expect(rejected).toEqual([]);
    expect(built!.topHeight).toBeCloseTo(39.3125 * INCH, 6);
    expect(built!.centreForward).toBeCloseTo(0.25 * INCH, 6);
    const into = noReadings();
    for (const table of HAND_TABLES) {
      const text = files.get(table.file);
      if (text !== undefined) expect(readHandTable(table, text, { ...names, built }, into)).toEqual([]);
    }
    expect(into.gaps.map(({ side, gap }) => [side, Number((gap / INCH).toFixed(2))])).toEqual([
      ['left', 5.88],
      ['right', 6.22],
    ]);
    expect(into.marks[0]).toMatchObject({ tyre: 'tall-slick', touched: false, runs: 3 });
    expect(into.marks[0]!.thickness).toBeCloseTo(0.75 * INCH, 6);
    await expect.poll(() => decodeURIComponent(page.url())).toContain('5+7/8');
    expect(heard).toEqual([]);
  });

  it('plays a run to its tightest moment and shows that in the side view', async () => {
    const { page, heard } = await openBench(await fresh());
    await counted(page);
    await page.getByRole('button', { name: 'Follow a run along the track' }).click();
    await page.getByRole('button', { name: 'Play the run' }).click();
    await expect.poll(() => page.locator('.moments [aria-pressed=true]').count()).toBe(1);
    expect(await page.locator('.moments [aria-pressed=true]').textContent()).toContain('tightest');
    const gap = /tightest: [a-z ]+, ([\d /]+ in)/.exec(
      ((await page.locator('.trace').textContent()) ?? '').replaceAll('\u00a0', ' '),
    );
    const shown = (await page.locator('.picture').textContent()) ?? '';
    expect(shown.replaceAll('\u00a0', ' ')).toContain(`${gap?.[1]} left`);
    expect(heard).toEqual([]);
  });

  it('shows names as they are, whatever is in them, and runs none of it', async () => {
    const hostile = '</script><script>window.hit = 1</script><img src=x onerror="window.hit = 1">';
    const demo = join(folder, 'hostile');
    cpSync(DEMO, demo, { recursive: true });
    const file = join(demo, 'case.yaml');
    writeFileSync(
      file,
      readFileSync(file, 'utf8')
        .replace(/^title: .*$/m, `title: ${JSON.stringify(hostile)}`)
        .replace('name: cage bar', `name: ${JSON.stringify(hostile.slice(0, 70))}`),
    );
    const made = join(folder, 'hostile.html');
    expect(tubgap(folder, 'show', file, '--no-open', '--out', made)).toMatchObject({ code: 0, err: '' });
    const { page, heard } = await openBench(await fresh(), made);
    expect(await page.locator('h1').textContent()).toBe(hostile);
    expect(await page.evaluate('window.hit')).toBeUndefined();
    expect(await page.locator('img').count()).toBe(0);
    expect(heard).toEqual([]);
  });

  it.each([320, 360, 768, 1440])('needs no sideways scrolling at %i px', async (width) => {
    const { page } = await openBench(await fresh(), BENCH, '', { width, height: 800 });
    await page.waitForSelector('.files');
    expect(await page.evaluate('document.documentElement.scrollWidth')).toBeLessThanOrEqual(width);
  });

  it.each([360, 1440])(
    'passes the accessibility checker at %i px, and its main numbers have a contrast of 7 to 1',
    async (width) => {
      const { page } = await openBench(await fresh(), BENCH, '', { width, height: 800 });
      await counted(page);
      await page.getByRole('button', { name: 'Follow a run along the track' }).click();
      const check = async (on: Page): Promise<string[]> => {
        const { violations, passes } = await new AxeBuilder({ page: on }).analyze();
        expect(passes.length).toBeGreaterThan(15);
        return violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`);
      };
      expect(await check(page)).toEqual([]);
      const strict = await new AxeBuilder({ page })
        .include('.answer')
        .withRules(['color-contrast-enhanced'])
        .analyze();
      expect(strict.violations.map(({ nodes }) => nodes[0]?.html)).toEqual([]);
      expect(strict.passes.length).toBe(1);
    },
  );
});
