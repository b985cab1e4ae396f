import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { BENCH, benchText, counted, openBench } from './bench-page.ts';
import { canOpen, openBrowser } from './browser.ts';

/** What someone would put into a page to run programs of his own, or to send what is typed elsewhere. */
const INJECTED = `<base href="http://127.0.0.1:9/"><script>window.hit = 'inline'</script>
<script type="module">window.hit = 'module'</script><img src="data:," onerror="window.hit = 'handler'">
<form action="http://127.0.0.1:9/"><button id="send">send</button></form>`;

/** Lines of the page that promise a count. */
const promises = async (page: Page): Promise<string[]> =>
  String(await page.evaluate('document.body.innerText'))
    .split('\n')
    .filter((line) => /counting/i.test(line));

describe.skipIf(!canOpen)('policy of the bench page', () => {
  let browser: Browser;
  let context: BrowserContext;
  let folder: string;
  let server: Server;
  let address: string;
  /** Headers that the host adds. */
  let headers: Record<string, string> = {};
  beforeAll(async () => {
    browser = await openBrowser();
    folder = mkdtempSync(join(tmpdir(), 'tubgap-policy-'));
    server = createServer((_, answer) => {
      answer.writeHead(200, { 'content-type': 'text/html; charset=utf-8', ...headers });
      answer.end(benchText());
    });
    await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
    address = `http://127.0.0.1:${(server.address() as AddressInfo).port}/`;
  });
  afterAll(async () => {
    server.close();
    rmSync(folder, { recursive: true, force: true });
    await browser?.close();
  });
  afterEach(async () => {
    headers = {};
    await context?.close();
  });

  it('names its own scripts, no base and no form, and lets the page count from a host', async () => {
    const policy = /Content-Security-Policy"\s+content="([^"]*)"/.exec(benchText())![1]!;
    const rules = Object.fromEntries(policy.split('; ').map((rule) => rule.split(/ (.*)/s)));
    expect(rules['script-src']).toMatch(/^('sha256-[\w+/]{43}=' ?){3}$/);
    expect(rules).toMatchObject({ 'default-src': "'none'", 'base-uri': "'none'", 'form-action': "'none'" });
    context = await browser.newContext();
    const page = await context.newPage();
    page.setDefaultTimeout(0);
    const heard: string[] = [];
    page.on('console', (message) => heard.push(message.text()));
    page.on('pageerror', (error) => heard.push(String(error)));
    await page.goto(address);
    await counted(page);
    expect(heard.filter((text) => !text.includes('favicon'))).toEqual([]);
  });

  it('runs nothing that was put into the page, and counts all the same', {
    repeats: 3,
  }, async () => {
    const made = join(folder, 'injected.html');
    writeFileSync(made, benchText().replace('<body>', `<body>${INJECTED}`));
    context = await browser.newContext();
    const { page, heard } = await openBench(context, made);
    await counted(page);
    await page.evaluate(`{
      const script = document.createElement('script');
      script.textContent = "window.hit = 'added'";
      document.body.append(script);
      document.body.insertAdjacentHTML('beforeend', '<img src="data:," onerror="window.hit = 1">');
      document.querySelector('#send').click();
    }`);
    for (const rule of ['script-src-elem', 'script-src-attr', 'base-uri', 'form-action'])
      await expect.poll(() => heard.join('\n')).toContain(`forbidden: ${rule}`);
    expect(await page.evaluate('window.hit')).toBeUndefined();
    expect(await page.evaluate('document.baseURI')).toMatch(/^file:.*injected\.html/);
    expect(page.url()).toMatch(/^file:.*injected\.html/);
  });

  it('says so where scripts are off, and promises no count', async () => {
    context = await browser.newContext({ javaScriptEnabled: false });
    const page = await context.newPage();
    page.setDefaultTimeout(0);
    await page.goto(address);
    await page.getByText('no script runs in this page').waitFor();
    expect(await promises(page)).toEqual([]);
    expect(await page.locator('.picture svg[role=img]').isVisible()).toBe(true);
  });

  it('says so where the host forbids scripts', async () => {
    headers = { 'content-security-policy': "script-src 'none'" };
    context = await browser.newContext();
    const page = await context.newPage();
    page.setDefaultTimeout(0);
    await page.goto(address);
    const said = page.getByText('no script runs in this page');
    expect(await said.isVisible()).toBe(false);
    await page.evaluate('document.getAnimations().forEach((one) => one.finish())');
    await said.waitFor();
  });

  it.each([
    ['the host forbids workers', { 'content-security-policy': "worker-src 'none'" }, ''],
    ['the browser throws', {}, 'window.Worker = class { constructor() { throw new Error("off"); } };'],
    ['there is no such thing', {}, 'delete window.Worker;'],
  ])('says so where %s, and promises no count', async (_, sent, before) => {
    headers = sent as Record<string, string>;
    context = await browser.newContext();
    const page = await context.newPage();
    page.setDefaultTimeout(0);
    await page.addInitScript(before);
    await page.goto(address);
    await page.getByText('No risk can be given').waitFor();
    await page.getByText('lets the page start no worker').waitFor();
    expect(await promises(page)).toEqual([]);
    await page.locator('.files').waitFor();
    await page.getByRole('textbox', { name: 'Measured gap left, straight up' }).fill('6');
    await page.getByRole('button', { name: 'Learn from what was typed in' }).click();
    await page.getByText('This browser stopped the work').waitFor();
    // The tub can be moved all the same, and nothing is promised of the new place either.
    await page.getByRole('button', { name: 'forward' }).click();
    expect(await promises(page)).toEqual([]);
  });

  it('says nothing of the kind where all is well', async () => {
    context = await browser.newContext();
    const { page } = await openBench(context, BENCH);
    expect(await page.locator('#asleep').count()).toBe(0);
  });
});
