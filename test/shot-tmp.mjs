process.env.AWS_LAMBDA_JS_RUNTIME ??= 'nodejs20.x';
const { default: packed } = await import('@sparticuz/chromium');
const { chromium } = await import('playwright-core');
const [file, out, ...sizes] = process.argv.slice(2);
const browser = await chromium.launch({
  executablePath: await packed.executablePath(),
  args: ['--no-sandbox'],
});
for (const s of sizes) {
  const [size, screen = '', mode = ''] = s.split(':');
  const [width, height] = size.split('x').map(Number);
  const page = await (
    await browser.newContext({ viewport: { width, height }, deviceScaleFactor: width < 900 ? 2 : 1 })
  ).newPage();
  await page.goto('file://' + file);
  await page.waitForSelector('#page:not([inert]) .picture svg[role=img]');
  if (mode.includes('big')) await page.addStyleTag({ content: 'html{font-size:200%}' });
  await page.waitForTimeout(mode.includes('early') ? 50 : 6000);
  if (screen) await page.getByRole('button', { name: screen, exact: true }).click();
  await page.waitForTimeout(150);
  if (mode.includes('down')) await page.evaluate('scrollBy(0, 500)');
  if (mode.includes('bottom')) await page.evaluate('scrollTo(0, 1e6)');
  await page.screenshot({ path: `${out}-${size}${screen}${mode}.png`, fullPage: mode.includes('full') });
}
await browser.close();
