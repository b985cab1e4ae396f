import { browserPath, canOpen } from './browser.ts';

/** Unpacks the browser once, before test files that run at the same time ask for it. */
export default async function unpack(): Promise<void> {
  if (canOpen) await browserPath();
  else
    console.warn(
      'No browser for this system comes with npm: the page tests are skipped. Set TUBGAP_CHROMIUM to run them.',
    );
}
