import { type Browser, chromium } from 'playwright-core';

/** The browser of these tests comes with npm for Linux on x64 only; elsewhere TUBGAP_CHROMIUM names one. */
export const canOpen =
  process.env.TUBGAP_CHROMIUM !== undefined || (process.platform === 'linux' && process.arch === 'x64');

/** Path of the browser, unpacked on first use. */
export async function browserPath(): Promise<string> {
  const named = process.env.TUBGAP_CHROMIUM;
  if (named !== undefined) return named;
  // Only with this set does the package unpack its own libraries too; it must be set before the import.
  process.env.AWS_LAMBDA_JS_RUNTIME ??= 'nodejs20.x';
  const { default: packed } = await import('@sparticuz/chromium');
  return packed.executablePath();
}

/** A headless browser; close it after the tests. */
export async function openBrowser(): Promise<Browser> {
  return chromium.launch({ executablePath: await browserPath(), args: ['--no-sandbox'] });
}
