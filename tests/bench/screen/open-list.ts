import type { Browser, Page } from 'playwright-core';

const WIDTH_PX = 1280;
const HEIGHT_PX = 900;
/** What is painted largest may still come after the first row. */
const SETTLE_MS = 700;

/** A page with nothing in its caches, signed in. */
export async function openPage(browser: Browser, url: string, cookie: string): Promise<Page> {
  const context = await browser.newContext({ viewport: { width: WIDTH_PX, height: HEIGHT_PX } });
  await context.addCookies(
    cookie.split('; ').map((pair) => {
      const at = pair.indexOf('=');
      return { name: pair.slice(0, at), value: pair.slice(at + 1), url };
    }),
  );
  // What runs in the page is compiled with a helper that only this process has.
  await context.addInitScript('globalThis.__name = (named) => named;');
  return context.newPage();
}

export async function openList(page: Page, url: string): Promise<void> {
  await page.goto(url);
  await page.locator('[data-index="0"]').waitFor();
}

/** Milliseconds from the address to the largest contentful paint of the page that is open. */
export async function readLargestPaint(page: Page): Promise<number> {
  await page.waitForTimeout(SETTLE_MS);
  return page.evaluate(
    () =>
      new Promise<number>((settle) => {
        new PerformanceObserver((seen) => settle(seen.getEntries().at(-1)?.startTime ?? Number.NaN)).observe({
          type: 'largest-contentful-paint',
          buffered: true,
        });
      }),
  );
}
