import { type Browser, chromium } from 'playwright-core';
import { findBrowser } from './find-browser.mjs';

/** A Chromium for a test. Root cannot have its sandbox, and containers give little shared memory. */
export async function launchBrowser(): Promise<Browser> {
  const executablePath = await findBrowser();
  if (executablePath === null)
    throw new Error(
      'No Chromium: run node tests/house/find-chromium.mjs, or name one in SLIPDRIFT_CHROMIUM.',
    );
  return chromium.launch({ executablePath, args: ['--no-sandbox', '--disable-dev-shm-usage'] });
}
