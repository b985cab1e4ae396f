import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { AxeBuilder } from '@axe-core/playwright';
import { exactLawWords, parseCase, SHOP_PRIORS_VERSION, shopPriorsText } from '@tubgap/casefile';
import { CALL_FILE, callFiles, readAnswers, toCase } from '@tubgap/interview';
import { readResults } from '@tubgap/results';
import { sixteenths } from '@tubgap/units';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { DEMO, tubgap } from '../end-to-end/command.ts';
import { canOpen, openBrowser } from './browser.ts';
import {
  ASKING,
  answerLines,
  byKeys,
  byMouse,
  byTouch,
  type Hand,
  headline,
  openCall,
  settled,
} from './call-page.ts';

const SIZE = 'What is printed on the rear tyre?';
const BUILD = 'Is it a bias slick';
const SPEED = 'How fast is it at the finish?';

/** A shop's priors, invented: its bias slicks grow more than the program's own prior has it. */
function growingMore(): string {
  const read = readAnswers({ tyres: [{ size: '33.5x17.0-16', build: 'bias slick' }], speed: '224 mph' });
  if (!read.ok) throw new Error('the call is sound');
  const files = callFiles(toCase(read.value), readFileSync(join(DEMO, 'tubs.csv'), 'utf8'));
  const parsed = parseCase({ file: CALL_FILE, text: files[CALL_FILE]!, load: (name) => files[name] });
  if (!parsed.ok) throw new Error(parsed.issues[0]!.message);
  return shopPriorsText({
    format: 'tubgap shop priors',
    version: SHOP_PRIORS_VERSION,
    caution: 'Tyre contact at speed can kill.',
    madeBy: 'a test',
    book: 'back-street',
    invented: true,
    date: '2026-05-02',
    seed: 1,
    from: { cars: 7, unmarkedRuns: 212, marks: 3, sha256: 'ab' },
    sampling: { method: 'none', chains: 4, draws: 10, worstRHat: 1, leastEffectiveDraws: 400, widened: 1 },
    tyres: [],
    constructions: [
      {
        construction: 'bias',
        models: 3,
        inputs: [
          {
            input: 'growthScale',
            label: 'growth scale',
            startedFrom: exactLawWords(parsed.value.tyres[0]!.inputs.growthScale.law),
            before: '0.036',
            after: '0.04',
            middle: 1.2,
            spreadBelow: 0.3,
            spreadAbove: 0.3,
            together: [1],
            apart: 0.05,
          },
        ],
      },
    ],
  });
}

const PHONE = { width: 390, height: 844 };
const DESK = { width: 1280, height: 900 };

/** An invented caller: what is answered, field by field. */
interface Caller {
  name: string;
  hand: (page: Page) => Hand;
  size: { width: number; height: number };
  answers: readonly (readonly [how: 'type' | 'choose', question: string, answer: string])[];
}

const first = (size: string, build: string, speed: string): Caller['answers'] => [
  ['type', SIZE, size],
  ['choose', BUILD, build],
  ['type', SPEED, speed],
];

const CALLERS: readonly Caller[] = [
  {
    name: 'a street car, by touch',
    hand: byTouch,
    size: PHONE,
    answers: [
      ...first('315/60R15', 'treaded radial', '128'),
      ['choose', 'Over which distance?', 'quarter mile'],
      ['type', 'What does it weigh with you in it?', '3900'],
      ['choose', 'Does it stop with parachutes?', 'none'],
      ['type', 'What is its 60-foot time?', '1.75'],
    ],
  },
  {
    name: 'a small-tyre car on radials',
    hand: byMouse,
    size: DESK,
    answers: [
      ...first('28x10.5-15', 'radial slick', '190 mph'),
      ['choose', 'Over which distance?', 'eighth mile'],
      ['choose', 'Is there a wing at the back?', 'lip'],
    ],
  },
  {
    name: 'a door car with a tall wing, by the keyboard alone',
    hand: byKeys,
    size: DESK,
    answers: [
      ...first('33.5x17.0-16', 'bias slick', '224 mph'),
      ['type', 'What does a tape show round the tyre', '105 7/8'],
      ['type', 'How far does the wheel come up', '2'],
    ],
  },
  {
    name: 'an open car',
    hand: byMouse,
    size: PHONE,
    answers: [
      ...first('36.0x17.5-16', 'bias slick', '280 mph'),
      ['choose', 'What sort of car is it?', 'long-wheelbase open car'],
    ],
  },
  {
    name: 'a tyre told by its rollout, in metric units',
    hand: byMouse,
    size: PHONE,
    answers: [
      ...first('2690 mm', 'bias slick', '340 km/h'),
      ['type', 'What does it weigh with you in it?', '1130 kg'],
    ],
  },
];

