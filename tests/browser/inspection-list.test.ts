import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { launchBrowser } from '#tests/helpers/launch-browser.ts';
import { buildScreens } from './build-screens.ts';
import { findViolations } from './find-violations.ts';
import { withPlans } from './fixtures/list-answers.ts';
import { makeRows } from './fixtures/ranking-fixture.ts';
import { newPage } from './new-page.ts';
import { origin, serveFixture } from './open-page.ts';

const rows = withPlans(makeRows());
let browser: Browser;

beforeAll(async () => {
  await buildScreens();
  browser = await launchBrowser();
});
afterAll(() => browser?.close());

async function openList(
  address: string,
  options: { width?: number; colorScheme?: 'light' | 'dark'; fleet?: typeof rows } = {},
) {
  const { width = 1280, colorScheme = 'light', fleet = rows } = options;
  const page = await newPage(browser, { viewport: { width, height: 900 }, colorScheme });
  const complaints: string[] = [];
  page.on('console', (message) => {
    if (['error', 'warning'].includes(message.type())) complaints.push(message.text());
  });
  page.on('pageerror', (error) => complaints.push(error.message));
  await page.clock.setFixedTime('2026-03-04T08:30:00Z');
  await serveFixture(page, fleet);
  await page.goto(origin + address);
  return { page, complaints };
}

const firstRow = (page: Page) => page.locator('[data-index="0"] [data-row-button]');
const searchOf = (page: Page) => new URL(page.url()).searchParams;

describe('the inspection list', () => {
  it.each([
    [1280, 'light'],
    [1280, 'dark'],
    [390, 'light'],
    [390, 'dark'],
    [1920, 'light'],
    [1920, 'dark'],
  ] as const)(
    'passes WCAG 2.2 AA at %i px on a %s ground, opened and compared',
    async (width, colorScheme) => {
      const [a, b, c] = rows.map((row) => row.vehicle);
      const address = `/?open=${a}&compare=${a},${b},${c}`;
      const { page, complaints } = await openList(address, { width, colorScheme });
      await firstRow(page).waitFor();
      if (width < 768) await page.getByText('When limits are reached').click();
      const comparison = page.getByRole('complementary', { name: 'Comparison' });
      await comparison.locator('svg text', { hasText: a! }).first().waitFor({ state: 'attached' });
      await page.getByText(`Why ${a} above ${b}?`).waitFor();
      expect(await findViolations(page)).toEqual([]);
      expect(complaints).toEqual([]);
      await page.close();
    },
  );

  it('moves by keys alone: down, open, to the vehicle', async () => {
    const { page, complaints } = await openList('/');
    await firstRow(page).waitFor();
    await page.keyboard.press('j');
    await page.keyboard.press('j');
    const second = page.locator('[data-index="1"] [data-row-button]');
    await expect.poll(() => second.evaluate((button) => button === document.activeElement)).toBe(true);
    await page.keyboard.press('Enter');
    await expect.poll(() => searchOf(page).get('open')).toBe(rows[1]?.vehicle);
    expect(await second.getAttribute('aria-expanded')).toBe('true');
    await page.keyboard.press('c');
    await expect.poll(() => searchOf(page).get('chosen')).toBe(rows[1]?.vehicle);
    await page.keyboard.press('o');
    await expect.poll(() => new URL(page.url()).pathname).toBe(`/vehicles/${rows[1]?.vehicle}`);
    expect(complaints.filter((text) => !text.includes('404'))).toEqual([]);
    await page.close();
  });

  it('keeps search, grade and horizon in the address and takes them back from it', async () => {
    const { page } = await openList('/?grade=hold&q=B-1');
    const wanted = rows.filter((row) => row.grade === 'hold' && row.vehicle.includes('B-1'));
    await page.getByText(`${wanted.length} vehicles`, { exact: true }).waitFor();
    await page.keyboard.press('/');
    await page.keyboard.type('00417');
    await expect.poll(() => searchOf(page).get('q')).toBe('00417');
    await page.getByRole('button', { name: /hold/ }).click();
    await expect.poll(() => searchOf(page).get('grade')).toBe(null);
    await firstRow(page).waitFor();
    await expect.poll(() => page.locator('[data-row-button]').allTextContents()).toContain('00417');
    await page.getByLabel('Horizon').selectOption('10000');
    await expect.poll(() => searchOf(page).get('horizon_km')).toBe('10000');
    await page.getByText('30,000 km').first().waitFor();
    await page.close();
  });

  it('leaves out what an address asks for and nobody offers', async () => {
    const { page, complaints } = await openList('/?sort=bogus&horizon_km=7&grade=fine&else=1');
    await page.getByText(`${rows.length} vehicles`, { exact: true }).waitFor();
    await firstRow(page).waitFor();
    expect(complaints).toEqual([]);
    await page.close();
  });

  it('changes every distance to miles when the reader chooses miles, and remembers it', async () => {
    const { page } = await openList(`/?open=${rows[5]?.vehicle}`);
    await firstRow(page).waitFor();
    await page.getByText('km · °C · auto').click();
    await page.getByLabel('miles').check();
    await page.getByText('mi · °C · auto').waitFor();
    const figures = await page.locator('thead, dl').allInnerTexts();
    expect(figures.join(' ')).not.toMatch(/\bkm\b/);
    await page.reload();
    await page.getByText('mi · °C · auto').waitFor();
    await page.close();
  });

  it('says how to send the first reading while there is none', async () => {
    const { page } = await openList('/', { fleet: [] });
    await page.getByText('No vehicle has sent a reading yet').waitFor();
    expect(await page.locator('pre').first().textContent()).toContain(
      'curl http://slipdrift.test/api/readings',
    );
    await page.close();
  });

  it('offers all vehicles where no vehicle matches', async () => {
    const { page } = await openList('/?q=nothing-like-it');
    await page.getByRole('button', { name: 'Show all vehicles' }).click();
    await firstRow(page).waitFor();
    await page.close();
  });

  it('shows a refusal as the server words it, and asks again', async () => {
    const { page } = await openList('/nowhere');
    let isDown = true;
    const refusal = {
      type: 'about:blank',
      title: 'Storage is away',
      status: 400,
      detail: 'The database does not answer.',
      code: 'storage_unavailable',
      errors: [],
    };
    await page.route(`${origin}/api/ranking?**`, (route) =>
      isDown
        ? route.fulfill({
            status: 400,
            contentType: 'application/problem+json',
            body: JSON.stringify(refusal),
          })
        : route.fallback(),
    );
    await page.goto(`${origin}/`);
    await page.getByText('The database does not answer.').waitFor();
    isDown = false;
    await page.getByRole('button', { name: 'Try again' }).click();
    await firstRow(page).waitFor();
    await page.close();
  });

  it('draws only the rows in sight of ten thousand and loads more while scrolling', async () => {
    const { page } = await openList('/', { fleet: makeRows(10_000) });
    await page.getByText('10,000 vehicles', { exact: true }).waitFor();
    await firstRow(page).waitFor();
    expect(await page.locator('[data-index]').count()).toBeLessThan(60);
    for (let i = 0; i < 12; i++) {
      await page.mouse.wheel(0, 2500);
      await page.waitForTimeout(60);
    }
    await expect
      .poll(async () => Number(await page.locator('[data-index]').last().getAttribute('data-index')))
      .toBeGreaterThan(400);
    expect(await page.locator('[data-index]').count()).toBeLessThan(60);
    await page.close();
  });
});
