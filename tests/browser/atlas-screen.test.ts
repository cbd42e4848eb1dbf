import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Atlas } from '#server/contract/atlas.ts';
import { launchBrowser } from '#tests/helpers/launch-browser.ts';
import { buildScreens } from './build-screens.ts';
import { findViolations } from './find-violations.ts';
import { makeAtlas } from './fixtures/atlas-fixture.ts';
import { makeMovement } from './fixtures/movement-fixture.ts';
import { makeRows } from './fixtures/ranking-fixture.ts';
import { newPage } from './new-page.ts';
import { origin, serveFixture } from './open-page.ts';

let browser: Browser;
beforeAll(async () => {
  await buildScreens();
  browser = await launchBrowser();
});
afterAll(() => browser?.close());

const path = '/platforms/korvandel/atlas';

async function open(
  address: string,
  { width = 1280, colorScheme = 'light' as 'light' | 'dark', changes = {} as Partial<Atlas> } = {},
) {
  const page = await newPage(browser, {
    viewport: { width, height: 900 },
    colorScheme,
    hasTouch: width < 500,
  });
  const complaints: string[] = [];
  page.on('console', (message) => {
    if (['error', 'warning'].includes(message.type())) complaints.push(message.text());
  });
  page.on('pageerror', (error) => complaints.push(error.message));
  await serveFixture(page, makeRows(4));
  const asked: string[] = [];
  await page.route(
    (url) => url.pathname === `/api${path}`,
    (route) => {
      const { search, searchParams } = new URL(route.request().url());
      asked.push(search);
      return route.fulfill({ json: makeAtlas(searchParams.get('vehicle'), changes) });
    },
  );
  await page.route(`${origin}/api/platforms/korvandel/movement`, (route) =>
    route.fulfill({ json: makeMovement() }),
  );
  await page.goto(origin + address);
  return { page, complaints, asked };
}

const areDrawn = (page: Page) => expect.poll(() => page.locator('[data-chart="ready"] svg').count()).toBe(2);

describe('the atlas of a platform', () => {
  it.each([
    [1920, 'dark'],
    [390, 'light'],
  ] as const)('passes WCAG 2.2 AA and fits at %i px, %s, its numbers open', async (width, colorScheme) => {
    const { page, complaints } = await open(`${path}?vehicle=204`, { width, colorScheme });
    await areDrawn(page);
    await page.getByRole('button', { name: 'Numbers' }).first().click();
    await page.getByRole('table', { name: /^Slip of the platform by command/ }).waitFor();
    expect(await findViolations(page)).toEqual([]);
    const { scroll, shown } = await page.evaluate(() => ({
      scroll: document.documentElement.scrollWidth,
      shown: document.documentElement.clientWidth,
    }));
    expect(scroll).toBeLessThanOrEqual(shown);
    expect(complaints).toEqual([]);
    await page.close();
  });

  it('is reached from the platform, and lays a vehicle on top that the address then names', async () => {
    const { page, asked } = await open('/platforms/korvandel');
    await page.getByRole('link', { name: 'Atlas: slip against command and temperature' }).press('Enter');
    await page.getByText('where most readings are').waitFor();
    await page.getByLabel('Vehicle on top').selectOption('204');
    await page.getByText('Vehicle 204 lies above 95 % of its platform at 70 to 85 % command').waitFor();
    await page.getByRole('radio', { name: '2 years' }).check();
    await expect.poll(() => new URL(page.url()).search).toBe('?days=731&vehicle=204');
    await expect.poll(() => asked.at(-1)).toBe('?days=731&vehicle=204');
    await page.getByText('17 Sep 2025: +25 rpm at once on 55 vehicles').waitFor();
    expect(await page.getByRole('link', { name: 'Vehicle 204' }).getAttribute('href')).toBe('/vehicles/204');
    await page.close();
  });

  it('says what is lacking, and still offers another period', async () => {
    const { page, complaints } = await open(path, {
      changes: { stretches: 0, vehicles: 0, by_fluid: null, events: [] },
    });
    await page.getByText('in this period could be compared').waitFor();
    expect(await page.locator('[data-chart]').count()).toBe(0);
    await page.getByText('No step so far').waitFor();
    expect(complaints).toEqual([]);
    await page.close();
  });

  it('says that the vehicle belongs elsewhere, and lets another be chosen', async () => {
    const { page } = await open('/');
    await page.route(
      (url) => url.pathname === `/api${path}` && url.searchParams.get('vehicle') === 'D',
      (route) =>
        route.fulfill({
          status: 400,
          contentType: 'application/problem+json',
          json: {
            title: 'The request is not right',
            status: 400,
            code: 'invalid_request',
            detail: "Vehicle 'D' belongs to the platform 'bare'. Choose another, or none.",
            errors: [],
          },
        }),
    );
    await page.goto(`${origin}${path}?vehicle=D`);
    await page.getByText("belongs to the platform 'bare'").waitFor();
    await page.getByLabel('Vehicle on top').selectOption('');
    await page.getByText('where most readings are').waitFor();
    await page.close();
  });
});