describe.skipIf(!canOpen)('a call', () => {
  let browser: Browser;
  let context: BrowserContext;
  let folder: string;
  beforeAll(async () => {
    browser = await openBrowser();
    folder = mkdtempSync(join(tmpdir(), 'tubgap-call-'));
  });
  afterAll(async () => {
    rmSync(folder, { recursive: true, force: true });
    await browser?.close();
  });
  afterEach(() => context?.close());

  async function begin(size: { width: number; height: number }, link = '') {
    context = await browser.newContext({ hasTouch: true, acceptDownloads: true });
    return openCall(context, size, link);
  }

  async function answer(page: Page, { hand, answers }: Pick<Caller, 'hand' | 'answers'>): Promise<Hand> {
    const own = hand(page);
    for (const [how, question, text] of answers) await own[how](question, text);
    return own;
  }

  const onOnePage = async (page: Page): Promise<void> => {
    for (const format of ['A4', 'Letter']) {
      const pdf = await page.pdf({ format });
      expect(pdf.toString('latin1').match(/\/Type\s*\/Page\b(?!s)/g), format).toHaveLength(1);
    }
  };

  it.each(CALLERS)('from an empty page to a printed sheet: $name', async ({ hand, size, answers }) => {
    expect(answers.length).toBeLessThan(12);
    const { page, heard } = await begin(size);
    const own = await answer(page, { hand, answers });
    await settled(page);
    const height = /set out at ([\d/ ,]+ (?:in|mm))/.exec(await headline(page))![1]!;
    await own.press('The caller’s sheet');
    const sheet = ((await page.locator('.sheet').textContent()) ?? '').replaceAll('\u00a0', ' ');
    expect(sheet).toContain(`${height} above the track`);
    expect(sheet).toContain('Tyre contact at speed can kill');
    expect(sheet).not.toMatch(/[$€£]/);
    const panels = (await page.locator('.sheet svg').textContent())!.replaceAll('\u00a0', ' ');
    const seen = /Standing: see ([\d/ ]+ (?:in|mm)) here, ([^A-Z]+?)(?:straight|$)/.exec(panels)!;
    expect(sheet).toContain(seen[1]!);
    expect(panels).toMatch(/The worst run accepted, the 1 run in.*left/);
    await onOnePage(page);
    expect(heard).toEqual([]);
  });

  it('takes a second tyre in a class of its own, and leads with the tyre that asks for more', async () => {
    const { page } = await begin(DESK);
    const own = await answer(page, {
      hand: byMouse,
      answers: first('33.5x17.0-16', 'bias slick', '224 mph'),
    });
    await own.press('A second tyre or class');
    const other = page.getByRole('region', { name: 'second tyre' });
    await other.getByRole('textbox', { name: SIZE }).fill('28x10.5-15');
    await other.getByRole('radio', { name: 'radial slick', exact: true }).check();
    await other.getByRole('textbox', { name: 'How fast is it on this other tyre?' }).fill('188 mph');
    await page.locator('.progress', { hasText: /settling|Settled/ }).waitFor();
    await settled(page);
    expect((await answerLines(page)).get('Tight')!.text).toContain('33.5x17.0-16');
    await own.press('The caller’s sheet');
    await onOnePage(page);
  });

  it('tells of what is assumed, and of what to ask next, what the terminal tells, figure by figure', async () => {
    const { page } = await begin(DESK);
    await page.getByRole('button', { name: 'Show mm' }).click();
    const own = await answer(page, {
      hand: byMouse,
      answers: [...first('28x10.5-15', 'bias slick', '310'), ['type', 'What does a tape show', '2240']],
    });
    await own.choose('Is there a wing at the back?', 'lip');
    const plain = (text: string): string => text.replaceAll(/\s+/g, ' ').trim();
    await page.locator('.assumed .note', { hasText: 'more move the height by less than 1 mm' }).waitFor();
    const next = plain(
      (await page.getByRole('region', { name: 'Ask next' }).locator('p').textContent()) ?? '',
    );
    const top = await headline(page);
    const cells = (await page.evaluate(
      `[...document.querySelectorAll('.assumed tbody tr')].map((row) => [...row.children].map((cell) => cell.textContent))`,
    )) as string[][];
    const rows = new Map(cells.map(([name, ...changes]) => [name!, changes.map(plain)]));
    await context.close();

    const told = [
      '--tyre',
      '28x10.5-15',
      '--build',
      'bias slick',
      '--speed',
      '310 km/h',
      '--rollout',
      '2240 mm',
    ];
    const done = tubgap(folder, 'ask', 'same-call', ...told, '--wing', 'lip');
    const out = plain(done.out);
    expect(out, done.err).toContain(next.replace('Ask next:', 'Ask next').replace(/\.$/, ';'));
    expect(out).toContain(`Answer ${top.replace(' top set', '; top set')}`);
    const costs = out
      .slice(out.indexOf(' Not known ') + ' Not known '.length)
      .matchAll(/([A-Z0-9][^:;]*): ([^;,]*) if ordinary, ([^;,]*) if low, ([^;,]*) if high; --/g);
    let count = 0;
    for (const [, name, ...changes] of costs) {
      count++;
      expect(rows.get(name!), name).toEqual(changes);
    }
    expect(count).toBeGreaterThan(2);
  });

  it('saves a case of which the command line finds the very same, and opens it again', async () => {
    const { page } = await begin(DESK);
    const own = await answer(
      page,
      CALLERS[2]!.hand === byKeys ? { ...CALLERS[2]!, hand: byMouse } : CALLERS[2]!,
    );
    await settled(page);
    const saved: string[] = [];
    page.on('download', (download) => {
      const file = join(folder, download.suggestedFilename());
      void download.saveAs(file).then(() => saved.push(file));
    });
    await own.press('Save the case');
    await expect.poll(() => saved.length).toBe(3);
    const shown = await answerLines(page);
    const top = await headline(page);
    const link = new URL(page.url()).hash.slice(1);
    await own.press('The caller’s sheet');
    const panels = await page.locator('.sheet svg text').allTextContents();
    await context.close();

    expect(tubgap(folder, 'pick', 'from-a-call.yaml')).toMatchObject({ code: 0 });
    const result = readResults(join(folder, 'results', 'from-a-call'));
    const pick = result.picks[result.chosen!]!;
    expect(top).toContain(pick.tub);
    expect(top).toContain(sixteenths(result.tolerances!.setOut.topHeight, 'up'));
    expect(shown.get('At least')!.text).toContain(sixteenths(pick.height!.topHeight, 'up'));
    const { runRisk, contactRisk, seasonRisk } = result.asSetOut!;
    for (const [label, { touches, events }] of [
      ['Closer than 1/2 in', runRisk],
      ['Real contact', contactRisk],
      ['In a season', seasonRisk],
    ] as const)
      expect(shown.get(label), label).toMatchObject({ touches, events });

    const plain = (texts: readonly string[]): string => texts.join(' ').replaceAll(/\s+/g, ' ');
    const report = readFileSync(join(folder, 'results', 'from-a-call', 'report.html'), 'utf8');
    const drawn = /<svg[^>]*data-run-top.*?<\/svg>/s.exec(report)![0];
    const there = plain([...drawn.matchAll(/<text[^>]*>(.*?)<\/text>/gs)].map(([, text]) => text!));
    const words = [
      /Standing: see [^s]* here, /,
      /The worst run accepted, .*? of it reserve/,
      /body down [\d/ ]+ in/,
    ];
    for (const part of words) expect(there).toContain(part.exec(plain(panels))![0]);

    const again = await begin(DESK);
    await again.page
      .locator('input[type=file][accept*=yaml]')
      .setInputFiles(join(folder, 'from-a-call.yaml'));
    await again.page.getByText('Opened.').waitFor();
    expect(await again.page.getByRole('textbox', { name: SIZE }).inputValue()).toBe('33.5x17.0-16');
    await settled(again.page);
    expect(await headline(again.page)).toBe(top);
    await context.close();

    const linked = await begin(DESK, link);
    await settled(linked.page);
    expect(await headline(linked.page)).toBe(top);
  });

  it('goes on to the tub that can be moved, and back with all that was typed', async () => {
    const { page } = await begin(DESK);
    await answer(page, CALLERS[1]!);
    await settled(page);
    const height = /set out at ([\d/ ,]+ (?:in|mm))/.exec(await headline(page))![1]!;
    await page.getByRole('button', { name: 'Move the tub yourself' }).click();
    await page.locator('.where', { hasText: height.replace(' ', '\u00a0').replace(/ in$/, '') }).waitFor();
    await page.getByRole('button', { name: 'up', exact: true }).click();
    await expect.poll(() => page.url()).toContain('&tub=');
    await page.reload();
    await page.locator('.where').waitFor();
    await page.getByRole('button', { name: 'Back to the questions' }).click();
    expect(await page.getByRole('textbox', { name: SIZE }).inputValue()).toBe('28x10.5-15');
  });

  it('names a tub to order only where none in stock fits, and keeps the shop’s list', async () => {
    const { page } = await begin(DESK);
    await answer(page, CALLERS[1]!);
    await settled(page);
    const inStock = await headline(page);
    expect(inStock).not.toMatch(/^order/);
    await page.locator('summary', { hasText: 'tubs' }).click();
    for (const box of await page.getByRole('checkbox', { name: /^In stock/ }).all()) await box.uncheck();
    await page.locator('.headline', { hasText: 'order' }).waitFor();
    await settled(page);
    expect(await headline(page)).toBe(`order ${inStock}`);
    await page.waitForFunction(
      "Object.values(localStorage).some((text) => text.includes(',no') && !text.includes(',yes'))",
    );
    const next = await context.newPage();
    await next.goto(page.url().split('#')[0]!);
    await next.locator('.headline', { hasText: 'order' }).waitFor();
  });

  it('says what is wrong with a field in a racer’s words, and answers by the others', async () => {
    const { page } = await begin(PHONE);
    const own = await answer(page, { hand: byMouse, answers: first('28x10.5-15', 'radial slick', '150') });
    await page.getByRole('textbox', { name: 'What pressure does it run, cold?' }).fill('65');
    const told = page.locator('.question', { hasText: 'What pressure does it run' }).locator('.fault');
    await told.waitFor();
    expect(await told.textContent()).toMatch(/psi/);
    await settled(page);
    await own.type('What pressure does it run, cold?', '14');
    await expect.poll(() => told.count()).toBe(0);
  });

  it('judges the tub that is in the car already', async () => {
    const { page } = await begin(PHONE);
    const own = await answer(page, { hand: byMouse, answers: first('28x10.5-15', 'radial slick', '150') });
    await page.locator('summary', { hasText: 'in the car already' }).click();
    await own.type('how wide is it inside?', '34');
    await own.type('How high is its top above the track?', '31 1/2');
    const judged = page.getByRole('region', { name: 'The tub in the car' });
    await judged.waitFor();
    const text = ((await judged.textContent()) ?? '').replaceAll('\u00a0', ' ');
    expect(text).toMatch(/NOT WITHIN.*top 31 1\/2 in above the track/);
    expect(text).toMatch(/raise it by/);
    await settled(page);
    await own.press('The caller’s sheet');
    const lead = page.locator('.sheet .in-the-car');
    expect(((await lead.textContent()) ?? '').replaceAll('\u00a0', ' ')).toMatch(
      /^In the car: .* NOT within .* raise it by .* This sheet is for a tub that is built anew/,
    );
    expect(await page.locator('.sheet').evaluate((sheet) => sheet.textContent)).toMatch(
      /In the car.*Top, inside/,
    );
    await onOnePage(page);
    await own.press('Back to the questions');
    await page.getByRole('button', { name: 'Show mm' }).click();
    await expect.poll(() => judged.textContent()).toMatch(/raise it by \d+\smm, to \d+\smm/);
    expect(await judged.textContent()).not.toMatch(/\d\sin\b(?!\s\d)/);
  });

  it('starts from the shop’s priors when their file is opened, and goes back without them', async () => {
    const file = join(folder, 'shop-priors.yaml');
    writeFileSync(file, growingMore());
    const { page, heard } = await begin(DESK);
    const own = await answer(page, { hand: byMouse, answers: first('33.5x17.0-16', 'bias slick', '224') });
    await settled(page);
    const before = await headline(page);
    await page.getByLabel('Open a case file').setInputFiles(file);
    await page
      .getByRole('status')
      .filter({ hasText: 'From the shop’s book back-street: 7 cars, 212 runs without a mark, 3 marks' })
      .waitFor();
    await expect.poll(() => headline(page)).not.toBe(before);
    await settled(page);
    await own.press('Without the shop’s priors');
    await expect.poll(() => headline(page)).toBe(before);
    writeFileSync(file, growingMore().replace('after: "0.04"', 'after: "0.05"'));
    await page.getByLabel('Open a case file').setInputFiles(file);
    await page.getByRole('alert').filter({ hasText: 'shop-priors.yaml' }).waitFor();
    expect(heard).toEqual([]);
  });

  it('is asked for without a case on the command line', () => {
    const out = join(folder, 'asking.html');
    expect(tubgap(folder, 'show', '--no-open', '--out', out)).toMatchObject({ code: 0, err: '' });
    expect(readFileSync(out, 'utf8')).toBe(readFileSync(ASKING, 'utf8'));
  });

  it.each([320, 390, 768, 1280])('passes the accessibility checker and fits at %i px', async (width) => {
    const { page } = await begin({ width, height: 844 });
    const check = async (): Promise<void> => {
      const { violations } = await new AxeBuilder({ page }).analyze();
      expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)).toEqual([]);
      expect(await page.evaluate('document.documentElement.scrollWidth')).toBeLessThanOrEqual(width);
    };
    await check();
    const own = await answer(page, { hand: byMouse, answers: first('28x10.5-15', 'radial slick', '150') });
    await settled(page);
    await page.locator('summary', { hasText: 'tubs' }).click();
    await check();
    await own.press('The caller’s sheet');
    await check();
  });
});
