import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { launchBrowser } from '#tests/helpers/launch-browser.ts';
import { newPage } from './new-page.ts';

const origin = 'http://slipdrift.test';
const viewport = { width: 1280, height: 900 };
let browser: Browser;

beforeAll(async () => {
  browser = await launchBrowser();
});
afterAll(() => browser?.close());

async function visit(options: Parameters<typeof newPage>[1]): Promise<Page> {
  const page = await newPage(browser, options);
  await page.route(`${origin}/**`, (route) => route.fulfill({ body: '<p>x', contentType: 'text/html' }));
  await page.goto(origin);
  return page;
}

const tell = (page: Page) =>
  page.evaluate(async () => ({
    kept: [localStorage.length, sessionStorage.length, document.cookie],
    databases: (await indexedDB.databases()).length,
    clipboard: (await navigator.permissions.query({ name: 'clipboard-read' as PermissionName })).state,
    dark: matchMedia('(prefers-color-scheme: dark)').matches,
    width: window.innerWidth,
    online: navigator.onLine,
    past: history.length,
  }));

it('opens a page that finds nothing of the page before, and looks as asked', async () => {
  const first = await visit({ viewport });
  const clean = await tell(first);
  expect(clean).toMatchObject({ kept: [0, 0, ''], databases: 0, dark: false, width: 1280, online: true });
  await first.context().grantPermissions(['clipboard-read']);
  await first.evaluate(async () => {
    localStorage.setItem('a', '1');
    sessionStorage.setItem('a', '1');
    // biome-ignore lint/suspicious/noDocumentCookie: any cookie will do.
    document.cookie = 'a=1; max-age=1000';
    await new Promise((settle, fail) => {
      Object.assign(indexedDB.open('a'), { onsuccess: settle, onerror: fail });
    });
  });
  await first.goto(`${origin}/further`);
  await first.context().setOffline(true);
  expect(await tell(first)).toMatchObject({ kept: [1, 1, 'a=1'], databases: 1, online: false });
  await first.close();

  const second = await visit({ viewport: { width: 390, height: 900 }, colorScheme: 'dark' });
  expect(second.context()).toBe(first.context());
  expect(await tell(second)).toEqual({ ...clean, dark: true, width: 390 });
});

it('gives two pages that are open at once nothing in common', async () => {
  const one = await visit({ viewport, timezoneId: 'UTC' });
  const other = await visit({ viewport, timezoneId: 'UTC' });
  await one.evaluate(() => localStorage.setItem('a', '1'));
  expect(await tell(other)).toMatchObject({ kept: [0, 0, ''] });
  expect(other.context()).not.toBe(one.context());
});
