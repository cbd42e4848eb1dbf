import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { launchBrowser } from '#tests/helpers/launch-browser.ts';
import { buildScreens } from './build-screens.ts';
import { findViolations } from './find-violations.ts';
import { makeAccess } from './fixtures/access-fixture.ts';
import { expectToFit, headOf, openAccess } from './open-access.ts';

let browser: Browser;

beforeAll(async () => {
  await buildScreens();
  browser = await launchBrowser();
});
afterAll(() => browser?.close());

const open = (path: string, more: { width?: number; colorScheme?: 'light' | 'dark' } = {}) =>
  openAccess(browser, path, { access: makeAccess({ role: 'admin' }), ...more });

it.each([
  ['/settings/storage', 390, 'light'],
  ['/settings/storage', 1280, 'dark'],
  ['/settings/storage?months=all', 1920, 'light'],
] as const)('the storage passes WCAG 2.2 AA and fits: %s at %i px, %s', async (path, width, colorScheme) => {
  const { page, complaints } = await open(path, { width, colorScheme });
  await page.locator('[data-chart=ready] svg path').first().waitFor({ state: 'attached' });
  expect(await findViolations(page)).toEqual([]);
  await expectToFit(page);
  expect(complaints).toEqual([]);
  await page.close();
});

it('says what goes next, names what stands alone, and shows all months by keys, in the address', async () => {
  const { page, complaints } = await open('/settings/storage');
  await headOf(page, 'Storage').waitFor();
  await page.getByText(/Mar 2023 goes next, on 1 Apr 2026/).waitFor();
  await page.getByText(/^Far from all others: Mar 1991\./).waitFor();
  const months = page.getByRole('region', { name: 'Months' }).locator('tbody tr');
  expect(await months.count()).toBe(12);
  expect(await months.first().textContent()).toMatch(/May 2026\s*made ahead/);
  await page.getByRole('link', { name: 'All 39 months' }).press('Enter');
  await page.getByRole('link', { name: 'The newest alone' }).waitFor();
  expect(await months.count()).toBe(39);
  expect(new URL(page.url()).searchParams.get('months')).toBe('all');
  const upkeep = page.getByRole('region', { name: 'Upkeep' });
  expect(await upkeep.getByText(/^Not dropped, past retention: Others were using/).count()).toBe(1);
  expect(await upkeep.getByText('Nothing was due').count()).toBe(1);
  expect(complaints).toEqual([]);
  await page.close();
});
