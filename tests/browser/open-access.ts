import type { Browser, Page } from 'playwright-core';
import { expect } from 'vitest';
import type { RankingRow } from '#server/contract/ranking.ts';
import { type Access, fixtureNow, makeAccess } from './fixtures/access-fixture.ts';
import { makeRows } from './fixtures/ranking-fixture.ts';
import { newPage } from './new-page.ts';
import { origin, serveFixture } from './open-page.ts';

interface Options {
  access?: Access;
  rows?: readonly RankingRow[];
  width?: number;
  colorScheme?: 'light' | 'dark';
}

/** A page at an own path, with what its console complained of and which calls it made. */
export async function openAccess(browser: Browser, path: string, options: Options = {}) {
  const { access = makeAccess(), rows = makeRows(40), width = 1280, colorScheme = 'light' } = options;
  const page = await newPage(browser, {
    viewport: { width, height: 900 },
    colorScheme,
    hasTouch: width < 500,
    timezoneId: 'UTC',
  });
  const complaints: string[] = [];
  const calls: string[] = [];
  page.on('console', (message) => {
    if (['error', 'warning'].includes(message.type())) complaints.push(message.text());
  });
  page.on('pageerror', (error) => complaints.push(error.message));
  page.on('request', (request) => {
    const { pathname } = new URL(request.url());
    if (pathname.startsWith('/api/')) calls.push(`${request.method()} ${pathname}`);
  });
  await page.clock.setFixedTime(fixtureNow);
  await serveFixture(page, rows, access);
  await page.goto(origin + path);
  return { page, access, complaints, calls };
}

/** Nothing sticks out at the side, and on a phone every control has room for a thumb. */
export async function expectToFit(page: Page): Promise<void> {
  const { scroll, shown } = await page.evaluate(() => ({
    scroll: document.documentElement.scrollWidth,
    shown: document.documentElement.clientWidth,
  }));
  expect(scroll).toBeLessThanOrEqual(shown);
  if (shown > 500) return;
  const small = await page
    .locator(
      'main :is(button, select, textarea, summary), main input:not([type=radio], [type=checkbox], [hidden])',
    )
    .evaluateAll((all) =>
      all
        .filter((one) => one.checkVisibility() && one.getBoundingClientRect().height < 43.9)
        .map((one) => one.outerHTML.slice(0, 120)),
    );
  expect(small).toEqual([]);
}

export const headOf = (page: Page, name: string | RegExp) => page.getByRole('heading', { level: 1, name });
export const pathOf = (page: Page): string => new URL(page.url()).pathname;
