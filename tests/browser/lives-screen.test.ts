import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { exportFiles } from '#server/contract/exports.ts';
import { type FleetLivesReply, fleetLivesQuery } from '#server/contract/lives.ts';
import { launchBrowser } from '#tests/helpers/launch-browser.ts';
import { buildScreens } from './build-screens.ts';
import { findViolations } from './find-violations.ts';
import { makeLives, makeLivesReply, noLivesReply } from './fixtures/lives-fixture.ts';
import { makeRows } from './fixtures/ranking-fixture.ts';
import { newPage } from './new-page.ts';
import { origin, serveFixture } from './open-page.ts';

let browser: Browser;
beforeAll(async () => {
  await buildScreens();
  browser = await launchBrowser();
});
afterAll(() => browser?.close());

const lives = makeLives();
const screen = '/analysis/lives';

interface Options {
  width?: number;
  colorScheme?: 'light' | 'dark';
  distance?: 'km' | 'mi';
  answer?: (query: ReturnType<typeof fleetLivesQuery.parse>) => FleetLivesReply;
}

async function open(path: string, options: Options = {}) {
  const { width = 1280, colorScheme = 'light', distance = 'km' } = options;
  const { answer = ({ group_by }) => makeLivesReply(lives, group_by ?? null) } = options;
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
  await page.clock.setFixedTime('2026-03-04T08:30:00Z');
  await page.addInitScript((unit) => localStorage.setItem('slipdrift.distance', unit), distance);
  await serveFixture(page, makeRows(5));
  const asked: URLSearchParams[] = [];
  await page.route(
    (url) => url.pathname === `/api${screen}`,
    (route) => {
      const query = new URL(route.request().url()).searchParams;
      asked.push(query);
      return route.fulfill({ json: answer(fleetLivesQuery.parse(Object.fromEntries(query))) });
    },
  );
  await page.goto(origin + path);
  return { page, complaints, asked };
}

const searchOf = (page: Page) => Object.fromEntries(new URL(page.url()).searchParams);

async function expectToFit(page: Page): Promise<void> {
  const { scroll, shown } = await page.evaluate(() => ({
    scroll: document.documentElement.scrollWidth,
    shown: document.documentElement.clientWidth,
  }));
  expect(scroll).toBeLessThanOrEqual(shown);
}

