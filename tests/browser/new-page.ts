import type { Browser, BrowserContext, Page } from 'playwright-core';

interface PageOptions {
  viewport: { width: number; height: number };
  colorScheme?: 'light' | 'dark';
  hasTouch?: boolean;
  timezoneId?: string;
}

interface Shared {
  context: BrowserContext;
  /** whose storage the next page must not find */
  origins: Set<string>;
}

const known = new WeakMap<Browser, Map<string, Shared>>();

/**
 * A page that knows nothing of the ones before it. A context of its own costs nearly as much as all else that is done to
 * open a screen, so one in which no other is open is emptied and used again. An empty page keeps its window.
 */
export async function newPage(browser: Browser, options: PageOptions): Promise<Page> {
  const { viewport, colorScheme = 'light', ...lasting } = options;
  const shared = await findShared(browser, lasting);
  if (shared.context.pages().length > 1) return browser.newPage(options);
  const page = await shared.context.newPage();
  await forget(shared, page);
  await page.setViewportSize(viewport);
  await page.emulateMedia({ colorScheme });
  return page;
}

async function findShared(
  browser: Browser,
  lasting: Omit<PageOptions, 'viewport' | 'colorScheme'>,
): Promise<Shared> {
  const ofBrowser = known.get(browser) ?? new Map<string, Shared>();
  known.set(browser, ofBrowser);
  const key = JSON.stringify([lasting.hasTouch ?? false, lasting.timezoneId]);
  const found = ofBrowser.get(key);
  if (found !== undefined) return found;
  const made: Shared = { context: await browser.newContext(lasting), origins: new Set() };
  await made.context.newPage();
  made.context.on('request', (request) => made.origins.add(new URL(request.url()).origin));
  ofBrowser.set(key, made);
  return made;
}

async function forget({ context, origins }: Shared, page: Page): Promise<void> {
  await context.clearCookies();
  await context.clearPermissions();
  await context.setOffline(false);
  const session = await context.newCDPSession(page);
  for (const origin of origins)
    await session.send('Storage.clearDataForOrigin', { origin, storageTypes: 'all' });
  await session.detach();
  origins.clear();
}
