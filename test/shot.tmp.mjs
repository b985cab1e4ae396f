process.env.AWS_LAMBDA_JS_RUNTIME = 'nodejs20.x';
const chromium = (await import('@sparticuz/chromium')).default;
const { chromium: pw } = await import('playwright-core');
const [, , url, out, width, height = '900'] = process.argv;
const browser = await pw.launch({
  executablePath: await chromium.executablePath(),
  args: ['--no-sandbox'],
  headless: true,
});
const page = await browser.newPage({ viewport: { width: Number(width), height: Number(height) } });
await page.goto(url);
await page.waitForTimeout(300);
console.log(
  await page.evaluate(() => [document.documentElement.scrollWidth, document.documentElement.scrollHeight]),
);
await page.screenshot({ path: out, fullPage: true });
await browser.close();