describe('the lives', () => {
  it.each([
    [1920, 'dark'],
    [1280, 'light'],
    [390, 'dark'],
  ] as const)('pass WCAG 2.2 AA and fit at %i px, %s, all charts drawn', async (width, colorScheme) => {
    const { page, complaints } = await open(`${screen}?group_by=supplier`, { width, colorScheme });
    await expect.poll(() => page.locator('[data-chart="ready"]').count()).toBe(5);
    expect(await findViolations(page)).toEqual([]);
    await expectToFit(page);
    if (width < 500) {
      const small = await page
        .locator('main :is(button, select, summary)')
        .evaluateAll((all) => all.filter((one) => one.getBoundingClientRect().height < 43.9).length);
      expect(small).toBe(0);
    }
    expect(complaints).toEqual([]);
    await page.close();
  });

  it('say first which group stands out, and draw it with names and counts', async () => {
    const { page } = await open(`${screen}?group_by=supplier`);
    await page.getByText(/^A tenth of units of Brantorly Exchange fail by/).waitFor();
    await page.locator('[data-chart="ready"] svg text').first().waitFor();
    const words = await page.locator('[data-chart]').first().locator('svg text').allTextContents();
    expect(words.filter((text) => text === 'Brantorly Exchange')).toHaveLength(2);
    expect(words).toContain('under watch');
    const row = page.getByRole('region', { name: 'Groups' }).getByRole('row', { name: /^Brantorly/ });
    expect(await row.textContent()).toMatch(/wearing out/);
    await page
      .getByText(/fails [\d.]+ times as often/)
      .first()
      .waitFor();
    await page.close();
  });

  it('keep every choice in the address and ask the server for it, by keys alone', async () => {
    const { page, asked, complaints } = await open(screen);
    await page.getByText(/^A tenth of the converters fail by/).waitFor();
    await page.getByLabel('Compared by').press('s');
    await expect.poll(() => searchOf(page)).toEqual({ group_by: 'source' });
    await page.getByLabel('Compared by').selectOption('supplier');
    await page.locator('summary', { hasText: 'Platforms' }).press('Enter');
    await page.getByRole('checkbox', { name: 'Morvelt bus' }).press('Space');
    await page.keyboard.press('Escape');
    expect(await page.getByRole('checkbox', { name: 'Morvelt bus' }).isVisible()).toBe(false);
    await page.locator('summary', { hasText: 'Lives count' }).press('Enter');
    await page.getByRole('radio', { name: /^since fitting/ }).press('Space');
    await page.getByLabel('Watched from').fill('2024-02-01');
    await page.getByRole('radio', { name: 'lognormal' }).press('Space');
    const all = { group_by: 'supplier', platform: 'morvelt', records: 'fitting', from: '2024-02-01' };
    await expect.poll(() => searchOf(page)).toEqual({ ...all, fit: 'lognormal' });
    expect(Object.fromEntries(asked.at(-1) ?? [])).toEqual(all);
    await page.getByRole('heading', { name: 'Lognormal plot' }).waitFor();
    const csv = page.getByRole('link', { name: 'The lives shown here as CSV' });
    expect(new URL((await csv.getAttribute('href')) ?? '', origin).searchParams.get('platform')).toBe(
      'morvelt',
    );
    const files = page.locator('main a[href^="/api/export/"]');
    const hrefs = await files.evaluateAll((all) =>
      all.map((one) => one.getAttribute('href')?.slice(12) ?? ''),
    );
    expect(hrefs.toSorted()).toEqual(exportFiles.toSorted());
    await page.getByRole('button', { name: 'Show all' }).press('Enter');
    await expect
      .poll(() => searchOf(page))
      .toEqual({ group_by: 'supplier', records: 'fitting', fit: 'lognormal' });
    expect(complaints).toEqual([]);
    await page.close();
  });

  it('have their numbers one key away, in the miles of the reader', async () => {
    const { page } = await open(`${screen}?group_by=supplier`, { distance: 'mi' });
    await page.locator('[data-chart="ready"]').first().waitFor();
    await page.keyboard.press('n');
    const table = page.getByRole('table', { name: 'Survival, Brantorly Exchange' });
    expect(await table.getByRole('columnheader').first().textContent()).toBe('mi');
    expect(await page.locator('main').textContent()).not.toMatch(/\d\skm\b/);
    await page.close();
  });
});

describe('where little can be said', () => {
  const few = lives.slice(0, 20).map((life) => ({ ...life, event: false }));

  it('what is missing is said, and what was watched is shown', async () => {
    const { page, complaints } = await open(screen, { answer: () => makeLivesReply(few, null) });
    await page.getByText(/^None of 20 converters under watch has failed/).waitFor();
    await page.getByText(/needed: at least 2 failures/).waitFor();
    await expect.poll(() => page.locator('[data-chart="ready"]').count()).toBe(1);
    expect(await findViolations(page)).toEqual([]);
    expect(complaints).toEqual([]);
    await page.close();
  });

  it('it is said how lives come in, or that the choice leaves none', async () => {
    const { page } = await open(screen, { answer: () => noLivesReply });
    await page.getByText('registered with POST /api/lives').waitFor();
    await page.goto(`${origin}${screen}?depot=north`);
    await page.getByText('No converter is left by this choice.').waitFor();
    await page.getByRole('main').getByRole('button', { name: 'Show all' }).last().click();
    await expect.poll(() => searchOf(page)).toEqual({});
    await page.close();
  });

  it('a refusal is said in its own words, and asked again', async () => {
    const { page } = await open(screen);
    await page.route(
      (url) => url.pathname === `/api${screen}` && url.searchParams.has('platform'),
      (route) =>
        route.fulfill({
          status: 400,
          contentType: 'application/problem+json',
          body: JSON.stringify({
            title: 'Not a valid request',
            status: 400,
            code: 'invalid_request',
            detail: 'No platform has the id nothing.',
            errors: [],
          }),
        }),
    );
    await page.goto(`${origin}${screen}?platform=nothing`);
    await page.getByText('No platform has the id nothing.').waitFor();
    await page.getByRole('button', { name: 'Show all' }).click();
    await page.getByText(/^A tenth of the converters fail by/).waitFor();
    await page.close();
  });
});
